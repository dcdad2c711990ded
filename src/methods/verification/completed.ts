import type { Estimate } from "../../core/estimate.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { type Cell, type Measure, type Result, verifiedIn } from "./fields.ts";

type State = "diseased" | "nondiseased";
type Part = Partial<Readonly<Record<Result, State>>>;

/** Each measure is one sum over cells, divided by that sum and a second: which state counts for which result. */
export const PARTS: Readonly<Record<Measure, { readonly top: Part; readonly rest: Part }>> = {
  sensitivity: { top: { reactive: "diseased" }, rest: { nonreactive: "diseased" } },
  specificity: { top: { nonreactive: "nondiseased" }, rest: { reactive: "nondiseased" } },
  prevalence: {
    top: { reactive: "diseased", nonreactive: "diseased" },
    rest: { reactive: "nondiseased", nonreactive: "nondiseased" },
  },
  ppv: { top: { reactive: "diseased" }, rest: { reactive: "nondiseased" } },
  npv: { top: { nonreactive: "nondiseased" }, rest: { nonreactive: "diseased" } },
};

/** Odds of being verified among the diseased over those among the nondiseased, given the result. */
export type OddsRatios = Readonly<Record<Result, number>>;

/** Verification does not hang on the true state, once the result is known. */
export const AT_RANDOM: OddsRatios = { reactive: 1, nonreactive: 1 };

/** A measure of the completed table. */
export interface Completed {
  readonly value: number;
  /** Sums above and below: value = top / (top + rest). */
  readonly top: number;
  readonly rest: number;
  /** Standard error of the value's log odds; `null` at 0 and 1. */
  readonly logitError: number | null;
}

/** A cell of which nothing is known: people, but nobody verified. */
export function isBlind(cell: Cell): boolean {
  return verifiedIn(cell) === 0 && cell.unverified > 0;
}

/** Whether a measure makes use of the people with a result. */
export function uses(measure: Measure, result: Result): boolean {
  const { top, rest } = PARTS[measure];
  return top[result] !== undefined || rest[result] !== undefined;
}

/** Expected people of a state in a cell, and how that changes with each of the three counts. */
interface Expected {
  readonly people: number;
  readonly slopes: readonly [number, number, number];
}

/** Share of the diseased among the unverified: their odds are those among the verified, over the odds ratio. */
export function unverifiedShare({ diseased, nondiseased }: Cell, oddsRatio: number): number {
  return diseased === 0 ? 0 : diseased / (diseased + oddsRatio * nondiseased);
}

function expectedIn(cell: Cell, oddsRatio: number): Readonly<Record<State, Expected>> {
  const { diseased, nondiseased, unverified } = cell;
  const scaled = oddsRatio * nondiseased;
  const weight = diseased + scaled;
  const share = unverifiedShare(cell, oddsRatio);
  const other = weight === 0 ? 0 : scaled / weight;
  const byDiseased = weight === 0 ? 0 : (unverified * other) / weight;
  const byNondiseased = weight === 0 ? 0 : (-unverified * oddsRatio * share) / weight;
  return {
    diseased: {
      people: diseased + unverified * share,
      slopes: [1 + byDiseased, byNondiseased, share],
    },
    nondiseased: {
      people: nondiseased + unverified * other,
      slopes: [-byDiseased, 1 - byNondiseased, other],
    },
  };
}

/**
 * A measure of the table completed with the people not verified, with its standard error by the delta
 * method over the multinomial counts of all cells.
 *
 * @returns `null` where nobody was verified in a cell that the measure needs, or there is nobody to count
 */
export function completedMeasure(
  cells: readonly Cell[],
  measure: Measure,
  oddsRatios: OddsRatios = AT_RANDOM,
): Completed | null {
  const { top, rest } = PARTS[measure];
  const used = cells.filter(({ result }) => uses(measure, result));
  if (used.some(isBlind)) return null;
  const expected = used.map((cell) => expectedIn(cell, oddsRatios[cell.result]));
  const sumOf = (part: Part) =>
    used.reduce((sum, { result }, at) => {
      const state = part[result];
      return state === undefined ? sum : sum + (expected[at]?.[state].people ?? 0);
    }, 0);
  const above = sumOf(top);
  const below = sumOf(rest);
  if (above + below === 0) return null;
  const value = above / (above + below);
  if (above === 0 || below === 0) return { value, top: above, rest: below, logitError: null };
  let variance = 0;
  for (const [at, cell] of used.entries()) {
    const forTop = slopesOf(expected[at], top[cell.result]);
    const forRest = slopesOf(expected[at], rest[cell.result]);
    const counts = [cell.diseased, cell.nondiseased, cell.unverified];
    for (const [kind, people] of counts.entries()) {
      variance += people * Math.pow((forTop[kind] ?? 0) / above - (forRest[kind] ?? 0) / below, 2);
    }
  }
  return { value, top: above, rest: below, logitError: Math.sqrt(variance) };
}

const NO_SLOPES = [0, 0, 0] as const;

function slopesOf(expected: Readonly<Record<State, Expected>> | undefined, state: State | undefined) {
  return state === undefined ? NO_SLOPES : (expected?.[state].slopes ?? NO_SLOPES);
}

/** The measure's standard error on the scale of proportions; `null` at 0 and 1. */
export function standardErrorOf({ top, rest, logitError }: Completed): number | null {
  return logitError === null ? null : (top / (top + rest)) * (rest / (top + rest)) * logitError;
}

/** Limits symmetric in the log odds; both `null` at 0 and 1. */
export function logitEstimate({ value, top, rest, logitError }: Completed, level: number): Estimate {
  if (logitError === null) return { value, lower: null, upper: null };
  const stretch = Math.exp(normalQuantile((1 + level) / 2) * logitError);
  return { value, lower: top / (top + rest * stretch), upper: top / (top + rest / stretch) };
}

/** Estimate plus or minus z standard errors, not cut; both limits `null` at 0 and 1. */
export function deltaEstimate(completed: Completed, level: number): Estimate {
  const error = standardErrorOf(completed);
  if (error === null) return { value: completed.value, lower: null, upper: null };
  const reach = normalQuantile((1 + level) / 2) * error;
  return { value: completed.value, lower: completed.value - reach, upper: completed.value + reach };
}
