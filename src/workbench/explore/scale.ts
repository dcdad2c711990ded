/** How a slider's positions stand for shares. */
export interface DialScale {
  readonly positions: number;
  /** Position of a share, 0 to `positions`. */
  toPosition(share: number): number;
  toShare(position: number): number;
}

/** Equal steps of a share between two ends. */
export function evenScale(from: number, to: number, step = 0.001): DialScale {
  const positions = Math.round((to - from) / step);
  return {
    positions,
    toPosition: (share) => held(Math.round((share - from) / step), positions),
    toShare: (position) => tidy(from + position * step),
  };
}

/** Equal ratios between two ends, the shares to two digits: for prevalences, most of which are small. */
export function ratioScale(from: number, to: number, positions = 240): DialScale {
  const span = Math.log(to / from);
  return {
    positions,
    toPosition: (share) =>
      held(Math.round((positions * Math.log(Math.max(share, from) / from)) / span), positions),
    toShare: (position) => Number((from * Math.exp((span * position) / positions)).toPrecision(2)),
  };
}

/** The scale on which a threshold is moved: near the end of the line at which it stands. */
export function thresholdScale(threshold: number): DialScale {
  if (threshold >= 0.5) return evenScale(0.5, 1);
  return threshold <= 0.25 ? evenScale(0, 0.25) : evenScale(0, 1);
}

const held = (position: number, positions: number) => Math.min(positions, Math.max(0, position));
const tidy = (share: number) => Number(share.toFixed(6));
