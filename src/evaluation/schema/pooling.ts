import * as v from "valibot";
import { BivariateValues } from "../../methods/pooling/bivariate-fields.ts";
import { InfluenceValues } from "../../methods/pooling/influence-fields.ts";
import { Values as UnivariateValues } from "../../methods/pooling/univariate-fields.ts";
import {
  AccuracyMeasure,
  Cell,
  Count,
  Estimate,
  Notes,
  Real,
  SensitivitySpecificity,
  Share,
  Verdict,
} from "./parts.ts";

const Counts = v.strictObject({
  truePositives: Count,
  falsePositives: Count,
  falseNegatives: Count,
  trueNegatives: Count,
});

const Model = v.nullable(v.picklist(["bivariate", "univariate"]));

/** A criterion held against the middle of the groups, and against what another group may see. */
const PooledCriterion = v.strictObject({
  criterion: v.string(),
  measure: AccuracyMeasure,
  threshold: Share,
  direction: v.picklist(["at_least", "at_most"]),
  naive: v.pipe(Verdict, v.description("as the answer has it: all people together, by the study's interval")),
  summary: v.pipe(Verdict, v.description("the middle of the groups, by its own limits and the same rule")),
  summaryEstimate: Estimate,
  newGroup: v.strictObject({
    prediction: v.pipe(Estimate, v.description("where the true measure of another group may lie")),
    verdict: v.pipe(Verdict, v.description("met: the whole prediction interval lies on the right side")),
    chance: v.pipe(
      Real,
      v.description("chance that the true measure of another group lies on the right side of the figure"),
    ),
  }),
  by: v.pipe(Model, v.description("the model these figures are of; null: neither found a middle")),
});

/** One cell with the groups of a stratum taken as a sample of such groups. */
export const PooledSchema = v.strictObject({
  ...Cell,
  by: v.strictObject({ stratum: v.string(), title: v.string() }),
  /** `null`: none named, or it can't be used (a note says why); levels then in no use. */
  covariate: v.nullable(v.strictObject({ stratum: v.string(), title: v.string() })),
  /** `people` = those in `groups` + those in `leftOut`; counts as in the primary analysis. */
  people: Count,
  groups: v.array(
    v.strictObject({
      label: v.string(),
      level: v.pipe(v.nullable(v.string()), v.description("of the covariate, where that is in use")),
      people: Count,
      counts: Counts,
      ...SensitivitySpecificity,
    }),
  ),
  /** People not in a fourfold table of a group: whole groups without one, and people set aside everywhere. */
  leftOut: v.array(v.strictObject({ label: v.nullable(v.string()), reason: v.string(), people: Count })),
  /** All groups together, as if everybody were of one group: simple sums with the study's interval. */
  together: v.strictObject(SensitivitySpecificity),
  /**
   * Which model to read for each measure: univariate where the groups can't tell how the two hang together
   * (fewer than five, correlation at -1 or 1, search unfinished); null: neither found a middle.
   */
  preferred: v.strictObject({ sensitivity: Model, specificity: Model }),
  /** Groups in the order above. `null`: no group, or too many. */
  bivariate: v.nullable(BivariateValues),
  univariate: v.nullable(v.strictObject({ sensitivity: UnivariateValues, specificity: UnivariateValues })),
  /** `null`: as above, or too many groups to leave each out. */
  influence: v.nullable(InfluenceValues),
  /** Figures that the influence was asked with; `null`: no criterion on both measures. */
  influenceCriterion: v.nullable(v.strictObject({ sensitivity: Share, specificity: Share })),
  criteria: v.array(PooledCriterion),
  /** Paths begin with `bivariate.`, `univariate.sensitivity.`, `influence.` … where a note is about these. */
  notes: Notes,
});
