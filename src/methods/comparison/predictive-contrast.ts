import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { notesAt } from "../notes-at.ts";
import type { Share } from "../proportion/difference-interval.ts";

/**
 * People with the result in question (reactive for the positive, non-reactive for the negative predictive
 * value) on both tests, on the first only, on the second only; `right` those whose status agrees with it.
 */
export interface ResultHolders {
  readonly right: HolderCounts;
  readonly wrong: HolderCounts;
}

interface HolderCounts {
  readonly both: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
}

export interface ScoreTest {
  readonly chiSquare: number | null;
  readonly pValue: number | null;
}

/** Two predictive values of the same people, compared. */
export interface PredictiveContrast {
  readonly first: Share;
  readonly second: Share;
  readonly difference: Estimate;
  readonly ratio: Estimate;
  readonly generalisedScore: ScoreTest;
  readonly weightedScore: ScoreTest;
  readonly notes: readonly Note[];
}

const KINDS = ["both", "firstOnly", "secondOnly"] as const;
const ON_FIRST = { both: 1, firstOnly: 1, secondOnly: 0 } as const;
const ON_SECOND = { both: 1, firstOnly: 0, secondOnly: 1 } as const;

/**
 * Compares the shares of right results among those of each test. Persons are the units: one who has the
 * result on both tests enters both shares, and the variances mind that.
 *
 * @param place path of the values, for the notes
 * Sources: moskowitz2006 (difference and ratio), leisenring2000 (generalised score), kosinski2013
 * (weighted generalised score)
 */
export function contrastOf(holders: ResultHolders, level: number, place: string): PredictiveContrast {
  const first = shareOf(holders, ON_FIRST);
  const second = shareOf(holders, ON_SECOND);
  const fixed = { first, second, difference: NOT_ESTIMABLE, ratio: NOT_ESTIMABLE };
  const absent = { chiSquare: null, pValue: null };
  const below = (...names: string[]) => names.map((name) => `${place}.${name}`);
  const tests = ["generalisedScore", "weightedScore"];
  if (first.total === 0 || second.total === 0) {
    const empty = [
      ...(first.total === 0 ? ["first"] : []),
      ...(second.total === 0 ? ["second"] : []),
      "difference",
      "ratio",
      ...tests,
    ];
    const message = "nobody has this result on one of the tests: it has no predictive value";
    const notes = notesAt("no_such_result", below(...empty), message);
    return { ...fixed, generalisedScore: absent, weightedScore: absent, notes };
  }
  const interval = intervals(holders, first, second, level, place);
  const share = (first.count + second.count) / (first.total + second.total);
  if (share === 0 || share === 1) {
    const message = "every such result is right, or every one is wrong, on both tests: nothing varies";
    const notes = [...interval.notes, ...notesAt("no_variation", below(...tests), message)];
    return { ...fixed, ...interval, generalisedScore: absent, weightedScore: absent, notes };
  }
  return {
    ...fixed,
    ...interval,
    generalisedScore: generalisedScore(holders, first, second, share),
    weightedScore: weightedScore(holders, first, second, share),
  };
}

function shareOf({ right, wrong }: ResultHolders, on: typeof ON_FIRST | typeof ON_SECOND): Share {
  const sum = (counts: HolderCounts) => KINDS.reduce((total, kind) => total + counts[kind] * on[kind], 0);
  return { count: sum(right), total: sum(right) + sum(wrong) };
}

/** Adds `right` or `wrong` of each kind times the square of what such a person contributes. */
function squares(
  { right, wrong }: ResultHolders,
  contribution: (kind: (typeof KINDS)[number], isRight: 0 | 1) => number,
): number {
  return KINDS.reduce(
    (sum, kind) =>
      sum +
      right[kind] * Math.pow(contribution(kind, 1), 2) +
      wrong[kind] * Math.pow(contribution(kind, 0), 2),
    0,
  );
}

/** Delta-method limits: the variance is the sum of the squared influences of the persons. */
function intervals(
  holders: ResultHolders,
  first: Share,
  second: Share,
  level: number,
  place: string,
): { difference: Estimate; ratio: Estimate; notes: Note[] } {
  const here = first.count / first.total;
  const there = second.count / second.total;
  const influence = (kind: (typeof KINDS)[number], isRight: 0 | 1, one: number, other: number) =>
    (ON_FIRST[kind] * (isRight - here)) / one - (ON_SECOND[kind] * (isRight - there)) / other;
  const z = normalQuantile((1 - level) / 2, "upper");
  const value = here - there;
  const reach =
    z * Math.sqrt(squares(holders, (kind, right) => influence(kind, right, first.total, second.total)));
  const notes: Note[] = [];
  const flat = reach === 0;
  if (flat) {
    const message = "the tests agree in everybody, or nothing varies: an interval would have no width";
    notes.push(...notesAt("no_width", [`${place}.difference.lower`, `${place}.difference.upper`], message));
  }
  const difference = {
    value,
    lower: flat ? null : Math.max(-1, value - reach),
    upper: flat ? null : Math.min(1, value + reach),
  };
  if (second.count === 0) {
    const [code, message] =
      first.count === 0
        ? ["not_estimable", "no result is right on either test: 0 divided by 0"]
        : ["unbounded", "no result of the second test is right: the ratio is infinite"];
    return { difference, ratio: NOT_ESTIMABLE, notes: [...notes, note(code, `${place}.ratio`, message)] };
  }
  if (first.count === 0 || flat) {
    const message = "the log interval of the ratio has no answer or no width here";
    notes.push(...notesAt("no_log_interval", [`${place}.ratio.lower`, `${place}.ratio.upper`], message));
    return { difference, ratio: { value: here / there, lower: null, upper: null }, notes };
  }
  const logReach =
    z * Math.sqrt(squares(holders, (kind, right) => influence(kind, right, first.count, second.count)));
  const ratio = here / there;
  const factor = Math.exp(logReach);
  return { difference, ratio: { value: ratio, lower: ratio / factor, upper: ratio * factor }, notes };
}

function tested(top: number, bottom: number): ScoreTest {
  // Bottom is 0 only where the tests agree in everybody; then top is 0 too, and nothing differs.
  const chiSquare = bottom === 0 ? 0 : top / bottom;
  return { chiSquare, pValue: chiSquareCdf(chiSquare, 1, "upper") };
}

/** Score test of estimating equations with independence as working correlation. Source: leisenring2000 */
function generalisedScore(holders: ResultHolders, first: Share, second: Share, share: number): ScoreTest {
  const results = first.total + second.total;
  const onSecond = second.total / results;
  const onFirst = first.total / results;
  const apart = first.count * onSecond - second.count * onFirst;
  const spread = squares(
    holders,
    (kind, right) => (right - share) * (ON_FIRST[kind] * onSecond - ON_SECOND[kind] * onFirst),
  );
  return tested(apart * apart, spread);
}

/**
 * The same with the variance of a difference of two independent shares less twice the covariance from
 * those who have the result on both tests; with none of them it is Pearson's chi-square. What is left of
 * p (1 - p) is written as the sum over those who have the result on one test only. Source: kosinski2013
 */
function weightedScore(
  { right, wrong }: ResultHolders,
  first: Share,
  second: Share,
  share: number,
): ScoreTest {
  const apart = first.count / first.total - second.count / second.total;
  const singlesRight = right.firstOnly + right.secondOnly;
  const singlesWrong = wrong.firstOnly + wrong.secondOnly;
  const spread =
    (singlesRight * Math.pow(1 - share, 2) + singlesWrong * (share * share)) / (first.total + second.total);
  return tested(apart * apart, spread * (1 / first.total + 1 / second.total));
}
