import * as v from "valibot";
import { choice, estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import type { Note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { fewDisagreements } from "./around.ts";
import { chanceCorrectedExamples } from "./chance-corrected-examples.ts";
import { requireSquare, squareTable } from "./fields.ts";
import { kappaOfTable } from "./kappa.ts";
import { alphaOf, linearised, pabakOf } from "./pair-coefficients.ts";
import { type KappaParts, kappaFromParts, PARADOXES, paradoxOf } from "./paradox.ts";
import { sum } from "./square-shares.ts";
import type { Matrix } from "./weights.ts";

const Input = v.strictObject({ table: squareTable() });
const Options = v.strictObject({ method: intervalMethod(), level: level() });
const twoByTwo = {
  prevalenceIndex: quantity("proportion", "both in the first category less both in the second, of all items"),
  biasIndex: quantity(
    "proportion",
    "first reader alone in the first category less second alone, of all items",
  ),
  kappaWithoutPrevalence: quantity("statistic", "kappa if both answers were equally common"),
  kappaWithoutBias: quantity("statistic", "kappa if both readers gave the first answer equally often"),
  paradox: v.pipe(
    v.nullable(choice(PARADOXES, "which paradox of kappa the table shows")),
    v.description("prevalence: kappa low at high agreement; bias: kappa raised by unlike readers"),
  ),
};
const Values = v.strictObject({
  observedAgreement: proportionEstimate("items on which the two agree, of all"),
  kappa: estimate("statistic", "Cohen's kappa, for comparison"),
  pabak: estimate(
    "statistic",
    "kappa adjusted for prevalence and bias: chance spread evenly over categories",
  ),
  scottPi: estimate("statistic", "Scott's pi: chance by the categories' pooled shares"),
  scottPiStandardError: quantity("statistic", "large-sample standard error of Scott's pi"),
  ac1: estimate("statistic", "Gwet's AC1: chance on the items that are hard to read"),
  ac1StandardError: quantity("statistic", "large-sample standard error of AC1"),
  krippendorffAlpha: estimate("statistic", "Krippendorff's alpha, nominal"),
  ...twoByTwo,
});
export type ChanceCorrectedInput = v.InferOutput<typeof Input>;
export type ChanceCorrectedOptions = v.InferOutput<typeof Options>;
export type ChanceCorrectedValues = v.InferOutput<typeof Values>;
type TwoByTwoValues = Pick<ChanceCorrectedValues, keyof typeof twoByTwo>;

/**
 * The chance-corrected coefficients side by side, and whether kappa can be taken at its word.
 *
 * They differ in what they call chance only. Kappa keeps the two readers' own habits; pi and alpha pool
 * them; PABAK spreads chance evenly; AC1 lets chance play on hard items only. Where one answer is rare,
 * kappa, pi and alpha fall although the readers hardly ever differ, while PABAK and AC1 stay near the
 * plain agreement. PABAK and AC1 depend on the number of categories in the table, used or not.
 *
 * Intervals: of PABAK from the interval of the proportion that agree, so exact by default; of the others
 * by large-sample standard errors over items (t with n - 1 degrees of freedom for pi, AC1 and alpha),
 * which are none at full agreement and too short where disagreements are few.
 *
 * @param input   square table of counts of items; of two categories, the first is the reactive one
 * @param options interval of proportions (for PABAK), level
 * @returns coefficients in -1..1; indices, kappa without unbalance and the paradox for two categories
 *   only (`two_by_two_only`). `null` with a note where nothing was read or nothing varies
 * Sources: byrt1993, feinstein1990, scott1955, gwet2008, krippendorff2011
 */
export function chanceCorrectedAgreement(
  input: ChanceCorrectedInput,
  options: ChanceCorrectedOptions,
): Finding<ChanceCorrectedValues> {
  const { table } = input;
  requireSquare(table, ["input", "table"]);
  const total = sum(table.map(sum));
  const agreed = sum(table.map((row, index) => row[index] ?? 0));
  const observedAgreement = estimateProportion(agreed, total, options);
  const kappa = kappaOfTable(input, { weights: "none", level: options.level });
  const pi = linearised("scottPi", "shares", table, options.level);
  const ac1 = linearised("ac1", "spread", table, options.level);
  const alpha = alphaOf(table, pi.standardError, options.level);
  const split = twoByTwoParts(table, total);
  const partNotes = [pi, ac1, alpha, split].flatMap((part) => part.notes);
  const values: ChanceCorrectedValues = {
    observedAgreement,
    kappa: kappa.values.kappa,
    pabak: pabakOf(observedAgreement, table.length),
    scottPi: pi.estimate,
    scottPiStandardError: pi.standardError,
    ac1: ac1.estimate,
    ac1StandardError: ac1.standardError,
    krippendorffAlpha: alpha.estimate,
    ...split.values,
  };
  return { values, notes: [...notesOn(values, total - agreed, kappa.notes), ...partNotes] };
}

function notesOn(values: ChanceCorrectedValues, differing: number, ofKappa: readonly Note[]): Note[] {
  const empty = values.observedAgreement.total === 0 ? ["observedAgreement", "pabak"] : [];
  const few = (["scottPi", "ac1", "krippendorffAlpha"] as const).flatMap((path) =>
    fewDisagreements(path, values[path], differing),
  );
  return [
    ...notesAt("no_observations", empty, "nothing was read"),
    ...ofKappa.filter(({ path }) => path.startsWith("kappa")),
    ...few,
  ];
}

function twoByTwoParts(table: Matrix, total: number): { values: TwoByTwoValues; notes: Note[] } {
  const absent: TwoByTwoValues = {
    prevalenceIndex: null,
    biasIndex: null,
    kappaWithoutPrevalence: null,
    kappaWithoutBias: null,
    paradox: null,
  };
  const paths = Object.keys(absent);
  if (table.length !== 2) {
    const message = "defined for two categories only";
    return { values: absent, notes: notesAt("two_by_two_only", paths, message) };
  }
  if (total === 0) return { values: absent, notes: notesAt("no_observations", paths, "nothing was read") };
  const [both = 0, firstOnly = 0, secondOnly = 0, neither = 0] = table.flat();
  const parts: KappaParts = {
    pabak: (both + neither - firstOnly - secondOnly) / total,
    prevalenceIndex: (both - neither) / total,
    biasIndex: (firstOnly - secondOnly) / total,
  };
  const values: TwoByTwoValues = {
    prevalenceIndex: parts.prevalenceIndex,
    biasIndex: parts.biasIndex,
    kappaWithoutPrevalence: kappaFromParts({ ...parts, prevalenceIndex: 0 }),
    kappaWithoutBias: kappaFromParts({ ...parts, biasIndex: 0 }),
    paradox: paradoxOf(parts),
  };
  const missing = paths.filter((path) => values[path as keyof TwoByTwoValues] === null);
  const message = "both readers gave one and the same answer throughout: kappa does not exist";
  return { values, notes: notesAt("no_variation", missing, message) };
}

export const chanceCorrected = defineMethod({
  id: "agreement.chance_corrected",
  version: 1,
  title: "Chance-corrected agreement side by side",
  question: "Why is kappa low when the readers hardly ever differ, and what do its rivals say?",
  formula:
    "each is (po - pe) / (1 - pe). kappa: pe = sum p(i.) p(.i); PABAK: pe = 1/k; Scott's pi: pe = sum of q(i)², q = (p(i.) + p(.i)) / 2; AC1: pe = sum of q(i) (1 - q(i)) / (k - 1). Alpha = 1 - (1 - pi) (1 - 1/(2n)). Two categories: prevalence index PI = (a - d)/n, bias index BI = (b - c)/n, kappa = (PABAK - PI² + BI²) / (1 - PI² + BI²). Paradox: prevalence where agreement is 0.8 or more and kappa at least 0.2 below its value at PI = 0; bias where kappa is at least 0.05 above its value at BI = 0",
  caution:
    "choose one coefficient before seeing the data. PABAK and AC1 depend on the number of categories offered; PABAK says nothing that the plain agreement does not. The two kappas without unbalance describe readers nobody has seen",
  sources: [
    "byrt1993",
    "feinstein1990",
    "cicchetti1990",
    "bennett1954",
    "scott1955",
    "gwet2008",
    "krippendorff2011",
    "landis1977",
  ],
  input: Input,
  options: Options,
  values: Values,
  run: chanceCorrectedAgreement,
  examples: chanceCorrectedExamples,
});
