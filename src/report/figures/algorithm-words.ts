import type { Limits } from "../formats.ts";
import { count, expectedFew, percentSigned, percentWithRange, statedPercent, THIN } from "../formats.ts";
import type { Flow, Result, Status } from "./algorithm-layout.ts";
import type { Fate } from "./person-marks.ts";

/** The words of an algorithm's drawn figures, in English. A translation is another object of this shape. */
export const ALGORITHM_FIGURE_WORDS = {
  tree: {
    start: (people: number) => `${count(people)} people tested`,
    truth: (flow: Flow) => ({
      diseased: `${expectedFew(flow.diseased)} truly positive`,
      nondiseased: `${expectedFew(flow.nondiseased)} truly negative`,
    }),
    results: { reactive: "reactive", nonreactive: "non-reactive", invalid: "invalid" } satisfies Record<
      Result,
      string
    >,
    statuses: { positive: "Positive", negative: "Negative", inconclusive: "Inconclusive" } satisfies Record<
      Status,
      string
    >,
    /** What an end means for those in truth positive and those in truth negative. */
    ends: {
      positive: { diseased: "rightly", nondiseased: "wrongly" },
      negative: { diseased: "missed", nondiseased: "rightly" },
      inconclusive: { diseased: "truly positive", nondiseased: "truly negative" },
    } satisfies Record<Status, Record<keyof Flow, string>>,
    /** A usual algorithm's own steps are called test_1 and so on. */
    step: (id: string) => (/^test_\d+$/.test(id) ? id.replace("_", " ") : `step ${id.replaceAll("_", " ")}`),
    again: (times: number) => `invalid: again, ${times === 1 ? "once" : `${count(times)} times`}`,
    elsewhere: (kit: string) => `go on with ${kit}`,
    people: (value: number) => expectedFew(value),
    exit: (kit: string, result: string, end: string, flow: Flow) =>
      `${kit} ${result}: ${end}, ${expectedFew(flow.diseased)} truly positive and ${expectedFew(flow.nondiseased)} truly negative.`,
    key: {
      diseased: "truly positive",
      nondiseased: "truly negative",
      width: "The thicker the line the more people, by powers of ten.",
    },
  },
  ppvStrip: {
    ppv: (ppv: Limits) => `predictive value ${percentWithRange(ppv) ?? "missing"}`,
    independent: (share: number) => `${percentSigned(share)} if independent`,
    target: (share: number) => `target at least ${statedPercent(share)}${THIN}%`,
  },
  people: {
    kinds: {
      found: (people: string) => `${people} found: called positive, rightly`,
      unclearPositive: (people: string) => `${people} truly positive, left inconclusive`,
      missed: (people: string) => `${people} missed: called negative, wrongly`,
      falseAlarm: (people: string) => `${people} called positive, wrongly`,
      unclearNegative: (people: string) => `${people} truly negative, left inconclusive`,
      rest: (people: string) => `${people} called negative, rightly`,
    } satisfies Record<Fate, (people: string) => string>,
    scale: (people: string, block: string) => `Each mark is one of ${people} people, each block ${block}.`,
    text: (people: string, parts: readonly string[]) => `Of ${people} people tested: ${parts.join("; ")}.`,
  },
};

export type AlgorithmFigureWords = typeof ALGORITHM_FIGURE_WORDS;
