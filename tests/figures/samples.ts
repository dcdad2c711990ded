import type { Flow, Predictive, ReadingTime } from "../../src/evaluation/document.ts";

/** Invented numbers for drawing: layouts are tested with them, never statistics. */

/** Predictive values by Bayes' rule; bands from the limits of both measures, for looks only. */
export function sampleCurve(
  sensitivity: readonly [number, number, number],
  specificity: readonly [number, number, number],
  prevalences: readonly number[],
): Predictive["curve"] {
  const ppv = (p: number, se: number, sp: number) => (p * se) / (p * se + (1 - p) * (1 - sp));
  const npv = (p: number, se: number, sp: number) => ((1 - p) * sp) / ((1 - p) * sp + p * (1 - se));
  const [seLow, se, seHigh] = sensitivity;
  const [spLow, sp, spHigh] = specificity;
  return prevalences.map((p) => ({
    prevalence: p,
    ppv: { value: ppv(p, se, sp), lower: ppv(p, seLow, spLow), upper: ppv(p, seHigh, spHigh) },
    npv: { value: npv(p, se, sp), lower: npv(p, seLow, spLow), upper: npv(p, seHigh, spHigh) },
  }));
}

/** Prevalences from 0.1 to 50 %, evenly spaced by ratio. */
export const GRID = Array.from({ length: 61 }, (_, step) => 0.001 * 500 ** (step / 60));

export function sampleProgrammes(
  sensitivity: readonly [number, number, number],
  specificity: readonly [number, number, number],
  named: readonly (readonly [string, number])[],
) {
  return named.map(([title, prevalence]) => {
    const [point] = sampleCurve(sensitivity, specificity, [prevalence]);
    if (point === undefined) throw new Error("no point");
    return { title, prevalence, ppv: point.ppv, npv: point.npv };
  });
}

export const SE = [0.938, 0.982, 0.998] as const;
export const SP = [0.99, 0.995, 0.998] as const;

/** Minutes 15 to 20 are the window; a few read early, late and very late. */
export const READING: Pick<ReadingTime, "window" | "people" | "histogram"> = {
  window: { from: 15, to: 20 },
  people: { early: 118, in: 1447, late: 100, unknown: 17 },
  histogram: [
    [6, 10],
    [7, 12],
    [8, 13],
    [9, 14],
    [10, 12],
    [11, 15],
    [12, 13],
    [13, 14],
    [14, 15],
    [15, 286],
    [16, 347],
    [17, 379],
    [18, 247],
    [19, 101],
    [20, 92],
    [21, 6],
    [22, 6],
    [23, 5],
    [24, 7],
    [25, 5],
    [26, 6],
    [27, 5],
    [28, 6],
    [29, 5],
    [30, 9],
    [31, 4],
    [32, 5],
    [33, 4],
    [34, 6],
    [36, 2],
    [38, 2],
    [41, 1],
    [44, 2],
    [45, 3],
    [48, 1],
    [52, 2],
    [57, 1],
    [58, 1],
    [59, 1],
  ].map(([from = 0, people = 0]) => ({ from, to: from + 1, people })),
};

export const FLOW: Flow = {
  analyte: "hbsag",
  specimen: "venous_whole_blood",
  reader: "r1",
  enrolled: 1720,
  before: [
    { reason: "not_eligible", people: 21 },
    { reason: "second_enrolment", people: 52 },
    { reason: "consent_withdrawn", people: 5 },
  ],
  eligible: 1642,
  rapidNotDone: 63,
  tested: 1579,
  firstInvalid: 15,
  branches: [
    {
      rapid: "reactive",
      people: 121,
      reference: { positive: 109, negative: 8, indeterminate: 3, not_done: 1 },
    },
    {
      rapid: "nonreactive",
      people: 1455,
      reference: { positive: 2, negative: 1440, indeterminate: 0, not_done: 13 },
    },
    { rapid: "invalid", people: 3, reference: { positive: 1, negative: 2, indeterminate: 0, not_done: 0 } },
  ],
  outsideWindow: { people: 214, treatment: "keep" },
  analysed: 1559,
  setAside: [
    { reason: "invalid", people: 3 },
    { reason: "reference_indeterminate", people: 3 },
    { reason: "reference_not_done", people: 14 },
  ],
};
