import * as v from "valibot";
import {
  AccuracyMeasure,
  Cell,
  Count,
  Estimate,
  InvalidTreatment,
  Measure,
  Notes,
  Proportion,
  RapidResult,
  Real,
  ReferenceCounts,
  SensitivitySpecificity,
  Share,
  Verdict,
  WindowTreatment,
} from "./parts.ts";

/** One criterion of the study file, held against the data. */
export const AnswerSchema = v.strictObject({
  criterion: v.string(),
  ...Cell,
  measure: Measure,
  importance: v.picklist(["primary", "secondary"]),
  direction: v.picklist(["at_least", "at_most"]),
  threshold: Share,
  source: v.string(),
  enteredOn: v.nullable(v.string()),
  estimate: Proportion,
  verdict: Verdict,
  /** Posterior probability (Jeffreys prior) that the criterion is truly reached. */
  probability: Real,
  /** Further reference-positive (or -negative, or tested) people that would decide it if the estimate held. */
  further: v.nullable(Count),
  /** The verdict under each other treatment of invalid results and of readings outside the window. */
  byInvalidTreatment: v.array(v.strictObject({ treatment: InvalidTreatment, verdict: Verdict })),
  byWindowTreatment: v.array(v.strictObject({ treatment: WindowTreatment, verdict: Verdict })),
  notes: Notes,
});

/** People from enrolment to analysis. Every split adds up. */
export const FlowSchema = v.strictObject({
  ...Cell,
  enrolled: Count,
  before: v.array(v.strictObject({ reason: v.string(), people: Count })),
  eligible: Count,
  rapidNotDone: Count,
  tested: Count,
  firstInvalid: Count,
  branches: v.array(
    v.strictObject({
      rapid: RapidResult,
      people: Count,
      reference: ReferenceCounts,
    }),
  ),
  outsideWindow: v.strictObject({ people: Count, treatment: WindowTreatment }),
  /** People in the fourfold table of the primary analysis. */
  analysed: Count,
  setAside: v.array(v.strictObject({ reason: v.string(), people: Count })),
});

const FourfoldCounts = v.strictObject({
  truePositives: Count,
  falsePositives: Count,
  falseNegatives: Count,
  trueNegatives: Count,
});

export const AccuracySchema = v.strictObject({
  ...Cell,
  /** Raw cross-tabulation of people, before any treatment: rapid result by reference status. */
  crossTabulation: v.strictObject({
    reactive: ReferenceCounts,
    nonreactive: ReferenceCounts,
    invalid: ReferenceCounts,
    not_done: ReferenceCounts,
  }),
  counts: FourfoldCounts,
  ...SensitivitySpecificity,
  /** The same two by the Wilson score interval, beside the chosen one. */
  wilson: v.strictObject(SensitivitySpecificity),
  positiveLikelihoodRatio: Estimate,
  negativeLikelihoodRatio: Estimate,
  diagnosticOddsRatio: Estimate,
  youden: Estimate,
  overallAccuracy: Proportion,
  apparentPrevalence: Proportion,
  referencePrevalence: Proportion,
  /** Each side at sqrt(level), so that both hold together at the level. */
  jointRegion: v.strictObject({
    level: Share,
    sensitivity: v.strictObject({ lower: Real, upper: Real }),
    specificity: v.strictObject({ lower: Real, upper: Real }),
  }),
  /** The study's own predictive values; `null` where the sample is not the programme's (see `refused`). */
  ownPredictiveValues: v.nullable(v.strictObject({ ppv: Proportion, npv: Proportion })),
  refused: v.nullable(v.picklist(["enriched_sample", "comparator_not_reference", "no_data"])),
  notes: Notes,
});

/** Two analytes read on the same devices. */
export const JointSchema = v.strictObject({
  analytes: v.tuple([v.string(), v.string()]),
  kit: v.string(),
  specimen: v.string(),
  reader: v.string(),
  /** People by joint reference status (rows ++, +-, -+, --) and joint rapid result (columns, same order). */
  table: v.array(v.array(Count)),
  bothRight: Proportion,
  byStatus: v.array(v.strictObject({ status: v.picklist(["++", "+-", "-+", "--"]), bothRight: Proportion })),
  crossReaction: v.array(
    v.strictObject({
      analyte: v.string(),
      other: v.string(),
      whenOtherPositive: Proportion,
      whenOtherNegative: Proportion,
      difference: Estimate,
      pValue: Real,
    }),
  ),
  errorCorrelation: v.strictObject({ bothPositive: Real, bothNegative: Real }),
  notes: Notes,
});

export const InvalidSchema = v.strictObject({
  ...Cell,
  firstAttempt: Proportion,
  final: Proportion,
  reasons: v.array(v.strictObject({ reason: v.string(), people: Count })),
  treatments: v.array(v.strictObject({ treatment: InvalidTreatment, ...SensitivitySpecificity })),
  notes: Notes,
});

const Homogeneity = v.nullable(
  v.strictObject({
    chiSquare: Real,
    degreesOfFreedom: Real,
    pValue: Real,
    exactPValue: Real,
    trendPValue: Real,
    notes: Notes,
  }),
);

export const SubgroupSchema = v.strictObject({
  ...Cell,
  stratum: v.string(),
  title: v.string(),
  planned: v.boolean(),
  groups: v.array(v.strictObject({ group: v.string(), ...SensitivitySpecificity, invalid: Proportion })),
  homogeneity: v.strictObject({ sensitivity: Homogeneity, specificity: Homogeneity }),
});

export const PredictiveSchema = v.strictObject({
  ...Cell,
  programmes: v.array(
    v.strictObject({
      id: v.string(),
      title: v.string(),
      source: v.nullable(v.string()),
      prevalence: Share,
      ppv: Estimate,
      npv: Estimate,
      /** Expected people per 10,000 tested (not rounded). */
      per10000: v.strictObject({
        reactive: Estimate,
        truePositives: Estimate,
        falsePositives: Estimate,
        falseNegatives: Estimate,
        trueNegatives: Estimate,
      }),
    }),
  ),
  curve: v.array(v.strictObject({ prevalence: Share, ppv: Estimate, npv: Estimate })),
  /** Lowest prevalence at which the PPV reaches the target: by the estimate, and by its lower limit. */
  lowestPrevalence: v.array(v.strictObject({ target: Share, prevalence: Real, byLowerLimit: Real })),
  notes: Notes,
});

export const ReadingTimeSchema = v.strictObject({
  ...Cell,
  window: v.strictObject({ from: v.number(), to: v.number() }),
  people: v.strictObject({ early: Count, in: Count, late: Count, unknown: Count }),
  histogram: v.array(v.strictObject({ from: v.number(), to: v.number(), people: Count })),
  byWindow: v.array(
    v.strictObject({
      window: v.picklist(["early", "in", "late", "unknown"]),
      people: Count,
      ...SensitivitySpecificity,
    }),
  ),
  treatments: v.array(v.strictObject({ treatment: WindowTreatment, ...SensitivitySpecificity })),
  /** Outside (early, late, or both) less inside the window: different people, so no proof of cause. */
  differences: v.array(
    v.strictObject({
      outside: v.picklist(["early", "late", "outside"]),
      measure: AccuracyMeasure,
      difference: Estimate,
      pValue: Real,
    }),
  ),
  /** Both measures by minutes, in the bands that hold enough people. */
  byMinutes: v.array(
    v.strictObject({ from: v.number(), to: v.number(), people: Count, ...SensitivitySpecificity }),
  ),
  /** Readings whose whole minutes end in 0 or 5; about a fifth is expected without digit preference. */
  roundedMinutes: Proportion,
  notes: Notes,
});

/** Typed results held against the readers' own lines. Counts of device results. */
export const InterpretationSchema = v.strictObject({
  analyte: v.string(),
  reader: v.string(),
  typed: Count,
  agree: Count,
  /** Typed result differs from what the kit's rule makes of the reader's own lines: misread the rule. */
  misreadRule: v.array(
    v.strictObject({
      derived: RapidResult,
      typed: RapidResult,
      count: Count,
    }),
  ),
  /** The reader's lines differ from another reader's: could not see, or saw, the line. */
  comparedLines: Count,
  sawDifferently: Count,
});
