import * as v from "valibot";
import { Cell, Count, Real, Verdict } from "./parts.ts";

const Model = { subject: v.pipe(v.string(), v.description("id of the latent class model")) };
const Judged = {
  subject: v.pipe(v.string(), v.description("id of the criterion")),
  ...Cell,
};

/** What a reader must know before relying on the figures, for want of a sure reference. */
export const ReferenceWarningSchema = v.variant("code", [
  v.strictObject({
    code: v.literal("verdict_hangs_on_reference"),
    ...Judged,
    facts: v.strictObject({
      /** If the reference never erred, and as it is believed to be: by the same kind of limits. */
      perfect: Verdict,
      believed: Verdict,
      throughout: v.nullable(Verdict),
      /** Where the verdict changes inside the stated range; `null` where it does not. */
      sensitivityBorder: Real,
      specificityBorder: Real,
    }),
  }),
  v.strictObject({
    code: v.literal("partial_verification_changes_verdict"),
    ...Judged,
    facts: v.strictObject({
      naive: Verdict,
      corrected: Verdict,
      /** Odds ratios between which the corrected verdict holds, and those looked at. */
      holdsFrom: Real,
      holdsTo: Real,
      from: Real,
      to: Real,
    }),
  }),
  v.strictObject({
    code: v.literal("not_identified"),
    ...Model,
    facts: v.strictObject({ rank: Real, unknowns: Real }),
  }),
  v.strictObject({
    code: v.literal("rests_on_priors"),
    ...Model,
    facts: v.strictObject({ rank: Real, unknowns: Real }),
  }),
  v.strictObject({
    code: v.literal("not_converged"),
    ...Model,
    facts: v.strictObject({ worstRHat: Real, fewestEffective: Real }),
  }),
  v.strictObject({
    code: v.literal("prior_conflict"),
    ...Model,
    facts: v.strictObject({
      /** The share that disagrees most, e.g. `tests.0.sensitivity`; and how many disagree. */
      parameter: v.string(),
      p: Real,
      shares: Count,
    }),
  }),
  v.strictObject({
    code: v.literal("poor_fit"),
    ...Model,
    facts: v.strictObject({ by: v.picklist(["likelihood", "bayesian"]), p: Real }),
  }),
  v.strictObject({
    code: v.literal("discrepant_only_retested"),
    subject: v.pipe(v.string(), v.description("analyte, and kit where there are several")),
    facts: v.strictObject({ count: Count, total: v.nullable(Count) }),
  }),
]);
