import type { ProportionEstimate } from "../../core/estimate.ts";
import { InputError } from "../../core/input-error.ts";
import type { Limits } from "./intervals/limits.ts";
import { type IntervalMethod, RULES } from "./intervals/rules.ts";

export type Sides = "two" | "lower" | "upper";

/** Which interval; what is absent takes its default: exact, 0.95, two-sided, truncated. */
export interface IntervalSettings {
  readonly method?: IntervalMethod;
  readonly level?: number;
  /** `lower` and `upper`: only that limit, at the full level; the other one is 0 or 1. */
  readonly sides?: Sides;
  /** `false` leaves limits outside 0..1 as the formula gives them (Wald, Agresti and Coull). */
  readonly truncate?: boolean;
}

const DEFAULTS: IntervalSettings = {};

/**
 * The confidence interval of a proportion, for callers in a hurry: no schema, no object but the
 * answer. About a microsecond for the exact interval.
 *
 * @param count  how many of them, whole, 0..total
 * @param total  of how many, whole, 1 or more
 * @throws InputError when count or total do not fit, or a one-sided limit is asked for that does not
 *   exist (Blaker's interval; a level of 0.5 or less)
 */
export function proportionInterval(
  count: number,
  total: number,
  settings: IntervalSettings = DEFAULTS,
): Limits {
  const { sides = "two" } = settings;
  return {
    lower: sides === "upper" ? 0 : lowerLimit(count, total, settings),
    upper: sides === "lower" ? 1 : upperLimit(count, total, settings),
  };
}

/** The lower limit alone, as `proportionInterval` gives it. */
export function lowerLimit(count: number, total: number, settings: IntervalSettings = DEFAULTS): number {
  const method = settings.method ?? "clopper_pearson";
  const limit = RULES[method].lower(requireCount(count, total), total, outsideOf(settings));
  return limit < 0 && (settings.truncate ?? true) ? 0 : limit;
}

/** The upper limit alone, as `proportionInterval` gives it. */
export function upperLimit(count: number, total: number, settings: IntervalSettings = DEFAULTS): number {
  const method = settings.method ?? "clopper_pearson";
  const limit = RULES[method].upper(requireCount(count, total), total, outsideOf(settings));
  return limit > 1 && (settings.truncate ?? true) ? 1 : limit;
}

function requireCount(count: number, total: number): number {
  if (!(total >= 1)) throw new InputError(["total"], "1 or more", total);
  if (!(count >= 0 && count <= total)) throw new InputError(["count"], `0 to ${total}`, count);
  return count;
}

/** The probability left outside on each side that has a limit. */
function outsideOf({ method, level = 0.95, sides = "two" }: IntervalSettings): number {
  if (sides === "two") return (1 - level) / 2;
  if (method === "blaker") {
    throw new InputError(["options", "sides"], "two for the interval of Blaker", sides);
  }
  if (!(level > 0.5)) throw new InputError(["options", "level"], "above 0.5 for a one-sided limit", level);
  return 1 - level;
}

/**
 * A proportion with its counts and its interval; value and limits are `null` where nothing was
 * observed (the caller adds the note).
 */
export function estimateProportion(
  count: number,
  total: number,
  settings: IntervalSettings = DEFAULTS,
): ProportionEstimate {
  if (total === 0) return { count, total, value: null, lower: null, upper: null };
  const { lower, upper } = proportionInterval(count, total, settings);
  return { count, total, value: count / total, lower, upper };
}
