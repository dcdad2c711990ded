import { statedPercent, THIN } from "../../formats.ts";
import { listed } from "./plural.ts";

export interface MethodFacts {
  readonly level: number;
  readonly interval: string;
  readonly shape: "lines" | "results" | "counts";
  /** `null` where the kit file states no lines. */
  readonly faint: string | null;
  /** `null` where the kit file states none. */
  readonly window: string | null;
  readonly invalid: string;
  readonly outside: string;
  readonly repeat: string;
  readonly reader: string;
  readonly seed: number;
  /** Titles of the strata within which people are alike, where intervals allow for them. */
  readonly clustered: readonly string[];
  readonly control: "each" | "all_must_pass" | "holm" | "fixed_sequence";
}

/** Why, and whether, several criteria together are judged more strictly than one. */
const CONTROL: Readonly<Record<MethodFacts["control"], string>> = {
  each: "Each is judged by itself: where a kit must meet all of them no adjustment is needed, where meeting any one would do it would be.",
  all_must_pass:
    "The kit must meet every primary criterion; each is then judged at the full level, and no adjustment is needed.",
  holm: "Any primary criterion that is met counts for itself, so the error is shared among them by Holm's step-down procedure.",
  fixed_sequence:
    "The primary criteria are judged in the order stated beforehand, each at the full level, until the first that is not shown.",
};

function clusters({ clustered }: MethodFacts): string {
  return clustered.length === 0
    ? "The limits are not adjusted for clusters of people by site or operator."
    : `These limits take people as independent; intervals that allow for people being alike within a cluster (${listed(clustered)}) stand beside them.`;
}

export const methods = {
  heading: "Methods",
  lead: "How the numbers came about, for whoever wants to defend or to repeat them.",
  topics: (facts: MethodFacts): readonly { readonly term: string; readonly text: string }[] => [
    {
      term: "From records to results",
      text:
        facts.shape === "lines"
          ? `Every result is derived from the lines that were seen, by the rules of the kit file; a typed result is only held against it. A missing control line makes a device invalid; ${facts.faint}.`
          : facts.shape === "results"
            ? "Results were taken as recorded; the lines behind them are not in the records."
            : "The study file gives counts; single people, devices and times are not in the records.",
    },
    {
      term: "Whom we count",
      text: `People, not devices: ${facts.repeat}. ${facts.reader}.`,
    },
    {
      term: "Invalid and late",
      text: `In the primary analysis invalid results are ${facts.invalid}, and ${
        facts.window === null
          ? "the kit file states no reading window"
          : `readings outside the window (${facts.window}) are ${facts.outside}`
      }. Every other treatment is shown beside it.`,
    },
    {
      term: "Intervals",
      text: `Two-sided ${statedPercent(facts.level)}${THIN}% ${facts.interval} intervals for single proportions; the Wilson score interval stands beside them. ${clusters(facts)}`,
    },
    {
      term: "Verdicts",
      text: `A criterion is met when the whole interval lies on its right side, which is a one-sided test at ${statedPercent(Number(((1 - facts.level) / 2).toFixed(10)))}${THIN}%. Where a criterion has another rule its line says so. ${CONTROL[facts.control]}`,
    },
    {
      term: "Random numbers",
      text: `Whatever is simulated starts from seed ${facts.seed}: the same data, plan and seed give the same report.`,
    },
  ],
  listHeading: "The methods used",
  formula: "Formula",
  caution: "Mind",
  sources: "Sources",
  memory: "cited from memory, not yet checked",
  version: (version: number) => `version ${version}`,
};

export const provenance = {
  heading: "Provenance",
  lead: "Which files this report was made from. The same files, plan, seed and software give the same report, byte for byte; the evaluation itself is embedded in this page and can be read back.",
  caption: "Files handed in",
  columns: { file: "File", bytes: "Bytes", rows: "Rows", hash: "SHA-256" },
  facts: {
    data: "All tables together, SHA-256",
    plan: "Study and kit file together, SHA-256",
    software: "Fourfold",
    seed: "Seed",
    format: "Evaluation document",
  },
  format: (format: string, version: number) => `${format}, version ${version}`,
  methodsCaption: "Methods and their versions",
  methodColumns: { id: "Method", version: "Version" },
};
