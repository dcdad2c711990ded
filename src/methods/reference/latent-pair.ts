import { fromLogit } from "./latent-layout.ts";

/** P of the four results of two tests in one class (bit 0 the first, bit 1 the second), and their slopes. */
export interface PairCells {
  readonly cells: readonly [number, number, number, number];
  /** By the first logit, the second logit and the log odds ratio. */
  readonly slopes: readonly (readonly number[])[];
}

/**
 * The fourfold table with the margins and the odds ratio stated. Its derivatives come from differentiating
 * log(p11 p00 / (p10 p01)) = log odds ratio.
 *
 * Source: plackett1965
 */
export function pairCells(firstLogit: number, secondLogit: number, logOddsRatio: number): PairCells {
  const first = fromLogit(firstLogit);
  const second = fromLogit(secondLogit);
  const both = bothReactive(first, second, logOddsRatio);
  const cells = [1 - first - second + both, first - both, second - both, both].map((cell) =>
    Math.max(0, cell),
  );
  const [neither = 0, firstOnly = 0, secondOnly = 0, two = 0] = cells;
  const inner = Math.min(neither, firstOnly, secondOnly, two) > 0;
  const total = inner ? 1 / neither + 1 / firstOnly + 1 / secondOnly + 1 / two : 1;
  const [byFirst, bySecond] = inner
    ? [(1 / neither + 1 / firstOnly) / total, (1 / neither + 1 / secondOnly) / total]
    : slopesAtBorder(first, second, logOddsRatio);
  const slope = (ofBoth: number, ofFirst: number, ofSecond: number, scale: number) =>
    [ofBoth - ofFirst - ofSecond, ofFirst - ofBoth, ofSecond - ofBoth, ofBoth].map((part) => part * scale);
  return {
    cells: [neither, firstOnly, secondOnly, two],
    slopes: [
      slope(byFirst, 1, 0, first * (1 - first)),
      slope(bySecond, 0, 1, second * (1 - second)),
      slope(inner ? 1 / total : 0, 0, 0, 1),
    ],
  };
}

/** The slopes of P(both reactive) by the two margins where some result can't occur. */
function slopesAtBorder(first: number, second: number, logOddsRatio: number): [number, number] {
  if (logOddsRatio === Number.POSITIVE_INFINITY) return first < second ? [1, 0] : [0, 1];
  if (logOddsRatio === Number.NEGATIVE_INFINITY) return first + second > 1 ? [1, 1] : [0, 0];
  return [second, first];
}

/** P(both reactive) with the margins and the odds ratio stated. */
export function bothReactive(first: number, second: number, logOddsRatio: number): number {
  const least = Math.max(0, first + second - 1);
  const most = Math.min(first, second);
  if (logOddsRatio === Number.POSITIVE_INFINITY) return most;
  if (logOddsRatio === Number.NEGATIVE_INFINITY) return least;
  const excess = Math.expm1(logOddsRatio);
  if (excess === 0) return first * second;
  const sum = 1 + (first + second) * excess;
  const spread = Math.sqrt(Math.max(0, sum * sum - 4 * (1 + excess) * excess * first * second));
  const both = (2 * (1 + excess) * first * second) / (sum + spread);
  return Math.min(most, Math.max(least, both));
}
