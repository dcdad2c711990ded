import * as v from "valibot";
import { draws, level, openProportion, quantity, seed } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { kappaEstimate } from "../agreement/kappa-estimate.ts";
import { sharesOf } from "../agreement/square-shares.ts";
import { weightsFor } from "../agreement/weights.ts";
import { notesAt } from "../notes-at.ts";
import { assuredItems } from "./assured-items.ts";
import { feasibleKappa, type ReadersTable, readersTable } from "./readers-table.ts";
import { roundUp } from "./round-up.ts";
import { type SimulatedKappa, simulateKappa } from "./simulated-kappa.ts";
import { planKappaExamples } from "./two-kit-examples.ts";

const Input = v.strictObject({
  kappa: v.pipe(
    v.number(),
    v.gtValue(-1, "expected a kappa above -1 and below 1"),
    v.ltValue(1, "expected a kappa above -1 and below 1"),
    v.description("kappa expected of the two readers"),
  ),
  reactiveFirst: openProportion("share of items that the first reader calls reactive"),
  reactiveSecond: openProportion("share of items that the second reader calls reactive"),
  halfWidth: openProportion("half the length wanted of the interval of kappa"),
});
const Options = v.strictObject({
  level: level(),
  assurance: v.optional(openProportion("probability wanted of an interval that is no longer"), 0.9),
  draws: draws("simulated studies of the size found", 2_000, 100_000),
  seed: seed(1),
});
const Values = v.strictObject({
  total: quantity("count", "items to be read by both, by the large-sample standard error, rounded up"),
  unrounded: quantity("count", "the same, not rounded"),
  standardError: quantity("statistic", "standard error of kappa with so many items"),
  feasible: v.pipe(
    v.strictObject({
      least: quantity("statistic", "least kappa of two readers with these shares"),
      most: quantity("statistic", "largest kappa of two readers with these shares"),
    }),
    v.description("what the shares called reactive allow"),
  ),
  observedAgreement: quantity("proportion", "share of items on which the readers then agree"),
  expectedAgreement: quantity("proportion", "share on which they would agree by chance"),
  expectedDisagreements: quantity("count", "items on which they will disagree, on average"),
  simulated: v.pipe(
    v.strictObject({
      halfWidth: quantity("statistic", "mean half-width of the intervals that exist, not cut at -1 and 1"),
      asPrecise: quantity("probability", "share of studies whose half-width is at most the wanted one"),
      coverage: quantity("probability", "share of studies whose interval contains the expected kappa"),
      withoutInterval: quantity("probability", "share of studies that give no interval at all"),
    }),
    v.description("studies of this size drawn at random, evaluated as agreement.kappa does"),
  ),
  assured: v.pipe(
    v.strictObject({
      total: quantity("count", "items with which the interval is short enough with the assurance wanted"),
      probability: quantity("probability", "share of simulated studies of so many items where it is"),
    }),
    v.description("by simulation, from the formula's total up"),
  ),
});
export type PlanKappaInput = v.InferOutput<typeof Input>;
export type PlanKappaOptions = v.InferOutput<typeof Options>;
export type PlanKappaValues = v.InferOutput<typeof Values>;

/** Fewer expected disagreements than this, and the large-sample interval is not to be trusted. */
const FEW_DISAGREEMENTS = 10;
/** A total beyond this can't be drawn, nor read by anybody. */
const MOST_ITEMS = 100_000_000;
const TOO_MANY = "more than 100 million items would be needed: state a larger half-width";

/**
 * How many items must two readers read for an interval of kappa of the wanted length, reactive or not?
 *
 * By the large-sample standard error that `agreement.kappa` uses, then held against simulated studies of that
 * size: about half of them have a longer interval, more where a result is rare.
 *
 * @param input   kappa expected, the share each reader calls reactive, half-width of the two-sided interval
 * @param options level; assurance; number of simulated studies and their seed
 * @returns number of items, and what studies of that size give. `null` with a note where no two readers
 *   with these shares have such a kappa (`not_feasible`), or more than 100 million items would be needed
 *   (`out_of_reach`); `few_disagreements` where the size rests on a formula that does not hold yet
 * Sources: fleiss1969 (standard error), cohen1960
 */
export function planKappa(input: PlanKappaInput, options: PlanKappaOptions): Finding<PlanKappaValues> {
  const { reactiveFirst, reactiveSecond } = input;
  const feasible = feasibleKappa(reactiveFirst, reactiveSecond);
  const table = readersTable(input, feasible);
  const expectedAgreement = reactiveFirst * reactiveSecond + (1 - reactiveFirst) * (1 - reactiveSecond);
  if (table === null) {
    const message = `readers who call these shares reactive have a kappa from ${feasible.least.toFixed(3)} to ${feasible.most.toFixed(3)}: state one in between, or other shares`;
    return nothing({ feasible, expectedAgreement, observedAgreement: null }, "not_feasible", message);
  }
  const multiple = normalQuantile((1 - options.level) / 2, "upper");
  const observedAgreement = table.both + table.neither;
  const spread = spreadOf(table);
  const unrounded = Math.pow((multiple * spread) / input.halfWidth, 2);
  if (!(unrounded > 0 && unrounded <= MOST_ITEMS)) {
    return nothing({ feasible, expectedAgreement, observedAgreement }, "out_of_reach", TOO_MANY);
  }
  const total = roundUp(unrounded);
  const studies = (items: number) => simulateKappa(table, items, { ...input, multiple }, options);
  const simulated = studies(total);
  const assured = assuredItems((items) => studies(items).asPrecise, options.assurance, total, MOST_ITEMS);
  const values = {
    total,
    unrounded,
    standardError: spread / Math.sqrt(total),
    feasible,
    observedAgreement,
    expectedAgreement,
    expectedDisagreements: total * (table.firstOnly + table.secondOnly),
    simulated,
    assured: assured ?? { total: null, probability: null },
  };
  return { values, notes: notesOn(values) };
}

/** Standard error of kappa times the root of the number of items. */
function spreadOf({ both, firstOnly, secondOnly, neither }: ReadersTable): number {
  const table = [
    [both, firstOnly],
    [secondOnly, neither],
  ];
  return kappaEstimate({ ...sharesOf(table), total: 1 }, weightsFor("none", 2)).standardError ?? 0;
}

function notesOn(values: {
  expectedDisagreements: number;
  simulated: SimulatedKappa;
  assured: { total: number | null };
}): Note[] {
  const { expectedDisagreements: disagreements, simulated, assured } = values;
  const { halfWidth, withoutInterval } = simulated;
  const notes: Note[] = [];
  if (assured.total === null) notes.push(note("out_of_reach", "assured", TOO_MANY));
  if (disagreements < FEW_DISAGREEMENTS) {
    const message = `about ${disagreements.toFixed(1)} disagreements are to be expected, fewer than ${FEW_DISAGREEMENTS}: the formula does not hold yet; plan with more items and look at the simulated studies`;
    notes.push(note("few_disagreements", "total", message));
  }
  if (halfWidth === null) {
    const message = "none of the simulated studies gave an interval";
    notes.push(note("no_width", "simulated.halfWidth", message));
  } else if (withoutInterval > 0.01) {
    const message = `${(100 * withoutInterval).toFixed(1)} % of studies of this size give no interval of kappa`;
    notes.push(note("no_width", "simulated", message));
  }
  return notes;
}

function nothing(
  known: Pick<PlanKappaValues, "feasible" | "expectedAgreement" | "observedAgreement">,
  code: string,
  message: string,
): Finding<PlanKappaValues> {
  const values = {
    total: null,
    unrounded: null,
    standardError: null,
    ...known,
    expectedDisagreements: null,
    simulated: { halfWidth: null, asPrecise: null, coverage: null, withoutInterval: null },
    assured: { total: null, probability: null },
  };
  const absent = Object.entries(values).flatMap(([name, value]) => (value === null ? [name] : []));
  return { values, notes: notesAt(code, [...absent, "simulated", "assured"], message) };
}

export const planningKappa = defineMethod({
  id: "planning.kappa",
  version: 1,
  title: "Planning a study of two readers",
  question: "How many items must two readers read, so that kappa is known well enough?",
  formula:
    "from kappa k and the shares f, s called reactive: chance agreement pe = f s + (1 - f)(1 - s), agreement po = k (1 - pe) + pe, both reactive (po - 1 + f + s) / 2, which gives the table. n = (z((1 + level)/2) SE1 / h)², SE1 the large-sample standard error of kappa for one item, h the half-width. Simulated: multinomial tables of n items; assured: the fewest items, from n up, of which the wanted share of tables gives a half-width of at most h",
  caution:
    "kappa hangs on how common each result is: plan with the shares of the study itself. Where a result is rare the formula gives too few items and the intervals hold the truth less often than stated: see the simulated coverage. Half of the studies of the formula's size have a longer interval than wanted: the assured total is for those who cannot afford that, and is only as sharp as the simulation",
  sources: ["fleiss1969", "cohen1960"],
  input: Input,
  options: Options,
  values: Values,
  run: planKappa,
  examples: planKappaExamples,
});
