import type { Predictive, ReadingTime, Subgroup } from "../../../src/evaluation/document.ts";
import { accuracyOf, treated } from "./analysis.ts";
import type { CellCounts } from "./cells.ts";
import { exact, predictive } from "./intervals.ts";
import { sampleStudy } from "./study.ts";

type Counts = readonly [group: string, right: number, positives: number, wrong: number, negatives: number];

const SITES: Readonly<Record<string, readonly Counts[]>> = {
  hbsag: [
    ["B", 34, 34, 3, 508],
    ["O", 25, 26, 2, 392],
    ["T", 23, 24, 2, 370],
    ["K", 17, 17, 1, 167],
    ["L", 12, 12, 0, 112],
  ],
  hcv: [
    ["B", 11, 11, 4, 524],
    ["O", 8, 8, 3, 406],
    ["T", 7, 8, 2, 384],
    ["K", 70, 70, 2, 114],
    ["L", 43, 43, 0, 86],
  ],
};
const LOTS: Readonly<Record<string, readonly Counts[]>> = {
  hbsag: [
    ["Q-101", 51, 52, 3, 620],
    ["Q-102", 37, 37, 3, 559],
    ["Q-103", 23, 24, 2, 370],
  ],
  hcv: [
    ["Q-101", 77, 77, 5, 590],
    ["Q-102", 55, 55, 4, 540],
    ["Q-103", 7, 8, 2, 384],
  ],
};
const AGES: Readonly<Record<string, readonly Counts[]>> = {
  hbsag: [
    ["15-29", 38, 38, 2, 640],
    ["30-49", 49, 50, 4, 610],
    ["50+", 24, 25, 2, 299],
  ],
  hcv: [
    ["15-29", 31, 31, 3, 601],
    ["30-49", 71, 72, 5, 600],
    ["50+", 37, 37, 3, 313],
  ],
};

/** Groups of one cell; `planned` as in the study file. The homogeneity figures are invented. */
export function subgroupsOf(cell: CellCounts): Subgroup[] {
  const groups = { site: SITES, lot: LOTS, age: AGES } as const;
  return sampleStudy.strata.map((stratum) => ({
    analyte: cell.analyte,
    kit: cell.kit,
    specimen: cell.specimen,
    reader: cell.reader,
    stratum: stratum.id,
    title: stratum.title,
    planned: stratum.planned,
    groups: (groups[stratum.id as keyof typeof groups][cell.analyte] ?? []).map(
      ([group, right, positives, wrong, negatives]) => ({
        group,
        sensitivity: exact(right, positives),
        specificity: exact(negatives - wrong, negatives),
        invalid: exact(group === "K" ? 4 : 2, positives + negatives + 3),
      }),
    ),
    homogeneity: {
      sensitivity: {
        chiSquare: 2.31,
        degreesOfFreedom: 4,
        pValue: 0.68,
        exactPValue: 0.71,
        trendPValue: stratum.ordered === undefined ? null : 0.33,
        notes: [],
      },
      specificity: {
        chiSquare: 1.02,
        degreesOfFreedom: 4,
        pValue: 0.91,
        exactPValue: 0.93,
        trendPValue: stratum.ordered === undefined ? null : 0.64,
        notes: [],
      },
    },
  }));
}

const GRID = Array.from({ length: 61 }, (_, step) => 10 ** (-3 + (step / 60) * Math.log10(500)));
const scaled = (estimate: Predictive["curve"][number]["ppv"], people: number) => ({
  value: (estimate.value ?? 0) * people,
  lower: (estimate.lower ?? 0) * people,
  upper: (estimate.upper ?? 0) * people,
});

export function predictiveOf(cell: CellCounts): Predictive {
  const { sensitivity, specificity } = accuracyOf(cell);
  const missed = flipped(sensitivity);
  const falsely = flipped(specificity);
  return {
    analyte: cell.analyte,
    kit: cell.kit,
    specimen: cell.specimen,
    reader: cell.reader,
    programmes: sampleStudy.prevalences.map((programme) => {
      const prevalence = programme.values[cell.analyte] ?? 0;
      const [ill, well] = [10_000 * prevalence, 10_000 * (1 - prevalence)];
      const truePositives = scaled(sensitivity, ill);
      const falsePositives = scaled(falsely, well);
      return {
        id: programme.id,
        title: programme.title,
        source: programme.source ?? null,
        prevalence,
        ...predictive(sensitivity, specificity, prevalence),
        per10000: {
          reactive: {
            value: truePositives.value + falsePositives.value,
            lower: truePositives.lower + falsePositives.lower,
            upper: truePositives.upper + falsePositives.upper,
          },
          truePositives,
          falsePositives,
          falseNegatives: scaled(missed, ill),
          trueNegatives: scaled(specificity, well),
        },
      };
    }),
    curve: GRID.map((prevalence) => ({ prevalence, ...predictive(sensitivity, specificity, prevalence) })),
    lowestPrevalence: [0.5, 0.8, 0.9, 0.95, 0.99].map((target) => ({
      target,
      prevalence: lowest(target, sensitivity.value ?? 0, specificity.value ?? 0),
      byLowerLimit: target === 0.99 ? null : lowest(target, sensitivity.lower ?? 0, specificity.lower ?? 0),
    })),
    notes: [],
  };
}

const flipped = (share: { value: number | null; lower: number | null; upper: number | null }) => ({
  value: 1 - (share.value ?? 0),
  lower: 1 - (share.upper ?? 0),
  upper: 1 - (share.lower ?? 0),
});

/** Prevalence at which the positive predictive value equals the target (Bayes' rule solved for it). */
function lowest(target: number, sensitivity: number, specificity: number): number {
  const odds = (target / (1 - target)) * ((1 - specificity) / sensitivity);
  return odds / (1 + odds);
}

type Difference = ReadingTime["differences"][number];

/** Limits invented: as far below as above. */
function difference(
  outside: Difference["outside"],
  measure: Difference["measure"],
  value: number,
  half: number,
  pValue: number,
): Difference {
  return { outside, measure, difference: { value, lower: value - half, upper: value + half }, pValue };
}

type Share = readonly [count: number, total: number];

function band(
  from: number,
  to: number,
  people: number,
  sensitivity: Share,
  specificity: Share,
): ReadingTime["byMinutes"][number] {
  return { from, to, people, sensitivity: exact(...sensitivity), specificity: exact(...specificity) };
}

export function readingTimeOf(cell: CellCounts): ReadingTime {
  const { sensitivity, specificity } = accuracyOf(cell);
  const share = (measure: { count: number; total: number }, wrong: number, total: number) =>
    exact(total - Math.min(wrong, measure.total - measure.count), total);
  const histogram = Array.from({ length: 40 }, (_, minute) => {
    const middle = minute + 5.5;
    const main = middle > 15 && middle < 20 ? Math.round(330 * Math.exp(-((middle - 17) ** 2) / 5)) : 0;
    const late = middle > 20 ? Math.round(9 * Math.exp(-(middle - 20) / 9)) : 0;
    return { from: minute + 5, to: minute + 6, people: main + late + (middle < 15 ? 12 : 0) };
  });
  return {
    analyte: cell.analyte,
    kit: cell.kit,
    specimen: cell.specimen,
    reader: cell.reader,
    window: { from: 15, to: 20 },
    people: { early: 118, in: 1442, late: 115, unknown: 17 },
    histogram,
    byWindow: [
      {
        window: "early",
        people: 118,
        sensitivity: share(sensitivity, 1, 9),
        specificity: share(specificity, 0, 107),
      },
      {
        window: "in",
        people: 1442,
        sensitivity: share(sensitivity, 1, 95),
        specificity: share(specificity, 6, 1322),
      },
      {
        window: "late",
        people: 115,
        sensitivity: share(sensitivity, 0, 8),
        specificity: share(specificity, 2, 104),
      },
      { window: "unknown", people: 17, sensitivity: exact(1, 1), specificity: exact(16, 16) },
    ],
    treatments: [
      { treatment: "keep", sensitivity, specificity },
      { treatment: "set_aside", sensitivity: exact(94, 95), specificity: exact(1316, 1322) },
      { treatment: "invalid", ...treated(cell, "set_aside") },
    ],
    differences: [
      difference("early", "sensitivity", -0.101, 0.22, 0.07),
      difference("early", "specificity", 0.0045, 0.031, 0.98),
      difference("late", "sensitivity", 0.0105, 0.31, 0.97),
      difference("late", "specificity", -0.0147, 0.043, 0.21),
      difference("outside", "sensitivity", -0.048, 0.14, 0.31),
      difference("outside", "specificity", -0.005, 0.019, 0.47),
    ],
    byMinutes: [
      band(5, 10, 61, [5, 5], [56, 56]),
      band(10, 15, 57, [3, 4], [51, 51]),
      band(15, 17, 702, [46, 47], [646, 649]),
      band(17, 20, 740, [48, 48], [670, 673]),
      band(20, 30, 76, [6, 6], [68, 69]),
      band(30, 45, 39, [0, 0], [34, 35]),
    ],
    roundedMinutes: exact(421, 1675),
    notes: [],
  };
}
