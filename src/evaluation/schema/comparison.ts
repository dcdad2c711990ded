import * as v from "valibot";
import { AccuracyMeasure, Count, Estimate, Notes, Proportion, Real, Share } from "./parts.ts";

const Side = v.strictObject({ kit: v.string(), specimen: v.string(), reader: v.string() });
const Margin = v.nullable(
  v.strictObject({
    margin: Share,
    kind: v.picklist(["noninferiority", "equivalence"]),
    verdict: v.picklist(["met", "not_met", "undecided", "not_estimable"]),
    pValue: Real,
    source: v.string(),
    enteredOn: v.nullable(v.string()),
  }),
);

/** One measure of two kits, specimen types or readers. */
const MeasureSchema = v.strictObject({
  measure: AccuracyMeasure,
  first: Proportion,
  second: Proportion,
  /** The same people on both sides, cross-classified by right or wrong; `null` where people differ. */
  paired: v.nullable(v.strictObject({ both: Count, firstOnly: Count, secondOnly: Count, neither: Count })),
  difference: Estimate,
  ratio: Estimate,
  pValue: Real,
  /** What gave difference and p-value, as words of the catalogue, e.g. `tango` and `mid_p`. */
  interval: v.string(),
  test: v.string(),
  margin: Margin,
  notes: Notes,
});

const PredictiveSchema = v.strictObject({
  measure: v.picklist(["ppv", "npv"]),
  first: Real,
  second: Real,
  difference: Estimate,
  ratio: Estimate,
  pValue: Real,
});

export const ComparisonSchema = v.strictObject({
  id: v.string(),
  title: v.string(),
  analyte: v.string(),
  first: Side,
  second: Side,
  people: v.strictObject({ both: Count, firstOnly: Count, secondOnly: Count }),
  measures: v.array(MeasureSchema),
  /** Predictive values in this sample; only where its own prevalence is the programme's. */
  predictive: v.array(PredictiveSchema),
  notes: Notes,
});
