import type { Estimate } from "../../core/estimate.ts";

export const expit = (logit: number): number =>
  logit > 0 ? 1 / (1 + Math.exp(-logit)) : Math.exp(logit) / (1 + Math.exp(logit));

/** An estimate on the logit scale as a proportion. */
export function asProportion({ value, lower, upper }: Estimate): Estimate {
  const turned = (part: number | null) => (part === null ? null : expit(part));
  return { value: turned(value), lower: turned(lower), upper: turned(upper) };
}
