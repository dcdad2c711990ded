import { compute } from "../../../src/core/method.ts";
import { planningPairedDifference } from "../../../src/methods/planning/paired-difference.ts";
import { planningUnpairedDifference } from "../../../src/methods/planning/unpaired-difference.ts";
import { planningUnpairedNoninferiority } from "../../../src/methods/planning/unpaired-noninferiority.ts";
import type { Check } from "./reference-case.ts";

const numbersOf = (inputs: unknown) => inputs as Readonly<Record<string, number>>;

/** The case gives the discordant shares; the two proportions are chosen so that nobody else is wrong. */
const pairedTotal: Check = (inputs) => {
  const { p10 = -1, p01 = -1, alpha = -1, power = -1 } = numbersOf(inputs);
  const kits = { first: 1 - p01, second: 1 - p10, discordant: p10 + p01 };
  const { formula } = compute(planningPairedDifference, kits, { level: 1 - alpha, power }).values;
  return { nRaw: formula.unrounded, n: formula.total };
};

const unpairedTotal: Check = (inputs) => {
  const { p1 = -1, p2 = -1, alpha = -1, power = -1 } = numbersOf(inputs);
  const options = { level: 1 - alpha, power };
  const { formula } = compute(planningUnpairedDifference, { first: p1, second: p2 }, options).values;
  return { nPerGroup: formula.unrounded };
};

const marginTotal: Check = (inputs) => {
  const { pNew = -1, pReference = -1, margin = -1, oneSidedAlpha = -1, power = -1 } = numbersOf(inputs);
  const kits = { first: pNew, second: pReference, margin };
  const options = { level: 1 - 2 * oneSidedAlpha, power };
  const { formula } = compute(planningUnpairedNoninferiority, kits, options).values;
  return { nRaw: formula.unrounded, nPerGroup: formula.perGroup };
};

export const planningComparingChecks: Readonly<Record<string, Check>> = {
  "S-05": pairedTotal,
  "S-09": unpairedTotal,
  "S-10": marginTotal,
  "S-11": marginTotal,
};
