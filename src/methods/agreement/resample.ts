import { randomStream } from "../../core/random.ts";
import { type AlphaData, krippendorffAlpha } from "./alpha.ts";
import { type ChanceRule, chanceAgreement, type MeasuredPattern } from "./chance-agreement.ts";
import { drawAgain } from "./multinomial.ts";
import type { GroupedPatterns } from "./patterns.ts";
import type { Matrix } from "./weights.ts";

/** Ratings measured once, for as many evaluations as are wanted. */
export interface ReadingData {
  readonly grouped: GroupedPatterns;
  readonly plain: readonly MeasuredPattern[];
  readonly plainWeights: Matrix;
  readonly weighted: readonly MeasuredPattern[];
  readonly weights: Matrix;
  readonly alpha: AlphaData;
}

/** The three coefficients of one set of items; `null` where that set can't give one. */
export interface Coefficients {
  readonly fleissKappa: number | null;
  readonly gwetAgreement: number | null;
  readonly krippendorffAlpha: number | null;
}

/** @param items how many of each pattern */
export function coefficientsOf(data: ReadingData, items: ArrayLike<number>): Coefficients {
  const chance = (patterns: readonly MeasuredPattern[], rule: ChanceRule, weights: Matrix) =>
    chanceAgreement(patterns, rule, weights, items)?.value ?? null;
  return {
    fleissKappa: chance(data.plain, "shares", data.plainWeights),
    gwetAgreement: chance(data.weighted, "spread", data.weights),
    krippendorffAlpha: krippendorffAlpha(data.alpha, items),
  };
}

/**
 * Coefficients of items drawn again with replacement, as many as there are; readers stay as they are.
 *
 * Each replicate has a random stream of its own, numbered by the replicate: asked for in parts, on any
 * number of threads, the replicates are the same.
 *
 * @param first number of the first replicate wanted
 * @param count how many from there
 */
export function resampled(data: ReadingData, seed: number, first: number, count: number): Coefficients[] {
  const sizes = data.grouped.patterns.map((pattern) => pattern.items);
  const order = sizes.map((_, kind) => kind).sort((one, other) => (sizes[other] ?? 0) - (sizes[one] ?? 0));
  const items = new Uint32Array(sizes.length);
  return Array.from({ length: count }, (_, index) => {
    drawAgain(sizes, order, randomStream(seed, first + index), items);
    return coefficientsOf(data, items);
  });
}
