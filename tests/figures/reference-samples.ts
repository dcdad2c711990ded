import type { ChainPanelsData } from "../../src/figures/chain-panels.ts";
import type { PriorPosteriorData } from "../../src/figures/prior-posterior.ts";
import type { TippingMapData } from "../../src/figures/tipping-map.ts";
import type { VerificationCurveData } from "../../src/figures/verification-curve.ts";

/** Invented data for the figures about the reference. */
const evenly = (from: number, to: number, number: number) =>
  Array.from({ length: number }, (_, place) => from + ((to - from) * place) / (number - 1));

const SENSITIVITIES = evenly(0.9, 1, 11);
const SPECIFICITIES = evenly(0.98, 1, 21);

export const TIPPING: TippingMapData = {
  name: "tipping",
  criterion: "HBsAg sensitivity at least 95 %",
  sensitivities: SENSITIVITIES,
  specificities: SPECIFICITIES,
  verdicts: SENSITIVITIES.flatMap((sensitivity) =>
    SPECIFICITIES.map((specificity) => {
      if (specificity < 0.984) return "not_met";
      return specificity + (sensitivity - 0.9) * 0.02 < 0.993 ? "undecided" : "met";
    }),
  ),
  believed: { sensitivity: 0.98, specificity: 0.998 },
  ranges: { sensitivity: { from: 0.95, to: 0.995 }, specificity: { from: 0.994, to: 1 } },
};

export const VERIFICATION: VerificationCurveData = {
  name: "verified",
  criterion: "HBsAg sensitivity at least 95 %",
  measure: "Sensitivity",
  points: [0.25, 0.5, 1, 2, 4].map((oddsRatio) => {
    const value = oddsRatio / (oddsRatio + 0.03);
    return { oddsRatio, value, lower: value - 0.03, upper: (1 + value) / 2, verdict: "undecided" };
  }),
  borders: [
    { oddsRatio: 0.3, below: "not_met", above: "undecided" },
    { oddsRatio: 1.6, below: "undecided", above: "met" },
  ],
  threshold: 0.95,
  naive: 0.985,
};

/** A triangle over its limits, and a flat belief. */
const panel = (title: string, lower: number, upper: number): PriorPosteriorData["panels"][number] => {
  const middle = (lower + upper) / 2;
  const half = (upper - lower) / 2;
  return {
    title,
    kind: "share",
    density: evenly(Math.max(0, lower - half), Math.min(1, upper + half), 13).map((at) => ({
      at,
      posterior: Math.max(0, 1 - Math.abs(at - middle) / half) / half,
      prior: 1,
    })),
    before: { median: 0.5, lower: 0.025, upper: 0.975 },
    after: { median: middle, lower, upper },
  };
};

export const BELIEFS: PriorPosteriorData = {
  name: "beliefs",
  model: "kit and laboratory",
  panels: [
    panel("Kit Q, read by eye on venous blood: sensitivity", 0.91, 0.99),
    panel("Kit Q, read by eye on venous blood: specificity", 0.985, 0.998),
    panel("Share with the condition, everybody", 0.02, 0.06),
    { ...panel("Shared errors, with the condition", 0.001, 0.03), kind: "number" },
  ],
};

/** Draws without chance: a chain runs up and down in its own rhythm. */
const draws = (middle: number, chain: number) =>
  Array.from({ length: 24 }, (_, draw) => middle + 0.01 * Math.sin((draw + 1) * (chain + 1.3)));

export const TRACES: ChainPanelsData = {
  name: "traces",
  model: "kit and laboratory",
  rows: [0.96, 0.99].map((middle) => ({
    title: `Kit Q, read by eye on venous blood: ${middle}`,
    kind: "share",
    chains: [0, 1, 2, 3].map((chain) => draws(middle, chain)),
  })),
};

export const RANKS: ChainPanelsData = {
  name: "ranks",
  model: "kit and laboratory",
  rows: ["Kit Q: sensitivity", "Kit Q: specificity"].map((title, row) => ({
    title,
    kind: "share",
    chains: [0, 1].map((chain) =>
      Array.from({ length: 20 }, (_, bin) => 250 + (chain === 0 ? 1 : -1) * (bin - 9.5) * (row + 1)),
    ),
  })),
};
