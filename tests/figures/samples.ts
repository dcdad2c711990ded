import type { Flow, Predictive, ReadingTime } from "../../src/evaluation/document.ts";
import type { MinuteAccuracyData } from "../../src/figures/minute-accuracy.ts";
import type { CassetteProps } from "../../src/report/figures/cassette.tsx";
import type { Algorithm } from "../../src/report/figures/tree-layout.ts";

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

const share = (count: number, total: number, lower: number, upper: number) => ({
  count,
  total,
  value: total === 0 ? null : count / total,
  lower: total === 0 ? null : lower,
  upper: total === 0 ? null : upper,
});

/** Both measures by minutes: one band without any reference-positive person. */
export const MINUTES: MinuteAccuracyData = {
  name: "minutes",
  analyte: "HBsAg",
  level: 0.95,
  window: { from: 15, to: 20 },
  agreement: false,
  bands: [
    {
      from: 5,
      to: 15,
      people: 118,
      sensitivity: share(8, 9, 0.52, 1),
      specificity: share(107, 107, 0.97, 1),
    },
    {
      from: 15,
      to: 20,
      people: 1442,
      sensitivity: share(94, 95, 0.94, 1),
      specificity: share(1316, 1322, 0.99, 0.998),
    },
    { from: 20, to: 45, people: 90, sensitivity: share(0, 0, 0, 0), specificity: share(88, 90, 0.92, 0.997) },
  ],
};

export const FLOW: Flow = {
  analyte: "hbsag",
  kit: "kit-q",
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
    { reason: "rapid_not_done", people: 63 },
    { reason: "invalid", people: 3 },
    { reason: "reference_indeterminate", people: 3 },
    { reason: "reference_not_done", people: 14 },
  ],
};

/** Long words, large numbers, an empty branch. Its splits add up. */
export const LONG_FLOW: Flow = {
  ...FLOW,
  enrolled: 1_204_511,
  before: [
    ...FLOW.before,
    {
      reason:
        "had already been tested in the same week at another site of the programme and said so only after the interview",
      people: 1_202_853,
    },
    { reason: "too_young", people: 1 },
  ],
  eligible: 1579,
  rapidNotDone: 0,
  tested: 1579,
  firstInvalid: 0,
  branches: [
    {
      rapid: "reactive",
      people: 1560,
      reference: { positive: 0, negative: 12, indeterminate: 1000, not_done: 548 },
    },
    {
      rapid: "nonreactive",
      people: 0,
      reference: { positive: 0, negative: 0, indeterminate: 0, not_done: 0 },
    },
    { rapid: "invalid", people: 19, reference: { positive: 9, negative: 10, indeterminate: 0, not_done: 0 } },
  ],
  outsideWindow: { people: 4, treatment: "set_aside" },
  analysed: 9,
  setAside: [
    { reason: "reference_not_done", people: 548 },
    { reason: "reference_indeterminate", people: 1000 },
    { reason: "outside_window", people: 4 },
    { reason: "invalid", people: 18 },
  ],
};

/** Nobody at all. */
export const EMPTY_FLOW: Flow = {
  ...FLOW,
  enrolled: 0,
  before: [],
  eligible: 0,
  rapidNotDone: 0,
  tested: 0,
  firstInvalid: 0,
  branches: [],
  outsideWindow: { people: 0, treatment: "keep" },
  analysed: 0,
  setAside: [],
};

export const ALGORITHM: Algorithm = [
  {
    assay: "eia_1",
    several: "last",
    leads_to: { reactive: "eia_1_duplicate", greyzone: "eia_1_duplicate", nonreactive: "negative" },
  },
  {
    assay: "eia_1_duplicate",
    several: "any_reactive",
    leads_to: { reactive: "neutralisation", nonreactive: "negative" },
  },
  {
    assay: "neutralisation",
    several: "last",
    leads_to: {
      reactive: "positive",
      nonreactive: "negative",
      failed: "indeterminate",
      indeterminate: "indeterminate",
    },
  },
];

/** Leads back to an assay already drawn, and to one that is not in the list. */
export const LOOPED: Algorithm = [
  {
    assay: "eia",
    several: "all_reactive",
    leads_to: {
      reactive: "confirmation_by_immunoblot_in_the_national_laboratory",
      greyzone: "second_eia",
      failed: "indeterminate",
      indeterminate: "elsewhere",
      nonreactive: "negative",
    },
  },
  {
    assay: "second_eia",
    several: "last",
    leads_to: { reactive: "confirmation_by_immunoblot_in_the_national_laboratory", nonreactive: "negative" },
  },
  {
    assay: "confirmation_by_immunoblot_in_the_national_laboratory",
    several: "last",
    leads_to: { reactive: "positive", indeterminate: "eia", nonreactive: "negative" },
  },
];

export const KIT: CassetteProps["kit"] = {
  title: "Kit Q",
  faint_line: "reactive",
  lines: [
    { id: "C", role: "control" },
    { id: "T1", role: "test", analyte: "hbsag" },
    { id: "T2", role: "test", analyte: "anti_hcv" },
  ],
};

export const CROSS_TABULATION = {
  reactive: { positive: 109, negative: 8, indeterminate: 3, not_done: 1 },
  nonreactive: { positive: 2, negative: 1440, indeterminate: 0, not_done: 13 },
  invalid: { positive: 1, negative: 2, indeterminate: 0, not_done: 0 },
  not_done: { positive: 3, negative: 60, indeterminate: 0, not_done: 0 },
};

export const NO_CROSS_TABULATION = {
  reactive: { positive: 0, negative: 0, indeterminate: 0, not_done: 0 },
  nonreactive: { positive: 0, negative: 0, indeterminate: 0, not_done: 0 },
  invalid: { positive: 0, negative: 0, indeterminate: 0, not_done: 0 },
  not_done: { positive: 0, negative: 0, indeterminate: 0, not_done: 0 },
};
