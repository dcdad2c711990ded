import type { WorkedExample } from "../../core/method.ts";

const people = (readings: readonly number[], reactive: readonly number[]) =>
  readings.map((reading, place) => ({ reactive: reactive.includes(place), reading }));
const small = {
  positives: people([2.1, 3.4, 1.8, 4.4, 5, 3.9, 2.7, 4.1], [1, 3, 4, 5, 7]),
  negatives: people([1.2, 2.1, 0.8, 3.3, 1.8, 2.5, 1.1, 3.4, 0.9, 2.7], [3, 7]),
  direction: "higher",
};

export const eyeExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "eight and ten devices, the middle of steps",
    input: { ...small, atSteps: "middle" },
    expect: {
      "atEyeSpecificity.sensitivity.value": 0.625,
      "atEyeSpecificity.difference.value": 0,
      "atEyeSensitivity.specificity.value": 0.85,
      "atEyeSensitivity.difference.value": 0.05,
    },
    tolerance: { relative: 1e-9 },
    source: "pepe2003",
    recomputedBy: "R 4.2.2 base, approx on the points",
    memory: true,
  },
  {
    name: "the best end of steps",
    input: { ...small, atSteps: "best" },
    expect: {
      "atEyeSpecificity.sensitivity.value": 0.625,
      "atEyeSensitivity.specificity.value": 0.9,
      "atEyeSensitivity.difference.value": 0.1,
    },
    tolerance: { relative: 1e-9 },
    source: "pepe2003",
    recomputedBy: "R 4.2.2 base, approx on the points",
    memory: true,
  },
];
