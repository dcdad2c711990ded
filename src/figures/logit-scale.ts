/** A scale of shares that is stretched towards 0 and 100 %: 99, 99.9 and 99.99 % stay apart. */
const TICKS = [0.0001, 0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999, 0.9999, 0.99999, 0.999999];
const LEAST = 0.0001;
const MOST = 0.999999;

export function logit(share: number): number {
  return Math.log(share / (1 - share));
}

/** The ends of the scale: round values around the shares, between 0.01 and 99.9999 %. */
export function logitDomain(shares: readonly number[]): readonly [number, number] {
  const inside = shares.filter((share) => share > 0 && share < 1);
  const least = Math.max(LEAST, Math.min(0.5, ...inside));
  const most = Math.min(MOST, Math.max(0.9, ...inside));
  return [TICKS.findLast((tick) => tick <= least) ?? LEAST, TICKS.find((tick) => tick >= most) ?? MOST];
}

/** The y channel of a field that holds logits. */
export function logitChannel(field: string, domain: readonly [number, number]) {
  const ticks = TICKS.filter((tick) => tick >= domain[0] && tick <= domain[1]);
  return {
    field,
    type: "quantitative" as const,
    scale: { domain: [logit(domain[0]), logit(domain[1])], nice: false, zero: false },
    axis: {
      values: ticks.map(logit),
      labelExpr: "format(100 / (1 + exp(-datum.value)), '.6~r')",
      title: null,
    },
  };
}

/** Pixels from the top of a plot of this height. */
export function logitPixel(share: number, domain: readonly [number, number], height: number): number {
  const [low, high] = domain.map(logit) as [number, number];
  const bounded = Math.min(Math.max(logit(Math.min(Math.max(share, 1e-12), 1 - 1e-12)), low), high);
  return height * (1 - (bounded - low) / (high - low));
}
