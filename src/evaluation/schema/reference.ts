import * as v from "valibot";
import { AccuracyMeasure, Cell, Count, Estimate, Notes, Proportion, Real, Share, Verdict } from "./parts.ts";

/** What a letter of a grid says: one letter for each combination. */
export const VERDICT_LETTERS = { m: "met", n: "not_met", u: "undecided", x: "not_estimable" } as const;
export type VerdictLetter = keyof typeof VERDICT_LETTERS;

const Counts = v.strictObject({
  truePositives: Count,
  falsePositives: Count,
  falseNegatives: Count,
  trueNegatives: Count,
});
const Range = v.strictObject({ believed: Share, from: Share, to: Share });
const Together = v.strictObject({ diseased: Real, nondiseased: Real });
const Accuracies = {
  sensitivity: Estimate,
  specificity: Estimate,
  /** Share of people with the condition among those in the fourfold table. */
  prevalence: Estimate,
};

const Border = v.strictObject({
  at: v.pipe(Real, v.description("where the verdict changes, the rest as believed; null: nowhere")),
  verdict: v.pipe(v.nullable(Verdict), v.description("the verdict beyond")),
});
const Borders = v.strictObject({ below: Border, above: Border });

const criterionHead = {
  criterion: v.string(),
  measure: AccuracyMeasure,
  threshold: Share,
  direction: v.picklist(["at_least", "at_most"]),
  naive: v.pipe(
    Verdict,
    v.description("as the answer has it: by the study's interval, the reference never erring"),
  ),
};

/** One criterion judged on the corrected accuracy, and how bad the reference would have to be to change it. */
const ReferenceCriterion = v.strictObject({
  ...criterionHead,
  perfect: v.pipe(Verdict, v.description("the reference never erring, by the likelihood limits used here")),
  believed: v.pipe(Verdict, v.description("the reference as believed, by the same kind of limits")),
  estimates: v.strictObject({ perfect: Estimate, believed: Estimate }),
  throughout: v.pipe(
    v.nullable(Verdict),
    v.description("the one verdict over all that is stated of the reference; null: it changes there"),
  ),
  borders: v.strictObject({
    referenceSensitivity: Borders,
    referenceSpecificity: Borders,
    covarianceDiseased: Borders,
    covarianceNondiseased: Borders,
  }),
  grid: v.strictObject({
    sensitivities: v.pipe(v.array(Share), v.description("of the reference, ascending: the rows")),
    specificities: v.pipe(v.array(Share), v.description("of the reference, ascending: the columns")),
    verdicts: v.pipe(
      v.array(v.string()),
      v.description(
        "a text for each row, a letter for each column: m met, n not met, u undecided, x not estimable",
      ),
    ),
    fits: v.pipe(
      v.array(v.string()),
      v.description("likewise: 1 where the table allows such a reference, 0 where it hardly does"),
    ),
  }),
});

/** Accuracy behind the errors that the study file states of the reference. */
export const ReferenceErrorsSchema = v.strictObject({
  ...Cell,
  counts: Counts,
  /** As if the reference never erred, with the study's interval. */
  naive: v.strictObject({ sensitivity: Proportion, specificity: Proportion, prevalence: Proportion }),
  believed: v.strictObject({ sensitivity: Range, specificity: Range }),
  covariance: Together,
  source: v.string(),
  enteredOn: v.nullable(v.string()),
  /** A reference made of two tests, from which `believed` was reckoned. */
  composite: v.nullable(
    v.strictObject({
      rule: v.picklist(["any_positive", "both_positive"]),
      tests: v.array(v.strictObject({ title: v.string(), sensitivity: Share, specificity: Share })),
      covariance: Together,
    }),
  ),
  /** The reference taken to be exactly as believed. */
  corrected: v.strictObject(Accuracies),
  /** The same three by the formula, which may leave 0..1 (then `corrected` has no value). */
  formula: v.strictObject({ sensitivity: Real, specificity: Real, prevalence: Real }),
  /** With the stated ranges drawn too; `null` where no range has a width. */
  simulated: v.nullable(v.strictObject(Accuracies)),
  /** Worst reference that the table allows, errors independent. */
  admissible: v.strictObject({ sensitivity: Real, specificity: Real }),
  criteria: v.array(ReferenceCriterion),
  notes: Notes,
});

const States = v.strictObject({ diseased: Count, nondiseased: Count, unverified: Count });
const byResult = { reactive: States, nonreactive: States };
const fiveOf = <Schema extends v.GenericSchema>(schema: Schema) => ({
  sensitivity: schema,
  specificity: schema,
  prevalence: schema,
  ppv: schema,
  npv: schema,
});
const Extremes = v.strictObject({ lowest: Proportion, highest: Proportion });

const Axis = v.strictObject({
  points: v.array(v.strictObject({ oddsRatio: Real, estimate: Estimate, verdict: Verdict })),
  borders: v.array(
    v.strictObject({
      oddsRatio: Real,
      below: Verdict,
      above: Verdict,
      /** Share of diseased that this means among the unverified people. */
      unverifiedReactive: Real,
      unverifiedNonreactive: Real,
    }),
  ),
  holds: v.strictObject({ from: Real, to: Real }),
});

/** One criterion where some people were not verified. */
const VerificationCriterion = v.strictObject({
  ...criterionHead,
  corrected: v.pipe(Verdict, v.description("on the corrected estimate and its limits")),
  lowest: v.pipe(Verdict, v.description("if the unverified have what is worst for the measure")),
  highest: v.pipe(Verdict, v.description("if they have what is best for it")),
  verdictHolds: v.pipe(
    v.nullable(v.boolean()),
    v.description(
      "the corrected verdict is the same over all odds ratios looked at, both results alone and together; null: not told",
    ),
  ),
  /** Verification hanging on the condition itself: by the same odds ratio for both results, or for one only. */
  axes: v.strictObject({ both: Axis, reactive: Axis, nonreactive: Axis }),
});

/** Accuracy where some people with a result never had the reference test. */
export const VerificationSchema = v.strictObject({
  ...Cell,
  /** People of the set: those `counted` below, and those set aside. */
  people: Count,
  counted: v.strictObject(byResult),
  setAside: v.array(v.strictObject({ reason: v.string(), people: Count })),
  shareUnverified: v.strictObject({ reactive: Proportion, nonreactive: Proportion }),
  /** Titles of the strata that the study file names as deciding who is verified. */
  strataNamed: v.array(v.string()),
  /** The groups of those strata together; one, `everybody`, where none is named. */
  strata: v.array(v.strictObject({ label: v.string(), ...byResult })),
  /** From the verified people alone, with the study's interval. */
  naive: v.strictObject({ sensitivity: Proportion, specificity: Proportion }),
  /** The unverified taken to be like the verified of the same result and stratum. */
  corrected: v.strictObject(fiveOf(Estimate)),
  /** The same by weighting the verified people. */
  weighted: v.strictObject({ ...fiveOf(Estimate), effectivePeople: Real }),
  /** The same by many completed tables. */
  imputed: v.strictObject(
    fiveOf(v.strictObject({ value: Real, lower: Real, upper: Real, missingShare: Real })),
  ),
  /** Without any assumption: the extreme cases, each with the study's interval. */
  bounds: v.strictObject(fiveOf(Extremes)),
  oddsRatio: v.strictObject({
    from: v.number(),
    to: v.number(),
    stated: v.pipe(v.boolean(), v.description("whether the study file states the range")),
  }),
  criteria: v.array(VerificationCriterion),
  notes: Notes,
});

const Known = v.strictObject({ sensitivity: Share, specificity: Share });
const Seen = v.strictObject({ sensitivity: Real, specificity: Real });

/** Why further tests on those who disagree only mislead: invented people, never an analysis of the study. */
export const DiscrepantSchema = v.strictObject({
  alarms: v.array(v.strictObject({ subjects: v.array(v.string()), count: Count, total: v.nullable(Count) })),
  demonstration: v.strictObject({
    /** What is supposed of the three tests: no estimate of this study. */
    supposed: v.strictObject({ kit: Known, comparator: Known, resolver: Known, prevalence: Share }),
    unresolved: Seen,
    resolved: Seen,
    everybody: Seen,
    retested: Real,
    gain: Seen,
  }),
  notes: Notes,
});
