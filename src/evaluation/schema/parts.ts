import * as v from "valibot";
import { MEASURES } from "../measures.ts";

/** Building blocks of the evaluation document. Full precision everywhere; rounding is the report's. */
export const Count = v.pipe(v.number(), v.integer(), v.minValue(0));
export const Real = v.nullable(v.pipe(v.number(), v.finite()));
export const Share = v.pipe(v.number(), v.minValue(0), v.maxValue(1));

export const Estimate = v.strictObject({ value: Real, lower: Real, upper: Real });
export const Proportion = v.strictObject({
  count: Count,
  total: Count,
  value: Real,
  lower: Real,
  upper: Real,
});

const NoteSchema = v.strictObject({ code: v.string(), path: v.string(), message: v.string() });
export const Notes = v.array(NoteSchema);

const VERDICTS = ["met", "not_met", "undecided", "not_estimable"] as const;
export const Verdict = v.picklist(VERDICTS);
export const INVALID_TREATMENTS = ["set_aside", "failure", "reactive", "nonreactive"] as const;
export const InvalidTreatment = v.picklist(INVALID_TREATMENTS);
export const WINDOW_TREATMENTS = ["keep", "set_aside", "invalid"] as const;
export const WindowTreatment = v.picklist(WINDOW_TREATMENTS);
export const RapidResult = v.picklist(["reactive", "nonreactive", "invalid"]);
export const AccuracyMeasure = v.picklist(MEASURES);
export const Measure = v.picklist(["sensitivity", "specificity", "invalid_rate"]);

/** Which people's results: one analyte, one kit, one specimen type, one reader. */
export const Cell = {
  analyte: v.string(),
  kit: v.string(),
  specimen: v.string(),
  reader: v.string(),
};

export const ReferenceCounts = v.strictObject({
  positive: Count,
  negative: Count,
  indeterminate: Count,
  not_done: Count,
});

/** Two measures as one treatment gives them. */
export const SensitivitySpecificity = { sensitivity: Proportion, specificity: Proportion };
