import * as v from "valibot";
import {
  count,
  draws,
  level,
  openProportion,
  proportionEstimate,
  quantity,
  seed,
} from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { randomStream, taskNumber } from "../../core/random.ts";
import { notesAt } from "../notes-at.ts";
import { type DiscordantShares, discordantShares, type TwoKits } from "./discordant-shares.ts";
import { expectedDiscordanceExamples } from "./expected-discordance-examples.ts";
import { jointResultsOf } from "./joint-results.ts";
import { centralOf, type JudgedCount, judgedBy, judgedByDraws } from "./judged-count.ts";
import { shareToDraw } from "./known-share.ts";
import { twoKitDependence } from "./two-kits-fields.ts";
import { UncertainShare } from "./uncertain-fields.ts";

const Kit = (meaning: string) =>
  v.pipe(
    v.strictObject({
      sensitivity: UncertainShare("P(reactive | condition present)"),
      specificity: UncertainShare("P(non-reactive | condition absent)"),
    }),
    v.description(meaning),
  );
const Input = v.strictObject({
  first: Kit("the kit that everybody is tested with"),
  second: Kit("the kit that those reactive with the first are tested with"),
  dependence: twoKitDependence(),
  prevalence: openProportion("prevalence among those tested"),
  observed: v.pipe(
    v.nullable(
      v.strictObject({
        tested: count("people tested with the first kit"),
        firstReactive: count("of these reactive with it, and then tested with the second"),
        secondNonreactive: count("of these non-reactive with the second"),
      }),
    ),
    v.description("what was seen; null to know only what to expect"),
  ),
});
const Options = v.strictObject({
  level: level(),
  draws: draws("draws of the kits' accuracy, where it is uncertain", 10_000, 1_000_000),
  seed: seed(1),
});
const Judged = (meaning: string) =>
  v.pipe(
    v.nullable(
      v.strictObject({
        share: proportionEstimate("share seen, exact interval"),
        lower: quantity("count", "fewest to be expected at this level"),
        upper: quantity("count", "most to be expected at this level"),
        twoSided: quantity(
          "probability",
          "two-sided p-value: counts no more probable than the one seen; twice the smaller tail where a kit is uncertain",
        ),
        asMany: quantity("probability", "probability of so many or more"),
        asFew: quantity("probability", "probability of so few or fewer"),
      }),
    ),
    v.description(meaning),
  );
const Share = (meaning: string) =>
  v.pipe(
    v.strictObject({
      value: quantity("proportion", "with every kit at its centre, the median"),
      lower: quantity("proportion", "lower limit from what is uncertain about the kits"),
      upper: quantity("proportion", "upper limit from what is uncertain about the kits"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  firstReactive: Share("share reactive with the first kit, of all tested"),
  discordant: Share("share non-reactive with the second, of those reactive with the first"),
  ifIndependent: quantity("proportion", "the same if the results were independent, every kit at its centre"),
  diseasedAmongDiscordant: quantity("proportion", "share with the condition among the discordant"),
  positivity: Judged("the people reactive with the first kit, against what was to be expected"),
  discordance: Judged("the discordant people, against what was to be expected"),
});
export type ExpectedDiscordanceInput = v.InferOutput<typeof Input>;
export type ExpectedDiscordanceOptions = v.InferOutput<typeof Options>;
export type ExpectedDiscordanceValues = v.InferOutput<typeof Values>;

/**
 * How many of those reactive with a first kit the second should call non-reactive, and whether more or fewer did.
 *
 * @param input   both kits (values, counts, beta or range), dependence among people of the same truth, prevalence in
 *   (0, 1), and what was seen
 * @param options level of the limits; draws and seed for uncertain kits
 * @returns shares in 0..1. Known kits: exact binomial. Uncertain kits: limits and p-values over draws of them;
 *   a draw that doesn't allow the stated dependence takes the nearest allowed (note `moved`)
 * @throws InputError where parts exceed their wholes, or the kits at their centres don't allow the dependence
 * Behaves badly where the prevalence is a guess: a rarer condition means more false first results, and more
 * discordance, with kits as good as stated.
 * Source: vacek1985
 */
export function discordanceToExpect(
  input: ExpectedDiscordanceInput,
  options: ExpectedDiscordanceOptions,
): Finding<ExpectedDiscordanceValues> {
  requireParts(input.observed);
  const random = randomStream(options.seed, taskNumber("kits"));
  const kits = kitsToDraw(input, random);
  const centre = kits.at(({ centre }) => centre);
  requireAllowed(centre, input.dependence);
  const atCentre = discordantShares(centre, input.dependence, input.prevalence);
  const independent = discordantShares(centre, { kind: "independent" }, input.prevalence);
  const drawn = kits.uncertain
    ? drawShares(() => kits.at((share) => share.draw()), input, options.draws)
    : null;
  const notes = notesOn(atCentre, drawn);
  const judged = judgedCounts(input.observed, { atCentre, drawn, options }, notes);
  const values = {
    firstReactive: shareOf(atCentre.firstReactive, drawn?.firstReactive, options.level),
    discordant: shareOf(atCentre.discordant, drawn?.discordant, options.level),
    ifIndependent: independent.discordant,
    diseasedAmongDiscordant: atCentre.diseasedAmongDiscordant,
    ...judged,
  };
  return { values, notes };
}

interface Expected {
  readonly atCentre: DiscordantShares;
  readonly drawn: DrawnShares | null;
  readonly options: ExpectedDiscordanceOptions;
}
interface Judgements {
  readonly positivity: JudgedCount | null;
  readonly discordance: JudgedCount | null;
}

function judgedCounts(
  observed: ExpectedDiscordanceInput["observed"],
  { atCentre, drawn, options }: Expected,
  notes: Note[],
): Judgements {
  if (observed === null) {
    notes.push(...notesAt("not_asked", ["positivity", "discordance"], "no observed counts were given"));
    return { positivity: null, discordance: null };
  }
  const judge = (name: keyof Judgements, seen: number, total: number, share: number | null) => {
    if (total === 0 || share === null) {
      notes.push(note("no_observations", name, "nobody was seen, or is to be expected, here"));
      return null;
    }
    if (drawn === null) return judgedBy(seen, total, share, options.level);
    const draws = name === "positivity" ? drawn.firstReactive : drawn.discordant;
    return judgedByDraws(seen, total, draws, options.level, randomStream(options.seed, taskNumber(name)));
  };
  const { tested, firstReactive, secondNonreactive } = observed;
  return {
    positivity: judge("positivity", firstReactive, tested, atCentre.firstReactive),
    discordance: judge("discordance", secondNonreactive, firstReactive, atCentre.discordant),
  };
}

function requireParts(observed: ExpectedDiscordanceInput["observed"]): void {
  if (observed === null) return;
  const { tested, firstReactive, secondNonreactive } = observed;
  const place = ["input", "observed"];
  if (firstReactive > tested) {
    throw new InputError([...place, "firstReactive"], `at most those tested, ${tested}`, firstReactive);
  }
  if (secondNonreactive > firstReactive) {
    const expected = `at most those reactive with the first, ${firstReactive}`;
    throw new InputError([...place, "secondNonreactive"], expected, secondNonreactive);
  }
}

type ToDraw = ReturnType<typeof shareToDraw>;

function kitsToDraw({ first, second }: ExpectedDiscordanceInput, random: () => number) {
  const ready = (kit: ExpectedDiscordanceInput["first"], name: string) => ({
    sensitivity: shareToDraw(kit.sensitivity, ["input", name, "sensitivity"], random),
    specificity: shareToDraw(kit.specificity, ["input", name, "specificity"], random),
  });
  const [one, other] = [ready(first, "first"), ready(second, "second")];
  const shares = [one.sensitivity, one.specificity, other.sensitivity, other.specificity];
  return {
    uncertain: shares.some(({ uncertain }) => uncertain),
    at: (taken: (share: ToDraw) => number): TwoKits => ({
      first: { sensitivity: taken(one.sensitivity), specificity: taken(one.specificity) },
      second: { sensitivity: taken(other.sensitivity), specificity: taken(other.specificity) },
    }),
  };
}

/** @throws InputError at `input.dependence` */
function requireAllowed(
  { first, second }: TwoKits,
  dependence: ExpectedDiscordanceInput["dependence"],
): void {
  jointResultsOf({ first: first.sensitivity, second: second.sensitivity }, dependence, "diseased");
  jointResultsOf({ first: 1 - first.specificity, second: 1 - second.specificity }, dependence, "nondiseased");
}

interface DrawnShares {
  readonly firstReactive: Float64Array;
  readonly discordant: Float64Array;
  readonly moved: number;
}

function drawShares(
  draw: () => TwoKits,
  { dependence, prevalence }: ExpectedDiscordanceInput,
  draws: number,
): DrawnShares {
  const firstReactive = new Float64Array(draws);
  const discordant = new Float64Array(draws);
  let moved = 0;
  for (let place = 0; place < draws; place += 1) {
    const shares = discordantShares(draw(), dependence, prevalence);
    firstReactive[place] = shares.firstReactive;
    discordant[place] = shares.discordant ?? 0;
    if (shares.moved) moved += 1;
  }
  return { firstReactive, discordant, moved };
}

function shareOf(value: number | null, draws: Float64Array | undefined, level: number) {
  if (value === null || draws === undefined) return { value, lower: value, upper: value };
  return { value, ...centralOf(draws.toSorted(), level) };
}

function notesOn(centre: DiscordantShares, drawn: DrawnShares | null): Note[] {
  const notes: Note[] = [];
  if (centre.discordant === null) {
    const message = "nobody is reactive with the first kit: there is nobody to test with the second";
    notes.push(...notesAt("nobody", ["discordant", "ifIndependent"], message));
  }
  if (centre.diseasedAmongDiscordant === null) {
    notes.push(note("nobody", "diseasedAmongDiscordant", "no discordant results are to be expected"));
  }
  if (drawn !== null && drawn.moved > 0) {
    const message = `${drawn.moved} of ${drawn.discordant.length} draws of the kits don't allow the stated dependence: the nearest allowed was taken`;
    notes.push(note("moved", "discordant", message));
  }
  return notes;
}

export const expectedDiscordance = defineMethod({
  id: "algorithms.expected_discordance",
  version: 1,
  title: "Discordant results to expect",
  question: "How many people reactive with the first kit should the second call non-reactive, and did more?",
  formula:
    "share = (p (Se1 (1 - Se2) - cov+) + (1 - p)((1 - Sp1) Sp2 - cov-)) / (p Se1 + (1 - p)(1 - Sp1)). Given how many are reactive with the first, the discordant are binomial: exact p-values and limits; where kits are uncertain, averaged over draws of them",
  caution:
    "more discordance than expected may mean a worse kit, a bad lot, faulty reading, or only a lower prevalence than stated: look at the positivity beside. Kits that share their false positives show little discordance: few discordant results are no proof of good kits",
  sources: ["vacek1985"],
  input: Input,
  options: Options,
  values: Values,
  run: discordanceToExpect,
  examples: expectedDiscordanceExamples,
});
