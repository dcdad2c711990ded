/** Both limits of an interval of a proportion. */
export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/**
 * How one interval finds its limits. `outside` is the probability left outside on that side:
 * (1 - level) / 2 for a two-sided interval, 1 - level for a one-sided limit.
 * `count` lies in 0..`total`, `total` is 1 or more.
 */
export interface IntervalRule {
  lower(count: number, total: number, outside: number): number;
  upper(count: number, total: number, outside: number): number;
}
