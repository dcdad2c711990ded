import type { WorkedExample } from "../../core/method.ts";

const POSITIVES = [
  0.4, 0.6, 0.2, 0.6, 0.6, 0.1, 0.6, 0.3, 0.2, 0.3, 0.4, 0.6, 0.4, 0.3, 0.5, 0.5, 0.4, 0.3, 0.5, 0.4, 0.6,
  0.5, 0.6, 0.4, 0.5,
];
const NEGATIVES = [
  0.4, 0.3, 0.4, 0.3, 0.4, 0.2, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.1, 0.3, 0.2, 0.4, 0.2, 0.2, 0.3, 0.2, 0.4,
  0.2, 0.1, 0.4, 0.5, 0.3, 0.4, 0.2, 0.6, 0.2, 0.3, 0.3, 0.1, 0.2, 0.4, 0.2, 0.1, 0.2, 0.3, 0.3, 0.3, 0.2,
  0.1, 0.3, 0.1, 0.4, 0.4, 0.1, 0.7, 0.4, 0.3, 0.3, 0.1, 0.2, 0.2,
];

export const calibrationExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "80 people, an instrument that is not sure enough of itself",
    input: { positives: POSITIVES, negatives: NEGATIVES },
    options: { groups: 4 },
    expect: {
      "large.intercept.value": -0.0826933407533949,
      "recalibration.intercept.value": 0.298895188586103,
      "recalibration.slope.value": 1.65249897741105,
      "recalibration.slopeError": 0.465412708192717,
      "recalibration.chiSquare": 2.36816695931454,
    },
    tolerance: { relative: 1e-8 },
    source: "cox1958",
    recomputedBy: "R 4.2.2 glm(binomial) with and without offset",
    memory: true,
  },
  {
    name: "the same: Brier score and its parts",
    input: { positives: POSITIVES, negatives: NEGATIVES },
    options: { groups: 4 },
    expect: {
      "brier.score": 0.172375,
      "brier.reliability": 0.0158545737425405,
      "brier.resolution": 0.0620099904092072,
      "brier.within": 0.00368666666666667,
      "brier.z": -1.34446766699438,
    },
    tolerance: { relative: 1e-8 },
    source: "brier1950",
    recomputedBy: "R 4.2.2, person by person",
    memory: true,
  },
  {
    name: "four people, by hand",
    input: { positives: [0.8, 0.6], negatives: [0.4, 0.1] },
    options: { groups: 1 },
    expect: {
      "brier.score": 0.0925,
      "brier.uncertainty": 0.25,
      "brier.resolution": 0,
      "overall.predicted": 0.475,
    },
    tolerance: { relative: 1e-12 },
    source: "no publication: (0.04 + 0.16 + 0.16 + 0.01) / 4",
  },
];
