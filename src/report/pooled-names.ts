import type { Estimate } from "../core/estimate.ts";
import type { Pooled } from "../evaluation/document.ts";
import type { MeasureName } from "../evaluation/measures.ts";
import { toldOf } from "../evaluation/pooled-told.ts";
import type { Report } from "./context.ts";
import * as formats from "./formats.ts";
import { type Cell, siteTitle, slug, termsOf, worded } from "./names.ts";
import type { MiddleFacts } from "./words/en/sites.ts";

const ABSENT: Estimate = { value: null, lower: null, upper: null };

/** What a group of the pooled stratum is called: a site, or a group. */
export function nounOf(report: Report, stratum: string) {
  const { nouns } = report.words.sites;
  return isOfSites(report, stratum) ? nouns.site : nouns.other;
}

/** Whether the stratum holds the study's sites, which have titles. */
export function isOfSites({ evaluation }: Report, stratum: string): boolean {
  const found = evaluation.study.strata.find(({ id }) => id === stratum);
  return stratum === "site" || found?.column.startsWith("site") === true;
}

/** A pooled group by its title. */
export function pooledGroupTitle(report: Report, { by }: Pooled, label: string): string {
  if (isOfSites(report, by.stratum)) return siteTitle(report, label);
  return Object.hasOwn(report.words.reasons, label) ? worded(report.words.reasons, label) : label;
}

/** The name of the chart of pooled groups of one cell. */
export function pooledFigure(cell: Cell): string {
  return ["sites", cell.analyte, cell.kit, cell.specimen, cell.reader].map(slug).join("-");
}

/** The middle of the groups by the model to be read, and where another group may lie. */
export function middleOf(pooled: Pooled, measure: MeasureName) {
  const told = toldOf(pooled, measure);
  return { summary: told?.summary ?? ABSENT, prediction: told?.prediction ?? ABSENT };
}

/** "82.2 to 99.2", so exact that neither end shows as 0 or 100 that is not; `null` without limits. */
export function spanOf(report: Report, of: Estimate): string | null {
  if (of.lower === null || of.upper === null) return null;
  const decimals = formats.percentDecimals({ value: of.value, lower: of.lower, upper: of.upper });
  return report.words.sites.span(formats.percent(of.lower, decimals), formats.percent(of.upper, decimals));
}

/** Both measures in words, those without a middle left out. */
export function middleFacts(report: Report, pooled: Pooled): MiddleFacts[] {
  const terms = termsOf(report, pooled.analyte);
  return (["sensitivity", "specificity"] as const).flatMap((measure) => {
    const { summary, prediction } = middleOf(pooled, measure);
    if (summary.value === null) return [];
    return [
      {
        name: terms[measure],
        value: formats.percentSigned(summary.value, formats.percentDecimals(summary)),
        span: spanOf(report, summary),
        elsewhere: spanOf(report, prediction),
      },
    ];
  });
}

/** A p-value for sentences, after the letter p: equals or less sign, then the number. */
export function pInWords(value: number): string {
  const text = formats.pValue(value);
  return /^[<>]/.test(text) ? `\u00a0${text}` : `\u00a0=\u00a0${text}`;
}
