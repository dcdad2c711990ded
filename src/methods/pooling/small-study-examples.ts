import type { WorkedExample } from "../../core/method.ts";

const TEN = [
  [25, 8, 1, 25],
  [17, 4, 3, 11],
  [88, 16, 16, 31],
  [16, 10, 3, 80],
  [40, 17, 1, 137],
  [38, 9, 6, 24],
  [23, 19, 0, 12],
  [27, 6, 2, 18],
  [14, 7, 3, 29],
  [37, 7, 22, 7],
].map(([truePositives, falseNegatives, falsePositives, trueNegatives], place) => ({
  label: `study ${place + 1}`,
  truePositives,
  falsePositives,
  falseNegatives,
  trueNegatives,
}));

export const smallStudyExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "ten studies: nothing seen, which says little",
    input: { studies: TEN, correction: "all" },
    expect: {
      "line.intercept.value": 5.35420168174801,
      "line.slope.value": -18.3889264809686,
      "line.slopeError": 16.218012607013,
      "line.slopeP": 0.28968614535633,
    },
    tolerance: { relative: 1e-8 },
    source: "deeks2005",
    recomputedBy: "R 4.2.2 lm(weights = effective people)",
    memory: true,
  },
  {
    name: "effective people of 33 with and 26 without the condition: 4 × 33 × 26 / 59",
    input: { studies: TEN, correction: "all" },
    expect: { "list.0.effectivePeople": 58.16949152542373, "line.degreesOfFreedom": 8 },
    tolerance: { relative: 1e-14 },
    source: "no publication: arithmetic",
  },
];
