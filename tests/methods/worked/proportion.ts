import { compute } from "../../../src/core/method.ts";
import { exactTest } from "../../../src/methods/proportion/exact-test.ts";
import type { IntervalMethod } from "../../../src/methods/proportion/intervals/rules.ts";
import { proportionInterval, type Sides } from "../../../src/methods/proportion/proportion-interval.ts";
import type { Actual, Check } from "./reference-case.ts";

/** The cases' names of the intervals. */
const NAMES: Readonly<Record<string, IntervalMethod>> = {
  wald: "wald",
  waldcc: "wald_corrected",
  wilson: "wilson",
  wilsoncc: "wilson_corrected",
  clopperPearson: "clopper_pearson",
  midp: "mid_p",
  jeffreys: "jeffreys",
  agrestiCoull: "agresti_coull",
  likelihood: "likelihood_ratio",
};

function everyInterval(count: number, total: number, level: number, prefix = ""): Actual {
  const limits = Object.entries(NAMES).flatMap(([name, method]) => {
    const { lower, upper } = proportionInterval(count, total, { method, level, truncate: false });
    return [
      [`${prefix}${name}Lower`, lower],
      [`${prefix}${name}Upper`, upper],
    ];
  });
  return { ...Object.fromEntries(limits), [`${prefix}estimate`]: count / total };
}

const merged = (parts: readonly Actual[]): Actual => Object.assign({}, ...parts);

const allIntervals: Check = ({ x, n, level }) =>
  everyInterval(x as number, n as number, (level as number | undefined) ?? 0.95);

export const proportionChecks: Readonly<Record<string, Check>> = {
  "P-01": allIntervals,
  "P-03": allIntervals,
  "P-07": allIntervals,
  "P-08": allIntervals,
  "P-10": allIntervals,
  "P-05": ({ n, x, level }) =>
    Object.fromEntries(
      (x as number[]).flatMap((count) => {
        const limits = proportionInterval(count, n as number, { method: "jeffreys", level: level as number });
        return [
          [`x${count}Lower`, limits.lower],
          [`x${count}Upper`, limits.upper],
        ];
      }),
    ),
  "P-09": ({ pairs, level }) =>
    merged(
      (pairs as [number, number][]).map(([count, total]) =>
        everyInterval(count, total, level as number, `x${count}_`),
      ),
    ),
  "P-12": ({ x, n, levels }) =>
    merged(
      (levels as number[]).map((level) =>
        everyInterval(x as number, n as number, level, `l${Math.round(level * 100)}_`),
      ),
    ),
  "P-14": ({ x, n, level, side }) => {
    const limit = (method: IntervalMethod) =>
      proportionInterval(x as number, n as number, { method, level: level as number, sides: side as Sides })
        .lower;
    return {
      clopperPearson: limit("clopper_pearson"),
      wilson: limit("wilson"),
      jeffreys: limit("jeffreys"),
    };
  },
  "P-15": ({ x, n, p0 }) => {
    const input = { count: x as number, total: n as number, hypothesis: p0 as number };
    const { proportion, twoSided } = compute(exactTest, input).values;
    return {
      estimate: proportion.value,
      pValue: twoSided,
      lower: proportion.lower,
      upper: proportion.upper,
    };
  },
};
