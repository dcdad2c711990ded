import type { OutcomeTornado } from "../../evaluation/algorithm/document.ts";
import * as formats from "../formats.ts";
import type { AlgorithmReport } from "./context.ts";
import { kitName, leadingLine } from "./names.ts";

type Bar = OutcomeTornado["moved"]["values"]["bars"][number];

/** A bar as a reader knows it. */
export interface NamedBar {
  readonly input: string;
  readonly low: string;
  readonly high: string;
  readonly atLow: number;
  readonly atHigh: number;
}

const MOST_BARS = 10;
const KIT_QUANTITIES = ["sensitivity", "specificity", "invalid", "price"] as const;

/** The bars that move the outcome at all, the widest first, ten at most. */
export function namedBars(report: AlgorithmReport, { moved }: OutcomeTornado): NamedBar[] {
  return moved.values.bars
    .flatMap((bar) => {
      const { low, high, atLow, atHigh } = bar;
      if (low === null || high === null || atLow === null || atHigh === null || atLow === atHigh) return [];
      const { name, money } = inputOf(report, bar);
      const format = money ? formats.ratio : (share: number) => endText(share, low, high);
      return [{ input: name, low: format(low), high: format(high), atLow, atHigh }];
    })
    .slice(0, MOST_BARS);
}

function endText(share: number, low: number, high: number): string {
  return formats.percentSigned(share, formats.percentDecimals({ value: share, lower: low, upper: high }));
}

/** What is moved: something of a kit, a cost, or the prevalence. */
function inputOf(report: AlgorithmReport, { input }: Bar): { name: string; money: boolean } {
  const { tornado: words } = report.words.algorithm;
  for (const quantity of KIT_QUANTITIES) {
    const end = ` ${quantity}`;
    if (!input.endsWith(end)) continue;
    const id = input.slice(0, -end.length);
    if (!report.algorithms.file.kits.some((kit) => kit.id === id)) continue;
    return { name: words.ofKit[quantity](kitName(report, id)), money: quantity === "price" };
  }
  if (input === "cost per person") return { name: words.perPerson, money: true };
  if (input === "cost per inconclusive") return { name: words.perInconclusive, money: true };
  return { name: words.prevalence, money: false };
}

/** The outcome as text: a share, or money. */
export function outcomeText({ moved }: OutcomeTornado): (value: number) => string {
  if (moved.input.outcome === "cost") return formats.ratio;
  const all = moved.values.bars.flatMap(({ atLow, atHigh }) => [atLow, atHigh]).filter((one) => one !== null);
  const narrow = all.length > 0 && Math.max(...all) - Math.min(...all) < 0.02;
  return (value) => formats.percentSigned(value, narrow ? 2 : 1);
}

/**
 * The tornadoes that the page shows: the channel that leads, the others are in the document. The leading
 * algorithm comes first. `place` is where it stands in the document.
 */
export function shownTornadoes(
  report: AlgorithmReport,
): { readonly one: OutcomeTornado; readonly place: number; readonly leads: boolean }[] {
  const leading = leadingLine(report);
  return report.algorithms.tornado
    .map((one, place) => ({ one, place, leads: one.algorithm === leading?.algorithm }))
    .filter(({ one }) => one.channel === leading?.channel && namedBars(report, one).length > 0)
    .sort((one, other) => Number(other.leads) - Number(one.leads) || one.place - other.place);
}
