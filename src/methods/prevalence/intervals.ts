import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import type { IntervalMethod } from "../proportion/intervals/rules.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import { roganGladen, type Survey } from "./corrected.ts";

/** The estimates of a true prevalence side by side; all `null` where there is none. */
export interface Estimated {
  readonly roganGladen: number | null;
  readonly treatedAsKnown: {
    readonly standardError: number | null;
    readonly exact: Estimate;
    readonly blaker: Estimate;
    readonly wilson: Estimate;
  };
  readonly delta: { readonly standardError: number | null; readonly interval: Estimate };
  readonly langReiczigel: {
    readonly centre: number | null;
    readonly shift: number | null;
    readonly interval: Estimate;
  };
  readonly simulated: {
    readonly interval: Estimate;
    readonly lowerError: number | null;
    readonly upperError: number | null;
    readonly undefinedDraws: number;
  };
}

export function unknownEstimate(): Estimated {
  const interval = NOT_ESTIMABLE;
  return {
    roganGladen: null,
    treatedAsKnown: { standardError: null, exact: interval, blaker: interval, wilson: interval },
    delta: { standardError: null, interval },
    langReiczigel: { centre: null, shift: null, interval },
    simulated: { interval, lowerError: null, upperError: null, undefinedDraws: 0 },
  };
}

/**
 * Limits of the apparent prevalence carried over to the true one, sensitivity and specificity being
 * known: an exact interval stays exact. Source: reiczigel2010
 */
export function asKnown(survey: Survey, value: number, level: number): Estimated["treatedAsKnown"] {
  const { count, total, sensitivity, specificity } = survey;
  const carried = (method: IntervalMethod): Estimate => {
    const { lower, upper } = proportionInterval(count, total, { method, level });
    return {
      value,
      lower: roganGladen(lower, sensitivity.value, specificity.value),
      upper: roganGladen(upper, sensitivity.value, specificity.value),
    };
  };
  const apparent = count / total;
  return {
    standardError:
      Math.sqrt((apparent * (1 - apparent)) / total) / (sensitivity.value + specificity.value - 1),
    exact: carried("clopper_pearson"),
    blaker: carried("blaker"),
    wilson: carried("wilson"),
  };
}

export function deltaInterval(value: number, standardError: number, level: number): Estimate {
  const reach = normalQuantile((1 - level) / 2, "upper") * standardError;
  return { value, lower: value - reach, upper: value + reach };
}

/** Every number of an estimate kept within 0..1, where `truncate` asks for it. */
export function cutTo({ value, lower, upper }: Estimate, truncate: boolean): Estimate {
  const cut = (part: number | null) => (part === null || !truncate ? part : Math.min(1, Math.max(0, part)));
  return { value: cut(value), lower: cut(lower), upper: cut(upper) };
}
