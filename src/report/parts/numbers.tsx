import type { Evaluation } from "../../evaluation/document.ts";
import type { Shared } from "../context.ts";
import * as formats from "../formats.ts";

type Limits = formats.Limits;
type Proportion = Evaluation["accuracy"][number]["sensitivity"];

/** Said where a number can't be given; the reason stands in the notes below. */
function Absent({ report }: { report: Shared }) {
  return <span class="absent">{report.words.page.notEstimable}</span>;
}

/** Said where a share is withheld although people were counted: it would speak of no population. */
function Withheld({ report }: { report: Shared }) {
  return <span class="absent">{report.words.page.notGiven}</span>;
}

/** Right and all: "111 / 113". */
export function Counts({ of }: { of: { readonly count: number; readonly total: number } }) {
  return <>{formats.countOf(of.count, of.total)}</>;
}

/** A percentage (without its sign) and its limits in the muted ink. */
export function PercentInterval(props: { report: Shared; of: Limits; threshold?: number }) {
  const { report, of } = props;
  if (of.value === null) {
    const counted = "total" in of && typeof of.total === "number" && of.total > 0;
    return counted ? <Withheld report={report} /> : <Absent report={report} />;
  }
  const decimals = formats.percentDecimals(of, props.threshold);
  return (
    <>
      <b>{formats.percent(of.value, decimals)}</b>
      <span class="limits">{formats.percentRange(of, decimals) ?? ""}</span>
    </>
  );
}

/** Limits of a percentage alone. */
export function PercentLimits({ report, of }: { report: Shared; of: Limits }) {
  const limits = formats.percentRange(of);
  return limits === null ? <Absent report={report} /> : <span class="limits">{limits}</span>;
}

/** Limits of a number in some format; an open side is said in words. */
function limitsText(report: Shared, of: Limits, format: (value: number) => string): string {
  if (of.lower !== null && of.upper !== null) return formats.range(format(of.lower), format(of.upper));
  if (of.lower !== null) return `${format(of.lower)}, ${report.words.page.openAbove}`;
  return of.upper === null ? "" : `${format(of.upper)}, ${report.words.page.openBelow}`;
}

/** A ratio, difference or other number with its limits. */
export function NumberInterval(props: { report: Shared; of: Limits; format: (value: number) => string }) {
  const { report, of, format } = props;
  if (of.value === null && of.lower === null && of.upper === null) return <Absent report={report} />;
  return (
    <>
      <b>{of.value === null ? "∞" : format(of.value)}</b>
      <span class="limits">{limitsText(report, of, format)}</span>
    </>
  );
}

/** A coefficient such as kappa with its limits, all with the same decimals. */
export function IndexInterval({ report, of }: { report: Shared; of: Limits }) {
  const decimals = formats.indexDecimals(of);
  return <NumberInterval report={report} of={of} format={(value) => formats.index(value, decimals)} />;
}

/** A difference in points with its sign, and its limits. */
export function PointsInterval(props: { report: Shared; of: Limits; margins?: readonly number[] }) {
  const { report, of } = props;
  if (of.value === null) return <Absent report={report} />;
  const decimals = formats.pointsDecimals(of, props.margins);
  return (
    <>
      <b>{formats.points(of.value, decimals)}</b>
      <span class="limits">{formats.pointsRange(of, decimals) ?? ""}</span>
    </>
  );
}

/** A p-value, or nothing where there is none. */
export const pText = (value: number | null): string => (value === null ? "" : formats.pValue(value));

/** Counts, percentage and limits in one cell, for tables with two measures side by side. */
export function CountsAndPercent({ report, of }: { report: Shared; of: Proportion }) {
  return (
    <>
      <span class="counts">{formats.countOf(of.count, of.total)}</span>
      <PercentInterval report={report} of={of} />
    </>
  );
}

/** Counts and percentage as text, for sentences: "1,541 of 1,549 (99.5 %, 99.0 to 99.8)". */
export function proportionText(report: Shared, of: Proportion): string {
  const counts = report.words.general.outOf(formats.count(of.count), formats.count(of.total));
  if (of.value === null) return counts;
  const value = formats.percentSigned(of.value, formats.percentDecimals(of));
  const span = spanText(report, of);
  return `${counts} (${value}${span === null ? "" : `, ${span}`})`;
}

/** Limits of a percentage for sentences: "99.0 to 99.8". `null` where there are none. */
export function spanText(report: Shared, of: Limits): string | null {
  if (of.lower === null || of.upper === null) return null;
  const decimals = formats.percentDecimals(of);
  return report.words.general.span(formats.percent(of.lower, decimals), formats.percent(of.upper, decimals));
}

/** The head of a column of percentages with limits: the sign, then what the limits are. */
export function EstimateHead({ sign, limits }: { sign: string; limits: string }) {
  return (
    <>
      {sign}
      <span class="limits">{limits}</span>
    </>
  );
}
