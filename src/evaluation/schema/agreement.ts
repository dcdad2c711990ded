import * as v from "valibot";
import { Count, Estimate, Notes, Proportion, RapidResult, Real } from "./parts.ts";

/** Two readers' valid results for one analyte on the same devices. Counts are of devices, not of people. */
export const AgreementSchema = v.strictObject({
  analyte: v.string(),
  kit: v.string(),
  specimen: v.string(),
  first: v.string(),
  second: v.string(),
  /** How each read: by eye or by instrument. */
  methods: v.tuple([v.string(), v.string()]),
  counts: v.strictObject({
    bothReactive: Count,
    firstOnly: Count,
    secondOnly: Count,
    bothNonreactive: Count,
  }),
  /** Devices that one or both called invalid: not in the counts above. */
  invalid: v.strictObject({ both: Count, firstOnly: Count, secondOnly: Count }),
  /** Devices that only one of them read. */
  unpaired: Count,
  overall: Proportion,
  /** Of the devices reactive (non-reactive) to the second reader, how many the first called so. */
  positivePercentAgreement: Proportion,
  negativePercentAgreement: Proportion,
  /** Symmetric: twice the shared over the sum of both readers' reactive (non-reactive) results. */
  positiveAgreement: Estimate,
  negativeAgreement: Estimate,
  kappa: Estimate,
  pabak: Estimate,
  ac1: Estimate,
  krippendorffAlpha: Real,
  prevalenceIndex: Real,
  biasIndex: Real,
  paradox: v.picklist(["none", "prevalence", "bias", "both"]),
  /** The line as both eye readers saw it: absent, faint, clear (rows: first reader); `null` without lines. */
  lineStrength: v.nullable(
    v.strictObject({ table: v.array(v.array(Count)), weightedKappa: Estimate, notes: Notes }),
  ),
  /** Where they disagree: the share of discordant devices within each group. */
  disagreements: v.array(
    v.strictObject({
      by: v.picklist(["line", "window", "lot", "operator", "site"]),
      group: v.string(),
      discordant: Proportion,
    }),
  ),
  notes: Notes,
});

/** All eye readers together, where there are three or more, or two who did not read every device. */
export const ManyReadersSchema = v.strictObject({
  analyte: v.string(),
  kit: v.string(),
  specimen: v.string(),
  readers: v.array(v.string()),
  /** Devices with two valid readings or more. */
  devices: Count,
  fleissKappa: Estimate,
  ac1: Estimate,
  alpha: Estimate,
  notes: Notes,
});

/** The same reader read the same device twice: what the second reading changed. */
export const RereadSchema = v.strictObject({
  analyte: v.string(),
  kit: v.string(),
  specimen: v.string(),
  reader: v.string(),
  devices: Count,
  /** First result to second result. */
  transitions: v.array(
    v.strictObject({
      first: RapidResult,
      second: RapidResult,
      devices: Count,
    }),
  ),
  /** Of the devices with two valid readings, how many changed. */
  flipped: Proportion,
  mcnemarPValue: Real,
  /** Second reading less first, on the people whose reference status is known. */
  sensitivityDifference: Estimate,
  specificityDifference: Estimate,
  notes: Notes,
});
