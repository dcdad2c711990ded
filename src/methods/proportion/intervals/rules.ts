import { STUDY_INTERVALS } from "../../../core/interval-names.ts";
import { agrestiCoull } from "./agresti-coull.ts";
import { blaker } from "./blaker.ts";
import { clopperPearson } from "./clopper-pearson.ts";
import { jeffreys } from "./jeffreys.ts";
import { likelihoodRatio } from "./likelihood-ratio.ts";
import type { IntervalRule } from "./limits.ts";
import { midP } from "./mid-p.ts";
import { wald, waldCorrected } from "./wald.ts";
import { wilson } from "./wilson.ts";
import { wilsonCorrected } from "./wilson-corrected.ts";

/** The intervals offered, the default first. */
export const INTERVAL_METHODS = [...STUDY_INTERVALS, "wald", "wald_corrected"] as const;
export type IntervalMethod = (typeof INTERVAL_METHODS)[number];

/** How each finds its limits. */
export const RULES: Readonly<Record<IntervalMethod, IntervalRule>> = {
  clopper_pearson: clopperPearson,
  mid_p: midP,
  blaker,
  wilson,
  wilson_corrected: wilsonCorrected,
  jeffreys,
  agresti_coull: agrestiCoull,
  likelihood_ratio: likelihoodRatio,
  wald,
  wald_corrected: waldCorrected,
};
