import type { ProportionEstimate } from "../../core/estimate.ts";
import type { FourfoldCounts } from "../../records/tallies.ts";
import type { Worktop } from "../worktop.ts";

/** Sensitivity and specificity of four counts, with the study's interval. */
export function sensitivitySpecificity(
  worktop: Worktop,
  counts: FourfoldCounts,
): { sensitivity: ProportionEstimate; specificity: ProportionEstimate } {
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  return {
    sensitivity: worktop.proportion(truePositives, truePositives + falseNegatives),
    specificity: worktop.proportion(trueNegatives, trueNegatives + falsePositives),
  };
}
