import { compute } from "../../../src/core/method.ts";
import { prevalenceTrue } from "../../../src/methods/prevalence/true.ts";
import type { Check } from "./reference-case.ts";

/** A known value, or the counts that give it. */
function accuracy(value: number, people: number | undefined) {
  return people === undefined ? { value } : { count: Math.round(value * people), total: people };
}

const everything: Check = (inputs) => {
  const { x, n, se, sp, nSe, nSp } = inputs as Record<"x" | "n" | "se" | "sp", number> & {
    nSe?: number;
    nSp?: number;
  };
  const input = { count: x, total: n, sensitivity: accuracy(se, nSe), specificity: accuracy(sp, nSp) };
  const { values } = compute(prevalenceTrue, input);
  const untruncated = compute(prevalenceTrue, input, { truncate: false }).values;
  return {
    apparent: values.apparent.value,
    roganGladen: values.roganGladen,
    truncated: values.prevalence.value,
    seKnown: values.treatedAsKnown.standardError,
    cpLower: values.treatedAsKnown.exact.lower,
    cpUpper: values.treatedAsKnown.exact.upper,
    wilsonLower: values.treatedAsKnown.wilson.lower,
    wilsonUpper: values.treatedAsKnown.wilson.upper,
    seEstimated: values.delta.standardError,
    deltaLower: untruncated.delta.interval.lower,
    deltaUpper: untruncated.delta.interval.upper,
    langReiczigelPrev: values.langReiczigel.centre,
    langReiczigelShift: values.langReiczigel.shift,
    langReiczigelLower: untruncated.langReiczigel.interval.lower,
    langReiczigelUpper: untruncated.langReiczigel.interval.upper,
  };
};

export const prevalenceChecks: Readonly<Record<string, Check>> = {
  "T-01": everything,
  "T-02": everything,
  "T-03": everything,
};
