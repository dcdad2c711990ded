import { execFileSync } from "node:child_process";
import { randomNormal } from "d3-random";
import { compute } from "../../src/core/method.ts";
import { randomStream } from "../../src/core/random.ts";
import { areaValues } from "../../src/methods/roc/area-values.ts";
import { rocCompare } from "../../src/methods/roc/compare.ts";
import { rocCurve } from "../../src/methods/roc/curve.ts";
import { rocCutoff } from "../../src/methods/roc/cutoff.ts";
import { rocEyeAgainstInstrument } from "../../src/methods/roc/eye-against-instrument.ts";
import { ladderOf } from "../../src/methods/roc/ladder.ts";
import { rocOrdinal } from "../../src/methods/roc/ordinal.ts";
import type { BenchRow } from "./run.ts";

const normal = randomNormal.source(randomStream(6, 1))(0, 1);
/** Four decimals, so that there are ties. */
const readings = (people: number, mean: number) =>
  Array.from({ length: people }, () => Math.round(1e4 * (mean + normal())) / 1e4);
const direction = "higher" as const;
const large = { positives: readings(40_000, 1), negatives: readings(60_000, 0), direction };
const small = { positives: readings(100, 1.5), negatives: readings(300, 0), direction };
const seen = (list: readonly number[], add: number) =>
  list.map((reading) => ({ reading, reactive: reading + add * normal() > 1 }));

/** What a page asks for while somebody waits, with the seconds it may take. */
const QUESTIONS: readonly [string, number, () => unknown][] = [
  ["100,000 readings: area with its errors, and the curve", 0.2, () => compute(rocCurve, large)],
  [
    "two readings of 50,000 people compared",
    0.4,
    () => {
      const first = {
        positives: large.positives.slice(0, 20_000),
        negatives: large.negatives.slice(0, 30_000),
        direction,
      };
      const second = {
        positives: large.positives.slice(20_000),
        negatives: large.negatives.slice(30_000),
        direction,
      };
      return compute(rocCompare, { design: "paired", first, second });
    },
  ],
  [
    "400 people: a part of the curve, drawn 2,000 times",
    0.5,
    () =>
      compute(rocCurve, small, {
        ranges: [{ of: "specificity", from: 0.9, to: 1 }],
        replicates: 2000,
      }),
  ],
  ["400 people: a cutoff, corrected", 0.5, () => compute(rocCutoff, { ...small, rule: { kind: "youden" } })],
  [
    "400 people: the eye against an instrument",
    0.5,
    () =>
      compute(rocEyeAgainstInstrument, {
        positives: seen(small.positives, 0.5),
        negatives: seen(small.negatives, 0.5),
        direction,
        atSteps: "middle",
      }),
  ],
  [
    "five categories, two normal distributions",
    0.01,
    () =>
      compute(rocOrdinal, {
        categories: [
          { label: "0", positives: 3, negatives: 33 },
          { label: "1", positives: 2, negatives: 6 },
          { label: "2", positives: 2, negatives: 6 },
          { label: "3", positives: 11, negatives: 11 },
          { label: "4", positives: 33, negatives: 2 },
        ],
      }),
  ],
];

const PYTHON_PROGRAM = `
import json, sys, time
import numpy as np
from scipy.stats import rankdata
given = json.load(sys.stdin)
pos, neg = np.array(given["positives"]), np.array(given["negatives"])
def area():
    m, n = len(pos), len(neg)
    ranks = rankdata(np.concatenate([pos, neg]))
    mine = (ranks[:m] - rankdata(pos)) / n
    others = 1 - (ranks[m:] - rankdata(neg)) / m
    return mine.mean(), np.sqrt(mine.var(ddof=1) / m + others.var(ddof=1) / n)
area()
best = 1e9
for _ in range(5):
    start = time.perf_counter(); found = area(); best = min(best, time.perf_counter() - start)
print(best, repr(float(found[0])), repr(float(found[1])))`;

/** Each question against its seconds; the area alone against ranks by NumPy and SciPy. */
export async function benchRoc(): Promise<BenchRow[]> {
  const limits = QUESTIONS.map(([name, limit, ask]) => {
    const seconds = quickest(ask);
    const detail = `${(1000 * seconds).toFixed(1)} ms, against ${limit} s`;
    return { name, ratio: seconds / limit, bar: 1, detail };
  });
  const theirs = runPython();
  if (theirs === null) return limits;
  const alone = () => areaValues(ladderOf(large.positives, large.negatives, direction), 0.95, true).area;
  const area = alone();
  const seconds = quickest(alone);
  const apart = Math.max(
    Math.abs((area.value as number) / theirs.area - 1),
    Math.abs((area.standardError as number) / theirs.standardError - 1),
  );
  const detail = `${(1000 * seconds).toFixed(1)} ms, NumPy and SciPy ${(1000 * theirs.seconds).toFixed(1)} ms; apart by ${apart.toExponential(0)}`;
  const name = "100,000 readings: area and its error, against rankdata; three intervals besides";
  return [...limits, { name, ratio: seconds / theirs.seconds, bar: 1, detail }];
}

/** The quickest of five runs, after one to warm up. */
function quickest(ask: () => unknown): number {
  ask();
  const runs = Array.from({ length: 5 }, () => {
    const start = performance.now();
    ask();
    return (performance.now() - start) / 1000;
  });
  return Math.min(...runs);
}

function runPython(): { seconds: number; area: number; standardError: number } | null {
  try {
    const { positives, negatives } = large;
    const printed = execFileSync("/usr/bin/python3", ["-c", PYTHON_PROGRAM], {
      encoding: "utf8",
      input: JSON.stringify({ positives, negatives }),
      stdio: ["pipe", "pipe", "ignore"],
    });
    const [seconds, area, standardError] = printed.trim().split(" ").map(Number);
    return { seconds: seconds as number, area: area as number, standardError: standardError as number };
  } catch {
    console.log("  SciPy is not installed: no comparison with it");
    return null;
  }
}
