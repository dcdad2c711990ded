import { compute } from "../../src/core/method.ts";
import { univariate } from "../../src/methods/pooling/univariate.ts";
import { rocCalibration } from "../../src/methods/roc/calibration.ts";
import { rocDetectionLimit } from "../../src/methods/roc/detection-limit.ts";
import type { BenchRow } from "./run.ts";

const studies = (size: number) =>
  Array.from({ length: size }, (_, place) => ({
    label: `study ${place + 1}`,
    count: [48, 55, 52, 39, 58, 60, 50][place % 7] as number,
    total: 60 + (place % 5),
  }));
const levels = [10, 20, 40, 80, 160, 320].map((concentration, place) => ({
  concentration,
  reactive: [1, 3, 9, 16, 20, 20][place] as number,
  tested: 20,
}));
/** Distinct probabilities, evenly spread, and right on the whole. */
const people = (size: number) => {
  const all = Array.from({ length: size }, (_, place) => (place + 0.5) / size);
  const ill = (p: number, place: number) => (place * 0.6180339887498949) % 1 < p;
  return { positives: all.filter(ill), negatives: all.filter((p, place) => !ill(p, place)) };
};
const instrument = people(100_000);

/** What a page asks for while somebody waits, with the seconds it may take. */
const QUESTIONS: readonly [string, number, () => unknown][] = [
  [
    "one proportion over 12 studies, profile limits",
    0.1,
    () => compute(univariate, { studies: studies(12), correction: "all" }),
  ],
  [
    "one proportion over 500 studies, profile limits",
    2,
    () => compute(univariate, { studies: studies(500), correction: "all" }),
  ],
  [
    "limit of detection from six concentrations",
    0.05,
    () => compute(rocDetectionLimit, { levels, blank: null, lackOfFit: "widen" }),
  ],
  ["calibration of 100,000 probabilities", 2, () => compute(rocCalibration, instrument)],
];

/** Each question against its seconds. */
export async function benchPoolingUnivariate(): Promise<BenchRow[]> {
  return QUESTIONS.map(([name, most, ask]): BenchRow => {
    ask();
    const start = performance.now();
    ask();
    const seconds = (performance.now() - start) / 1000;
    const detail = `${(seconds * 1000).toFixed(1)} ms, against ${most} s`;
    return { name, ratio: seconds / most, bar: 1, detail };
  });
}
