import * as v from "valibot";
import { AccuracyMeasure, Cell, Count, Estimate, Notes, Proportion, Real } from "./parts.ts";

/** One measure by the plain interval, and by intervals that allow for people being alike within a cluster. */
export const ClusteredSchema = v.strictObject({
  ...Cell,
  measure: AccuracyMeasure,
  /** Title of the stratum that the study file names as cluster. */
  cluster: v.string(),
  clusters: Count,
  plain: Proportion,
  ratioEstimator: Estimate,
  /** The chosen exact interval at the effective number of people. */
  effective: Estimate,
  bootstrap: Estimate,
  designEffect: Real,
  intraclusterCorrelation: Real,
  effectiveTotal: Real,
  notes: Notes,
});
