import * as v from "valibot";
import { STATUSES } from "../../records/algorithm/algorithm-fields.ts";
import { Count, Estimate, Notes, Real, Share } from "../schema/parts.ts";

/** Parts of the algorithms document. Where a number can't be had it is `null`, and a note says why. */

export const ChannelId = v.pipe(v.string(), v.description("id of a channel of the file"));
export const AlgorithmId = v.pipe(v.string(), v.description("id of an algorithm of the file"));
export const AnalyteId = v.pipe(v.string(), v.description("id of an analyte of the file"));
export const KitId = v.pipe(v.string(), v.description("id of a kit of the file"));

const StepSchema = v.strictObject({
  id: v.string(),
  kit: KitId,
  reactive: v.string(),
  nonreactive: v.string(),
  again: Count,
  invalid: v.string(),
});

/** An algorithm as it is followed: usual ones drawn step by step. */
export const FollowedSchema = v.strictObject({
  algorithm: AlgorithmId,
  title: v.string(),
  analyte: AnalyteId,
  main: v.pipe(v.boolean(), v.description("the one that the page leads with, of its analyte")),
  steps: v.array(StepSchema),
  kits: v.pipe(v.array(KitId), v.description("kits that it may use, first used first")),
  retested: v.pipe(Real, v.description("days until inconclusive people are tested anew; null: never")),
});

/** Expected numbers of people, not rounded. */
export const PeopleSchema = v.strictObject({
  truePositives: v.number(),
  falsePositives: v.number(),
  missed: v.number(),
  trueNegatives: v.number(),
  inconclusive: v.number(),
  lost: v.pipe(v.number(), v.description("inconclusive, asked to come back, and did not")),
});

const Judged = v.nullable(v.boolean());
/** What one algorithm does in one channel. */
export const LineSchema = v.strictObject({
  channel: ChannelId,
  algorithm: AlgorithmId,
  analyte: AnalyteId,
  main: v.boolean(),
  prevalence: v.pipe(Share, v.description("the channel's, at its centre")),
  sensitivity: v.pipe(Estimate, v.description("P(positive | truly positive), of the algorithm as a whole")),
  specificity: v.pipe(Estimate, v.description("P(negative | truly negative), of the algorithm as a whole")),
  ppv: Estimate,
  npv: Estimate,
  independent: v.pipe(
    v.strictObject({ sensitivity: Real, specificity: Real, ppv: Real, npv: Real }),
    v.description("the same if the kits' errors were independent"),
  ),
  chance: v.pipe(
    v.strictObject({
      ppv: Real,
      npv: Real,
      inconclusive: Real,
      all: v.pipe(Real, v.description("of reaching these three together; null: none is asked for")),
      best: v.pipe(Real, v.description("of being the cheapest that reaches them")),
    }),
    v.description("probability that the targets are reached, given what is uncertain; null: no such target"),
  ),
  meets: v.pipe(
    v.strictObject({
      ppv: Judged,
      npv: Judged,
      inconclusive: Judged,
      minutes: Judged,
      antigens: Judged,
      all: v.boolean(),
    }),
    v.description("whether the targets are reached with every number at its centre; null: no such target"),
  ),
  per100000: PeopleSchema,
  perYear: v.pipe(PeopleSchema, v.description("among the channel's clients of a year")),
  cost: v.strictObject({
    perClient: v.pipe(Estimate, v.description("kits with those lost, and what testing a person costs")),
    perCaseFound: v.pipe(Real, v.description("cost of all tested over true positives")),
    perFalsePositiveAverted: v.pipe(
      Real,
      v.description("more than the first kit alone costs, over the false positives it averts"),
    ),
    withErrors: v.pipe(
      Real,
      v.description("per client, with what false positives and missed people cost, where the file says it"),
    ),
  }),
  minutes: v.pipe(
    v.strictObject({
      mean: v.pipe(Real, v.description("of all runs, one after the other, first pass")),
      most: v.pipe(
        Real,
        v.description("longest way, no run invalid, kits run on everybody at the same time"),
      ),
    }),
    v.description("until the decision; null where a kit doesn't say its minutes"),
  ),
  kits: v.array(
    v.strictObject({ kit: KitId, perPerson: v.pipe(v.number(), v.description("devices used, invalid too")) }),
  ),
  notes: Notes,
});

/** Which algorithm is best in a channel, by what it is to be best at. */
export const BestSchema = v.strictObject({
  channel: ChannelId,
  analyte: AnalyteId,
  cheapest: v.pipe(
    v.nullable(AlgorithmId),
    v.description("cheapest of those that reach every target with all numbers at their centre; null: none"),
  ),
  surest: v.pipe(
    v.nullable(AlgorithmId),
    v.description(
      "most probable to reach every target, given what is uncertain; of those as probable to within half a point the cheapest; null: no target",
    ),
  ),
  surestChance: Real,
  cheapestChance: Real,
});

export const AnswerSchema = v.strictObject({
  target: v.pipe(Real, v.description("PPV to be reached")),
  leading: v.pipe(
    v.strictObject({ channel: ChannelId, algorithm: AlgorithmId }),
    v.description("the line that the page leads with"),
  ),
  lines: v.array(LineSchema),
  best: v.array(BestSchema),
});

const ByTruth = { diseased: v.number(), nondiseased: v.number() };
const Rounded = { diseased: Count, nondiseased: Count };

/** People per 10,000 on their way through the first pass, and where everybody ends. */
export const FlowSchema = v.strictObject({
  people: v.pipe(Count, v.description("10,000")),
  ...Rounded,
  steps: v.pipe(
    v.array(
      v.strictObject({
        step: v.string(),
        kit: KitId,
        ...ByTruth,
        leads: v.array(
          v.strictObject({
            result: v.picklist(["reactive", "nonreactive", "invalid"]),
            next: v.pipe(v.string(), v.description("a step or a status")),
            ...ByTruth,
          }),
        ),
      }),
    ),
    v.description("first pass, people who come to each step; not rounded"),
  ),
  firstEnds: v.pipe(
    v.array(v.strictObject({ status: v.picklist(STATUSES), ...ByTruth })),
    v.description("where the first pass ends; not rounded"),
  ),
  returning: v.pipe(
    v.nullable(v.strictObject(ByTruth)),
    v.description("inconclusive people who come back; null: nobody is asked to"),
  ),
  ends: v.pipe(
    v.array(v.strictObject({ end: v.picklist([...STATUSES, "lost"]), ...Rounded })),
    v.description("where everybody ends, in whole people that add up"),
  ),
});

/** Predictive values of one algorithm over the prevalence. */
export const PredictiveSchema = v.strictObject({
  algorithm: AlgorithmId,
  analyte: AnalyteId,
  tests: v.pipe(
    v.array(v.strictObject({ step: v.string(), kit: KitId })),
    v.description("the steps that somebody passes who is reactive each time"),
  ),
  points: v.array(
    v.strictObject({
      prevalence: Share,
      afterReactive: v.pipe(
        v.array(Real),
        v.description("PPV after the first reactive result, after the first two, and so on"),
      ),
      ppv: Real,
      npv: Real,
      independentPpv: Real,
      independentNpv: Real,
    }),
  ),
  reachesTarget: v.pipe(
    v.strictObject({ stated: Real, independent: Real }),
    v.description("prevalence from which the PPV wanted is reached; null: at none, or none wanted"),
  ),
});

/** How the answer changes with the dependence of one pair, or of all kits, all else as stated. */
export const SweepSchema = v.strictObject({
  channel: ChannelId,
  algorithm: AlgorithmId,
  over: v.pipe(
    v.picklist(["phi", "spread"]),
    v.description("phi: the error correlation of one pair; spread: of the effect that all kits share"),
  ),
  first: v.pipe(v.nullable(KitId), v.description("null over a spread")),
  second: v.nullable(KitId),
  stated: v.strictObject(ByTruth),
  nondiseased: v.pipe(
    v.array(v.strictObject({ value: v.number(), ppv: Real, falsePositives: v.number() })),
    v.description("dependence among the truly negative, from 0 as far as it goes; people per 100,000"),
  ),
  diseased: v.pipe(
    v.array(v.strictObject({ value: v.number(), sensitivity: Real, missed: v.number() })),
    v.description("dependence among the truly positive, from 0 as far as it goes; people per 100,000"),
  ),
});

/** A map of PPV over prevalence and error correlation of the main pair. */
export const TwoWaySchema = v.strictObject({
  algorithm: AlgorithmId,
  first: KitId,
  second: KitId,
  cells: v.array(v.strictObject({ prevalence: Share, phi: v.number(), ppv: Real, reaches: Judged })),
});

/** One device that shows two analytes, counted and paid once. */
export const TogetherSchema = v.strictObject({
  kit: KitId,
  algorithms: v.pipe(v.array(AlgorithmId), v.description("the main algorithm of each analyte")),
  channels: v.array(
    v.strictObject({
      channel: ChannelId,
      sharedRuns: v.pipe(v.number(), v.description("devices per person that serve both analytes")),
      devicesApart: v.pipe(v.number(), v.description("of this kit per person, if each analyte used its own")),
      devices: v.pipe(v.number(), v.description("of this kit per person")),
      costApart: Real,
      cost: v.pipe(Real, v.description("per client, both analytes")),
      savedPer100000: Real,
    }),
  ),
});
