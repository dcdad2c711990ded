import type { Predictive } from "../evaluation/document.ts";

/** The ratio scale of prevalence that the predictive curves are drawn on. */
export interface Domain {
  readonly from: number;
  readonly to: number;
}

export const CURVE_WIDTH = 600;
export const CURVE_HEIGHT = 270;
const TICKS = [0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1];

/** 0.1 to 50 %, wider where a programme lies outside. */
export function prevalenceDomain(programmes: readonly { readonly prevalence: number }[]): Domain {
  const marked = programmes.map((programme) => programme.prevalence);
  return { from: Math.min(0.001, ...marked), to: Math.max(0.5, ...marked) };
}

/** Pixel of a prevalence, as Vega's own log scale has it. */
export function pixel(prevalence: number, domain: Domain): number {
  return (CURVE_WIDTH * Math.log(prevalence / domain.from)) / Math.log(domain.to / domain.from);
}

/** The labelled prevalences inside the domain: 1, 2 and 5 of each power of ten. */
export function prevalenceTicks(domain: Domain): number[] {
  return TICKS.filter((tick) => tick >= domain.from * 0.999 && tick <= domain.to * 1.001);
}

/** Curve points inside the domain. */
export function within(curve: Predictive["curve"], domain: Domain): Predictive["curve"] {
  return curve.filter((point) => point.prevalence >= domain.from && point.prevalence <= domain.to);
}

export const MEASURES = ["ppv", "npv"] as const;

/** Shares from 0 to 100 % upwards. */
export function yChannel(field: string) {
  return {
    field,
    type: "quantitative" as const,
    scale: { domain: [0, 1], nice: false, zero: true },
    axis: { values: [0, 0.2, 0.4, 0.6, 0.8, 1], labelExpr: "format(datum.value * 100, 'd')", title: null },
  };
}
