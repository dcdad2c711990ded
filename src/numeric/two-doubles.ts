import { bivariateNormalCdf } from "./bivariate-normal.ts";
import { leastPivot } from "./correlation-matrix.ts";
import { ruleFor } from "./trivariate-normal.ts";

const TWO_PI = 2 * Math.PI;

/**
 * P(X1 <= x, X2 <= x, Y1 <= y, Y2 <= y) for four standard normal variables, two of a kind each: a special case
 * of the orthant in which the four ties across are alike, so that one of them stands for all.
 *
 * Both kinds are tied together along a straight path from independence; the slope along it is four times the
 * density of X1 and Y1 at their thresholds, times the probability that X2 and Y2 are below theirs, given those.
 * Absolute accuracy about 1e-13, less for correlations that are very nearly singular.
 *
 * @param x, y   finite thresholds
 * @param ofX    correlation of X1 and X2, strictly between -1 and 1, as the others; together positive definite
 * @param ofY    correlation of Y1 and Y2
 * @param across correlation of each X with each Y
 * Source: Plackett 1954, Biometrika 41, 351-360, recalled; held against the general routine.
 */
export function twoDoublesCdf(x: number, y: number, ofX: number, ofY: number, across: number): number {
  const free = bivariateNormalCdf(x, x, ofX) * bivariateNormalCdf(y, y, ofY);
  if (across === 0) return free;
  const strongest = Math.max(Math.abs(ofX), Math.abs(ofY), Math.abs(across));
  const left = leastPivot([
    [1, ofX, across, across],
    [ofX, 1, across, across],
    [across, across, 1, ofY],
    [across, across, ofY, 1],
  ]);
  const { places, weights } = ruleFor(strongest, left);
  let sum = 0;
  for (let at = 0; at < places.length; at += 1) {
    sum += (weights[at] as number) * slopeOf(x, y, ofX, ofY, across * (places[at] as number));
  }
  return Math.min(1, Math.max(0, free + (4 * across * sum) / TWO_PI));
}

/** 2 pi times the density of X1 and Y1 at their thresholds, times P(X2 and Y2 below theirs, given those). */
function slopeOf(x: number, y: number, ofX: number, ofY: number, tie: number): number {
  const rest = 1 - tie * tie;
  const density = Math.exp((x * y * tie - (x * x + y * y) / 2) / rest) / Math.sqrt(rest);
  if (density === 0) return 0;
  const meanX = ((ofX - tie * tie) * x + tie * (1 - ofX) * y) / rest;
  const meanY = ((ofY - tie * tie) * y + tie * (1 - ofY) * x) / rest;
  const spreadX = Math.sqrt(
    Math.max(1 - (ofX * ofX - 2 * ofX * tie * tie + tie * tie) / rest, Number.MIN_VALUE),
  );
  const spreadY = Math.sqrt(
    Math.max(1 - (ofY * ofY - 2 * ofY * tie * tie + tie * tie) / rest, Number.MIN_VALUE),
  );
  const covariance = tie - (tie * (ofX + ofY - ofX * ofY - tie * tie)) / rest;
  const correlation = Math.min(1, Math.max(-1, covariance / (spreadX * spreadY)));
  return density * bivariateNormalCdf((x - meanX) / spreadX, (y - meanY) / spreadY, correlation);
}
