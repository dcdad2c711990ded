import type { Agreement } from "../evaluation/document.ts";
import type { Report } from "./context.ts";
import { cellTitle } from "./names.ts";

/** Analyte, kit and specimen: a pair has two readers, so none of them belongs to its cell. */
export function pairCell(report: Report, pair: Pick<Agreement, "analyte" | "kit" | "specimen">): string {
  return cellTitle(report, { ...pair, reader: "" });
}

export function pairTitle(report: Report, { first, second }: Agreement): string {
  const { readers: words, general } = report.words;
  return words.pair(general.reader(first), general.reader(second));
}
