/** A straight line through points by weighted least squares, the errors' scale taken from the points themselves. */
export interface WeightedLine {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptError: number;
  readonly slopeError: number;
  readonly covariance: number;
  /** Weighted sum of squares around the line, over its degrees of freedom. */
  readonly residualVariance: number;
  readonly degreesOfFreedom: number;
  /** Share of the weighted sum of squares that the line accounts for; 1 where nothing varies. */
  readonly explained: number;
}

export interface WeightedPoint {
  readonly x: number;
  readonly y: number;
  readonly weight: number;
}

/** @returns `null` for fewer than three points, or where x does not vary */
export function weightedLine(points: readonly WeightedPoint[]): WeightedLine | null {
  const degreesOfFreedom = points.length - 2;
  if (degreesOfFreedom < 1) return null;
  const sum = (of: (point: WeightedPoint) => number) =>
    points.reduce((total, point) => total + point.weight * of(point), 0);
  const all = sum(() => 1);
  const meanX = sum(({ x }) => x) / all;
  const meanY = sum(({ y }) => y) / all;
  const spread = sum(({ x }) => Math.pow(x - meanX, 2));
  if (!(spread > 1e-20 * all * (1 + Math.pow(meanX, 2)))) return null;
  const slope = sum(({ x, y }) => (x - meanX) * (y - meanY)) / spread;
  const intercept = meanY - slope * meanX;
  const left = sum(({ x, y }) => Math.pow(y - meanY - slope * (x - meanX), 2));
  const whole = sum(({ y }) => Math.pow(y - meanY, 2));
  const residualVariance = left / degreesOfFreedom;
  return {
    intercept,
    slope,
    interceptError: Math.sqrt(residualVariance * (1 / all + Math.pow(meanX, 2) / spread)),
    slopeError: Math.sqrt(residualVariance / spread),
    covariance: (-residualVariance * meanX) / spread,
    residualVariance,
    degreesOfFreedom,
    explained: whole > 0 ? 1 - left / whole : 1,
  };
}
