import * as v from "valibot";
import { AccuracyMeasure, Cell, Count, Real, Verdict } from "./parts.ts";

const Pooled = { ...Cell, by: v.pipe(v.string(), v.description("title of the stratum that was pooled")) };

/** What a reader must know before relying on figures pooled over groups, or on readings of an instrument. */
export const WarningSchema = v.variant("code", [
  v.strictObject({
    code: v.literal("groups_differ"),
    ...Pooled,
    facts: v.strictObject({
      measure: AccuracyMeasure,
      /** Of one true proportion in all groups. */
      pValue: Real,
      betweenSd: Real,
      /** All people together; and where the truth of another group may lie. */
      together: Real,
      predictedLower: Real,
      predictedUpper: Real,
      /** A criterion that all people together meet and another group may well not; `null`: none. */
      criterion: v.nullable(v.strictObject({ id: v.string(), naive: Verdict, chance: Real })),
    }),
  }),
  v.strictObject({
    code: v.literal("pooling_boundary"),
    ...Pooled,
    facts: v.strictObject({
      groups: Count,
      /** What ran to its border: a spread to 0, or the correlation to -1 or 1. */
      at: v.array(v.picklist(["sensitivity", "specificity", "correlation"])),
    }),
  }),
  v.strictObject({
    code: v.literal("pooling_not_converged"),
    ...Pooled,
    facts: v.strictObject({ groups: Count }),
  }),
  v.strictObject({
    code: v.literal("cutoff_chosen_here"),
    ...Cell,
    facts: v.strictObject({
      unit: v.string(),
      cutoff: Real,
      /** As these people show it, and to be expected in others. */
      sensitivity: Real,
      specificity: Real,
      correctedSensitivity: Real,
      correctedSpecificity: Real,
    }),
  }),
  v.strictObject({
    code: v.literal("no_detection_limit"),
    subject: v.pipe(v.string(), v.description("id of the panel")),
    facts: v.strictObject({
      reason: v.pipe(v.string(), v.description("code of the note that says why")),
    }),
  }),
]);
