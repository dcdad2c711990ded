import type { WorkedExample } from "../../core/method.ts";

const labels = ["definitely not", "probably not", "questionable", "probably", "definitely"];
const [negatives, positives] = [
  [33, 6, 6, 11, 2],
  [3, 2, 2, 11, 33],
];

export const ordinalExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "109 images rated in five categories",
    input: {
      categories: labels.map((label, place) => ({
        label,
        positives: positives?.[place] ?? 0,
        negatives: negatives?.[place] ?? 0,
      })),
    },
    expect: {
      "area.value": 0.893171061528059,
      "area.standardError": 0.0307244083793811,
      "exponential.bothPositives": 0.818204315758307,
      "exponential.bothNegatives": 0.831250534300125,
      "exponential.standardErrorExact": 0.0319904081943094,
      "exponential.standardErrorExponential": 0.0324865796073421,
    },
    tolerance: { relative: 1e-8 },
    source: "hanley1982",
    recomputedBy: "R 4.2.2 base",
    memory: true,
  },
  {
    name: "absent and present alone: no smooth curve",
    input: {
      categories: [
        { label: "absent", positives: 5, negatives: 90 },
        { label: "present", positives: 45, negatives: 10 },
      ],
    },
    expect: { "area.value": 0.9, binormal: null },
    tolerance: { relative: 1e-12 },
    source: "no publication: (0.9 + 0.9) / 2",
  },
];
