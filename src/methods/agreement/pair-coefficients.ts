import { type Estimate, NOT_ESTIMABLE, type ProportionEstimate } from "../../core/estimate.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import { notesAt } from "../notes-at.ts";
import { alphaData, krippendorffAlpha } from "./alpha.ts";
import { aroundValue, type Noted } from "./around.ts";
import {
  type ChanceRule,
  chanceAgreement,
  chanceStandardError,
  measurePatterns,
} from "./chance-agreement.ts";
import { patternsOfTable } from "./patterns.ts";
import { sum } from "./square-shares.ts";
import { type Matrix, weightMatrix } from "./weights.ts";

/** (k po - 1) / (k - 1) at the proportion and at its limits. Source: byrt1993, bennett1954 */
export function pabakOf({ value, lower, upper }: ProportionEstimate, categories: number): Estimate {
  const adjusted = (share: number | null) =>
    share === null ? null : (categories * share - 1) / (categories - 1);
  return { value: adjusted(value), lower: adjusted(lower), upper: adjusted(upper) };
}

/** Scott's pi (`shares`) or AC1 (`spread`), with limits by t. */
export function linearised(
  path: string,
  rule: ChanceRule,
  table: Matrix,
  level: number,
): Noted & { standardError: number | null } {
  const weights = weightMatrix("none", table.length);
  const patterns = measurePatterns(patternsOfTable(table), weights);
  const found = chanceAgreement(patterns, rule, weights);
  const error = `${path}StandardError`;
  if (found === null) {
    const message = "nothing varies, or nothing was read: chance agreement leaves no room";
    return {
      estimate: NOT_ESTIMABLE,
      standardError: null,
      notes: notesAt("no_variation", [path, error], message),
    };
  }
  const standardError = chanceStandardError(patterns, rule, weights, found);
  if (standardError === null) {
    const notes = notesAt("one_item", [`${path}.lower`, `${path}.upper`, error], "one item has no spread");
    return { estimate: { ...NOT_ESTIMABLE, value: found.value }, standardError, notes };
  }
  const multiple = tQuantile((1 - level) / 2, found.items - 1, "upper");
  return { ...aroundValue(path, found.value, standardError, multiple), standardError };
}

/** Alpha of two readers without missing ratings is 1 - (1 - pi) (1 - 1 / (2n)): so is its standard error. */
export function alphaOf(table: Matrix, piError: number | null, level: number): Noted {
  const path = "krippendorffAlpha";
  const patterns = patternsOfTable(table);
  const categories = table.map((_, index) => index);
  const items = patterns.map((pattern) => pattern.items);
  const value = krippendorffAlpha(alphaData(patterns, categories, "nominal"), items);
  if (value === null) {
    const message = "nothing varies, or nothing was read: no disagreement could be expected";
    return { estimate: NOT_ESTIMABLE, notes: notesAt("no_variation", [path], message) };
  }
  if (piError === null) {
    const notes = notesAt("one_item", [`${path}.lower`, `${path}.upper`], "one item has no spread");
    return { estimate: { ...NOT_ESTIMABLE, value }, notes };
  }
  const total = sum(items);
  const multiple = tQuantile((1 - level) / 2, total - 1, "upper");
  return aroundValue(path, value, piError * (1 - 1 / (2 * total)), multiple);
}
