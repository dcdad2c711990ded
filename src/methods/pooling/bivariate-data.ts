import { logBeta } from "../../numeric/gamma-function.ts";
import { type Correction, corrected, type Study } from "./study-fields.ts";

/** One of the two proportions over all studies: right results of a total, and the level whose mean it has. */
export interface Side {
  readonly right: Float64Array;
  readonly total: Float64Array;
  readonly level: Uint16Array;
  /** How many levels; 1 where all studies share one mean. */
  readonly levels: number;
}

/** Counts of a bivariate model; "first" is sensitivity, "second" specificity, unless swapped. */
export interface PooledCounts {
  readonly size: number;
  readonly first: Side;
  readonly second: Side;
}

/** One of the two logits over all studies, with its variance; an infinite variance says that nothing was seen. */
export interface LogitSide {
  readonly logit: Float64Array;
  readonly variance: Float64Array;
  readonly level: Uint16Array;
  readonly levels: number;
}

export interface PooledLogits {
  readonly size: number;
  readonly first: LogitSide;
  readonly second: LogitSide;
}

/** Levels of studies as numbers, in the order in which they first appear. */
export interface Levels {
  readonly labels: readonly string[];
  readonly of: Uint16Array;
}

export const oneLevel = (size: number): Levels => ({ labels: [""], of: new Uint16Array(size) });

export function levelsOf(labels: readonly string[]): Levels {
  const known = [...new Set(labels)];
  return { labels: known, of: Uint16Array.from(labels, (label) => known.indexOf(label)) };
}

export function pooledCounts(studies: readonly Study[], first: Levels, second: Levels): PooledCounts {
  const side = (right: keyof Study, wrong: keyof Study, levels: Levels): Side => ({
    right: Float64Array.from(studies, (study) => study[right] as number),
    total: Float64Array.from(studies, (study) => (study[right] as number) + (study[wrong] as number)),
    level: levels.of,
    levels: levels.labels.length,
  });
  return {
    size: studies.length,
    first: side("truePositives", "falseNegatives", first),
    second: side("trueNegatives", "falsePositives", second),
  };
}

/** Logits with the variances of their counts, 1 / right + 1 / wrong; studies without people of a kind lack it. */
export function pooledLogits(
  studies: readonly Study[],
  how: Correction,
  first: Levels,
  second: Levels,
): PooledLogits {
  const counts = pooledCounts(
    studies.map((study) => corrected(study, how)),
    first,
    second,
  );
  const seen = pooledCounts(studies, first, second);
  const side = ({ right, total, level, levels }: Side, before: Side): LogitSide => {
    const empty = (place: number) => before.total[place] === 0;
    const wrong = total.map((all, place) => all - (right[place] as number));
    return {
      logit: right.map((some, place) => (empty(place) ? 0 : Math.log(some / (wrong[place] as number)))),
      variance: right.map((some, place) =>
        empty(place) ? Number.POSITIVE_INFINITY : 1 / some + 1 / (wrong[place] as number),
      ),
      level,
      levels,
    };
  };
  return {
    size: counts.size,
    first: side(counts.first, seen.first),
    second: side(counts.second, seen.second),
  };
}

/** The same data with the two proportions in the other order. */
export function swapped<Data extends PooledCounts | PooledLogits>(data: Data): Data {
  return { ...data, first: data.second, second: data.first };
}

/** Sum of the logarithms of the binomial coefficients. */
export function logCoefficients({ right, total }: Side): number {
  return right.reduce((sum, some, place) => {
    const all = total[place] as number;
    return sum - Math.log(all + 1) - logBeta(some + 1, all - some + 1);
  }, 0);
}
