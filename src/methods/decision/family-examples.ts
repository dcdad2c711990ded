import type { WorkedExample } from "../../core/method.ts";

const FIFTEEN = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
  0.759, 1,
];

export const familyExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "fifteen p-values: three shown with Bonferroni, four with Benjamini and Hochberg",
    input: { criteria: FIFTEEN.map((pValue, at) => ({ label: `${at + 1}`, pValue })) },
    expect: {
      "shown.bonferroni": 3,
      "shown.holm": 3,
      "shown.benjaminiHochberg": 4,
      "criteria.3.bonferroni": 0.1425,
      "criteria.3.holm": 0.114,
      "criteria.3.benjaminiHochberg": 0.035625,
    },
    tolerance: { relative: 1e-8 },
    source: "benjamini1995",
    recomputedBy: "R 4.2.2 p.adjust",
    memory: true,
  },
  {
    name: "three criteria by their counts, one-sided 0.025: not all are shown, one is",
    input: {
      criteria: [
        { label: "sensitivity", count: 118, total: 120, threshold: 0.95, direction: "at_least" },
        { label: "specificity", count: 596, total: 600, threshold: 0.98, direction: "at_least" },
        { label: "invalid", count: 12, total: 720, threshold: 0.05, direction: "at_most" },
      ],
    },
    options: { alpha: 0.025 },
    expect: {
      "criteria.0.pValue": 0.0575054083380795,
      "criteria.1.pValue": 0.00718122112309967,
      "criteria.2.pValue": 2.21160851389728e-6,
      "criteria.1.holm": 0.0143624422461993,
      "criteria.0.fixedSequence": 0.0575054083380795,
      "criteria.2.verdicts.fixedSequence": "not_shown",
      "allMustPass.verdict": "not_shown",
      "anyPasses.verdict": "shown",
    },
    tolerance: { relative: 1e-9 },
    source: "berger1982",
    recomputedBy: "R 4.2.2 pbinom, p.adjust",
    memory: true,
  },
];
