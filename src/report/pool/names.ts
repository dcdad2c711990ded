import type { Estimate } from "../../core/estimate.ts";
import type { Pooling } from "../../evaluation/pool/document.ts";
import * as formats from "../formats.ts";
import type { PoolReport } from "./context.ts";

type Measure = "sensitivity" | "specificity";
export const MEASURES: readonly Measure[] = ["sensitivity", "specificity"];

export const measureName = ({ words }: PoolReport, measure: Measure): string => words.pool.measures[measure];

/** People in all studies that are used. */
export function peopleOf({ studies }: Pooling): number {
  return studies.reduce(
    (sum, { sensitivity, specificity }) => sum + sensitivity.total + specificity.total,
    0,
  );
}

/** "12.7 to 98.5", as exact as neither end needs to be 0 or 100 that is not; `null` without limits. */
export function spanOf(report: PoolReport, of: Estimate): string | null {
  if (of.lower === null || of.upper === null) return null;
  const decimals = formats.percentDecimals({ ...of, value: of.value });
  return report.words.pool.answer.span(
    formats.percent(of.lower, decimals),
    formats.percent(of.upper, decimals),
  );
}

/** A share with its sign, and its limits in words. */
export function toldOf(report: PoolReport, of: Estimate) {
  const decimals = formats.percentDecimals(of);
  return {
    value: of.value === null ? report.words.page.notEstimable : formats.percentSigned(of.value, decimals),
    span: spanOf(report, of),
  };
}

/** "1.48 (1.12 to 2.02)": a number with its limits for sentences. */
export function numberWithSpan(report: PoolReport, of: Estimate): string | null {
  const { value, lower, upper } = of;
  if (value === null) return null;
  const span =
    lower === null || upper === null
      ? ""
      : ` (${report.words.pool.answer.span(formats.statistic(lower), formats.statistic(upper))})`;
  return `${formats.statistic(value)}${span}`;
}

/** A p-value for sentences: "= 0.012", "< 0.001". */
export function pInWords(value: number): string {
  const text = formats.pValue(value);
  return /^[<>]/.test(text) ? text : `=\u00a0${text}`;
}
