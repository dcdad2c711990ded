import type { Limits } from "../formats.ts";
import {
  count,
  indexWithRange,
  percentSigned,
  percentWithRange,
  pointsWithRange,
  statedPercent,
  statedPoints,
  THIN,
} from "../formats.ts";
import { listed } from "../words/en/plural.ts";

/**
 * The words of the drawn figures, in English. A translation is another object of the same shape.
 * Where the comparison method is not a reference standard the page hands in other words for
 * `reference`.
 */
export const FIGURE_WORDS = {
  strip: {
    estimate: (estimate: Limits) => `estimate ${percentWithRange(estimate) ?? "missing"}`,
    criterion: (threshold: number, direction: "at_least" | "at_most") =>
      `criterion ${direction === "at_least" ? "at least" : "at most"} ${statedPercent(threshold)}${THIN}%`,
    verdict: { met: "met", not_met: "not met", undecided: "undecided", not_estimable: "not estimable" },
    notEstimable: "not estimable: no people",
    scale: (from: string, to: string) => `scale from ${from} to ${to}${THIN}%`,
  },
  beforeAfter: {
    before: (estimate: Limits) => `before ${percentWithRange(estimate) ?? "missing"}`,
    after: (estimate: Limits) => `after ${percentWithRange(estimate) ?? "not estimable"}`,
  },
  planStrip: {
    expected: (share: number) => `expected ${statedPercent(share)}${THIN}%`,
    criterion: (threshold: number, direction: "at_least" | "at_most") =>
      `criterion ${direction === "at_least" ? "at least" : "at most"} ${statedPercent(threshold)}${THIN}%`,
    passing: (border: number, direction: "at_least" | "at_most") =>
      `met by results of ${percentSigned(border)} or ${direction === "at_least" ? "more" : "less"}`,
    noPassing: "no number of people planned",
  },
  difference: {
    estimate: (difference: Limits) => `difference ${pointsWithRange(difference) ?? "missing"} points`,
    margin: (margin: number) => `margin ${statedPoints(margin)} points`,
    verdict: { met: "met", not_met: "not met", undecided: "undecided", not_estimable: "not estimable" },
    notEstimable: "not estimable",
    scale: (from: string, to: string) => `scale from ${from} to ${to} points`,
  },
  coefficient: {
    estimate: (estimate: Limits) => `estimate ${indexWithRange(estimate) ?? "missing"}`,
    scale: (from: string, to: string) => `scale from ${from} to ${to}`,
  },
  forest: {
    group: "Group",
    counts: "Right / all",
    percent: "%",
    interval: "Interval",
    planned: "planned",
    exploratory: "exploratory",
    nothing: "–",
    howToRead: (overall: string, criterion: number | undefined) =>
      `Dotted rule: ${overall.toLowerCase()}.${criterion === undefined ? "" : ` Solid rule: criterion, ${statedPercent(criterion)}${THIN}%.`}`,
  },
  flow: {
    title: (enrolled: number, analysed: number) =>
      `Flow of people: ${count(enrolled)} enrolled, ${count(analysed)} in the fourfold table`,
    enrolled: "Enrolled",
    leftBefore: "left before the rapid test",
    eligible: "Eligible",
    rapidNotDone: "rapid test not done",
    tested: "Rapid test done",
    firstInvalid: "first device invalid",
    outsideWindow: "read outside the window",
    rapid: { reactive: "Reactive", nonreactive: "Non-reactive", invalid: "Invalid" },
    reference: {
      positive: "Reference positive",
      negative: "Reference negative",
      indeterminate: "reference indeterminate",
      not_done: "reference not done",
    },
    setAside: "set aside",
    analysed: "In the fourfold table",
    reason: (code: string) => code.replaceAll("_", " "),
    step: (label: string, people: number) => `${label}: ${count(people)}`,
  },
  fourfold: {
    rapid: "Rapid test",
    reference: "Reference",
    all: "All",
    results: { reactive: "reactive", nonreactive: "non-reactive", invalid: "invalid", not_done: "not done" },
    statuses: {
      positive: "positive",
      negative: "negative",
      indeterminate: "indeterminate",
      not_done: "not done",
    },
    four: {
      "reactive/positive": "true reactive",
      "reactive/negative": "false reactive",
      "nonreactive/positive": "missed",
      "nonreactive/negative": "true non-reactive",
    },
  },
  reactiveBar: {
    text: (truePositives: string, falsePositives: string, reactive: string) =>
      `${truePositives} true and ${falsePositives} false among ${reactive} reactive`,
    nothing: "no estimate",
  },
  naturalFrequencies: {
    kinds: {
      truePositives: (people: string) => `${people} found: reactive, rightly`,
      falseNegatives: (people: string) => `${people} missed: non-reactive, wrongly`,
      falsePositives: (people: string) => `${people} false alarms: reactive, wrongly`,
      trueNegatives: (people: string) => `${people} non-reactive, rightly`,
    },
    scale: (people: string, block: string) => `Each mark is one of ${people} people, each block ${block}.`,
    text: (parts: readonly string[]) => `Of 1,000 people tested: ${parts.join("; ")}.`,
  },
  referenceTree: {
    title: (analyte: string) => `How the reference status for ${analyte} was decided`,
    none: (analyte: string) =>
      `The reference status for ${analyte} came as recorded; the study file gives no algorithm.`,
    results: {
      reactive: "reactive",
      nonreactive: "non-reactive",
      greyzone: "grey zone",
      indeterminate: "indeterminate",
      failed: "failed",
    },
    statuses: { positive: "positive", negative: "negative", indeterminate: "indeterminate" },
    several: { last: "", all_reactive: "reactive if all runs are", any_reactive: "reactive if any run is" },
    above: (assay: string) => `go on with ${assay}`,
    leads: (results: string, place: string) => `${results} leads to ${place}`,
  },
  cassette: {
    title: (kit: string) => `Lines of ${kit}, and what they mean`,
    well: "specimen",
    nonreactive: "non-reactive",
    reactive: (analytes: readonly string[]) => `reactive for ${listed(analytes)}`,
    invalid: "no control line: invalid, whatever else is seen",
    faint: {
      reactive: "A faint test line counts as reactive.",
      nonreactive: "A faint test line counts as non-reactive.",
    },
  },
};

export type FigureWords = typeof FIGURE_WORDS;
