/** Which of the two paradoxes of kappa a fourfold table shows. */
export const PARADOXES = ["none", "prevalence", "bias", "both"] as const;
export type Paradox = (typeof PARADOXES)[number];

/** Agreement this high or higher is what a reader of a report expects a good kappa for: PABAK 0.6 or more. */
const HIGH_AGREEMENT = 0.8;
/** One whole band of the customary five-word scale of kappa (0.2, 0.4, 0.6, 0.8): another word is used. */
const PREVALENCE_DROP = 0.2;
/** What changes the first decimal of kappa in half of the cases. Bias can raise it by little more than 0.1. */
const BIAS_RISE = 0.05;

/** Kappa of a fourfold table taken apart: what it would be with one of the two unbalances taken away. */
export interface KappaParts {
  readonly pabak: number;
  /** Difference of the two agreeing cells: how far reactive and non-reactive differ in number. */
  readonly prevalenceIndex: number;
  /** Difference of the two disagreeing cells: how far the readers differ in calling things reactive. */
  readonly biasIndex: number;
}

/**
 * Kappa from its parts: (PABAK - PI² + BI²) / (1 - PI² + BI²); `null` where both readers gave one and the
 * same answer throughout.
 *
 * Source: byrt1993
 */
export function kappaFromParts({ pabak, prevalenceIndex, biasIndex }: KappaParts): number | null {
  const balance = biasIndex * biasIndex - prevalenceIndex * prevalenceIndex;
  return 1 + balance === 0 ? null : (pabak + balance) / (1 + balance);
}

/**
 * Which paradox bites, by thresholds fixed here.
 *
 * `prevalence`: agreement of 0.8 or more, and kappa lower by 0.2 or more than it would be if both answers
 * were equally common. `bias`: kappa higher by 0.05 or more than it would be if both readers called equally
 * many reactive. Feinstein and Cicchetti's own pairs of tables (0.85 agreement with kappa 0.70 and 0.32;
 * 0.60 agreement with kappa 0.13 and 0.26) fall on the two sides of these thresholds.
 *
 * @returns `null` where kappa does not exist
 * Sources: feinstein1990, byrt1993, landis1977 (bands)
 */
export function paradoxOf(parts: KappaParts): Paradox | null {
  const kappa = kappaFromParts(parts);
  if (kappa === null) return null;
  const balanced = kappaFromParts({ ...parts, prevalenceIndex: 0 }) ?? kappa;
  const unbiased = kappaFromParts({ ...parts, biasIndex: 0 });
  const agreement = (1 + parts.pabak) / 2;
  const lowered = agreement >= HIGH_AGREEMENT && balanced - kappa >= PREVALENCE_DROP;
  const raised = unbiased !== null && kappa - unbiased >= BIAS_RISE;
  if (lowered && raised) return "both";
  if (lowered) return "prevalence";
  return raised ? "bias" : "none";
}
