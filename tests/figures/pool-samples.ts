import type { SmallStudyFunnelData } from "../../src/figures/small-study-funnel.ts";
import type { SummaryPlotData } from "../../src/figures/summary-plot.ts";
import type { PairedForestProps } from "../../src/report/figures/paired-forest.tsx";

/** Made-up figures for the drawings of pooled studies: they show layout, not truth. */
const place = (sensitivity: number, specificity: number) => ({ sensitivity, specificity });
const ring = (radius: number) =>
  Array.from({ length: 12 }, (_, step) => {
    const turn = (step * Math.PI) / 6;
    return place(0.85 + radius * Math.cos(turn), 0.9 + 0.6 * radius * Math.sin(turn));
  });

export const PLOT: SummaryPlotData = {
  name: "plot",
  level: 0.95,
  studies: [
    { label: "A", people: 300, kind: "venous", ...place(0.95, 0.97) },
    { label: "B", people: 80, kind: "venous", ...place(0.88, 0.92) },
    { label: "C", people: 40, kind: "fingerstick", ...place(0.72, 0.85) },
    { label: "D", people: 150, kind: null, ...place(0.8, 1) },
  ],
  kinds: [
    { kind: "venous", summary: place(0.92, 0.95) },
    { kind: "fingerstick", summary: null },
  ],
  summary: place(0.85, 0.9),
  confidence: ring(0.05),
  prediction: ring(0.12),
  curve: [0.05, 0.1, 0.2].map((rate) => place(0.7 + rate, 1 - rate)),
};

export const FUNNEL: SmallStudyFunnelData = {
  name: "funnel",
  kinds: ["venous", "fingerstick"],
  studies: [
    { label: "A", logOddsRatio: 4.2, effectivePeople: 310, kind: "venous" },
    { label: "B", logOddsRatio: 4.9, effectivePeople: 60, kind: "fingerstick" },
    { label: "C", logOddsRatio: 5.6, effectivePeople: 18, kind: "fingerstick" },
  ],
  line: [0.057, 0.15, 0.236].map((inverseRootSize, at) => ({
    inverseRootSize,
    value: 4.2 + 0.7 * at,
    lower: 3.6 + 0.5 * at,
    upper: 4.8 + 0.9 * at,
  })),
  slopeP: "= 0.042",
};

const counted = (count: number, total: number, lower: number, upper: number) => ({
  count,
  total,
  value: total === 0 ? null : count / total,
  lower: total === 0 ? null : lower,
  upper: total === 0 ? null : upper,
});
const summary = (label: string) => ({
  label,
  sensitivity: {
    summary: { value: 0.85, lower: 0.8, upper: 0.89 },
    prediction: { value: 0.85, lower: 0.68, upper: 0.94 },
  },
  specificity: {
    summary: { value: 0.96, lower: 0.94, upper: 0.97 },
    prediction: { value: 0.96, lower: 0.83, upper: 0.99 },
  },
});

export const PAIRED: PairedForestProps = {
  caption: "Sensitivity and specificity of every study",
  study: "Study",
  titles: { sensitivity: "Sensitivity, %", specificity: "Specificity, %" },
  groups: [
    {
      title: "venous",
      rows: [
        { label: "A", sensitivity: counted(45, 50, 0.78, 0.97), specificity: counted(94, 100, 0.87, 0.98) },
        { label: "B", sensitivity: counted(0, 0, 0, 0), specificity: counted(137, 140, 0.94, 1) },
      ],
      summary: summary("Summary, venous"),
    },
    {
      title: "kind not said",
      rows: [{ label: "C", sensitivity: counted(20, 20, 0.83, 1), specificity: counted(0, 0, 0, 0) }],
      summary: null,
    },
  ],
  summary: summary("All studies"),
  criterion: { sensitivity: 0.9 },
  inWords: ({ value }) => `middle ${value}`,
  howToRead: "Dotted rule: the summary.",
};
