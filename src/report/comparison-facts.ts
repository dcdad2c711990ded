import type { Comparison } from "../evaluation/document.ts";
import type { Report } from "./context.ts";
import { marginMarks } from "./figures/difference-strip.tsx";
import * as formats from "./formats.ts";
import { kitTitle, specimenTitle, termsOf } from "./names.ts";
import type { ComparedFacts, MarginFacts } from "./words/en/comparisons.ts";

export type Compared = Comparison["measures"][number];

/** Both sides by what tells them apart: kit, specimen type, reader, or several of them. */
export function sidesOf(report: Report, { first, second }: Comparison): readonly [string, string] {
  const { general } = report.words;
  const parts = [
    ["kit", (id: string) => kitTitle(report, id)],
    ["specimen", (type: string) => specimenTitle(report, type)],
    ["reader", (reader: string) => general.reader(reader)],
  ] as const;
  const apart = parts.filter(([part]) => first[part] !== second[part]);
  const told = apart.length === 0 ? parts : apart;
  const titleOf = (side: Comparison["first"]) => told.map(([part, title]) => title(side[part])).join(", ");
  return [titleOf(first), titleOf(second)];
}

/** The facts of one measure for its plain sentence. */
export function comparedFacts(report: Report, comparison: Comparison, one: Compared): ComparedFacts {
  const [first, second] = sidesOf(report, comparison);
  const { value, lower, upper } = one.difference;
  const decimals = formats.pointsDecimals(one.difference, marginMarks(one.margin));
  return {
    terms: termsOf(report, comparison.analyte),
    measure: one.measure,
    first,
    second,
    difference: value === null ? null : formats.points(value, decimals),
    span:
      lower === null || upper === null
        ? null
        : report.words.general.span(formats.points(lower, decimals), formats.points(upper, decimals)),
    side: lower === null || upper === null ? null : lower > 0 ? 1 : upper < 0 ? -1 : 0,
    paired: one.paired,
  };
}

/** The facts of a margin for its sentence; `null` where the comparison has none. */
export function marginFacts(report: Report, comparison: Comparison, one: Compared): MarginFacts | null {
  if (one.margin === null) return null;
  const [first, second] = sidesOf(report, comparison);
  const { kind, margin, verdict } = one.margin;
  return {
    terms: termsOf(report, comparison.analyte),
    measure: one.measure,
    first,
    second,
    kind,
    margin,
    verdict,
  };
}
