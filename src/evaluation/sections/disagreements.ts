import type { DeviceResult } from "../../records/model.ts";
import type { Agreement } from "../document.ts";
import type { Worktop } from "../worktop.ts";

/** Both readers' results of one device. */
export type BothRead = readonly [first: DeviceResult, second: DeviceResult];

type Disagreement = Agreement["disagreements"][number];
type By = Disagreement["by"];

const NOT_RECORDED = "not_recorded";
const LINES = ["clear", "faint", "absent"];
const WINDOWS = ["early", "in", "late", "unknown"];

/** What the first reader saw, and what is known of the device: where disagreements may gather. */
const GROUPS: Readonly<Record<By, (first: DeviceResult) => string>> = {
  line: lineOf,
  window: ({ window }) => window,
  lot: ({ lot }) => lot ?? NOT_RECORDED,
  operator: ({ operator }) => operator ?? NOT_RECORDED,
  site: ({ site }) => site ?? NOT_RECORDED,
};

/**
 * The share of devices on which two readers differ, by the first reader's line, the window in which the
 * first reader read, lot, operator and site. What is recorded of no device at all makes no group; nor
 * does line strength where only results are recorded.
 */
export function disagreements(worktop: Worktop, valid: readonly BothRead[]): Disagreement[] {
  const kinds = Object.entries(GROUPS) as [By, (first: DeviceResult) => string][];
  return kinds.flatMap(([by, groupOf]) => {
    if (by === "line" && worktop.study.records.shape !== "lines") return [];
    const groups = new Map<string, { count: number; total: number }>();
    for (const [first, second] of valid) {
      const name = groupOf(first);
      const group = groups.get(name) ?? { count: 0, total: 0 };
      groups.set(name, group);
      group.total += 1;
      if (first.result !== second.result) group.count += 1;
    }
    return inOrder(by, [...groups.keys()], worktop).map((name): Disagreement => {
      const { count, total } = groups.get(name) as { count: number; total: number };
      return { by, group: name, discordant: worktop.proportion(count, total) };
    });
  });
}

function lineOf({ faint, result }: DeviceResult): string {
  if (faint) return "faint";
  return result === "reactive" ? "clear" : "absent";
}

/** Strongest line first, minutes ascending, sites as the study file has them, others by name. */
function inOrder(by: By, names: readonly string[], worktop: Worktop): string[] {
  if (names.every((name) => name === NOT_RECORDED || name === "unknown")) return [];
  const fixed = {
    line: LINES,
    window: WINDOWS,
    site: worktop.study.sites.map((site) => site.id),
    lot: [],
    operator: [],
  }[by];
  const known = fixed.filter((name) => names.includes(name));
  const others = names.filter((name) => !known.includes(name) && name !== NOT_RECORDED).sort();
  return [...known, ...others, ...names.filter((name) => name === NOT_RECORDED)];
}
