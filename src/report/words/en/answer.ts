import { chance, count, statedPercent, THIN } from "../../formats.ts";
import { listed, numberWord, people, sentence } from "./plural.ts";
import type { Terms } from "./terms.ts";

/** Criteria of one importance by verdict; the names of those that are not met stand in the sentence. */
export interface VerdictGroup {
  readonly importance: "primary" | "secondary";
  readonly total: number;
  readonly met: number;
  readonly notMet: readonly string[];
  readonly undecided: readonly string[];
  readonly notEstimable: readonly string[];
}

export interface AnswerFacts {
  readonly terms: Terms;
  readonly measure: "sensitivity" | "specificity" | "invalid_rate";
  readonly right: number;
  readonly total: number;
  readonly verdict: "met" | "not_met" | "undecided" | "not_estimable";
  readonly direction: "at_least" | "at_most";
  readonly threshold: number;
  readonly further: number | null;
  /** How the criterion is judged: by the whole interval, by one-sided limits, or by the estimate. */
  readonly rule: "interval" | "one_sided" | "point";
  readonly level: number;
  /** Chance of a decision with the further people, by what is known so far; `null` where not reckoned. */
  readonly chance: number | null;
  readonly failuresIncluded: boolean;
}

const NAMED = 3;

function criteria(total: number, importance: string | null): string {
  const kind = importance === null ? "" : `${importance} `;
  return total === 1 ? `${kind}criterion` : `${kind}criteria`;
}

/** A piece of a sentence; a verdict's word is set in its weight. */
export type Piece = string | { readonly verdict: Verdict };
type Verdict = AnswerFacts["verdict"];

/** "X and Y are undecided", or a number where the names would be a list. */
function verdictClause(names: readonly string[], verdict: Verdict): Piece[][] {
  if (names.length === 0) return [];
  const subject = names.length > NAMED ? numberWord(names.length) : listed(names);
  return [[`${subject} ${names.length === 1 ? "is" : "are"} `, { verdict }]];
}

function groupSentence(group: VerdictGroup, importance: string | null): Piece[] {
  const rest = [
    ...verdictClause(group.notMet, "not_met"),
    ...verdictClause(group.undecided, "undecided"),
    ...verdictClause(group.notEstimable, "not_estimable"),
  ];
  const kind = criteria(group.total, importance);
  if (rest.length === 0) {
    const all = group.total === 2 ? "Both" : `All ${numberWord(group.total)}`;
    const subject = group.total === 1 ? `The ${kind} is ` : `${all} ${kind} are `;
    return [subject, { verdict: "met" }, "."];
  }
  const others = rest.flatMap((clause, place) => (place === 0 ? clause : ["; ", ...clause]));
  if (group.total === 1) return [...capital(others), "."];
  if (group.notEstimable.length === group.total) {
    return [`None of the ${numberWord(group.total)} ${kind} can be judged from these data.`];
  }
  const of = `of the ${numberWord(group.total)} ${kind}`;
  const met =
    group.met === 0
      ? `None ${of} is `
      : `${sentence(numberWord(group.met))} ${of} ${group.met === 1 ? "is" : "are"} `;
  return [met, { verdict: "met" }, "; ", ...others, "."];
}

function capital([first, ...rest]: readonly Piece[]): Piece[] {
  return [typeof first === "string" ? sentence(first) : (first ?? ""), ...rest];
}

/** "counted as failures or as non-reactive": what repeats is said once. */
function treatments(words: readonly string[]): string {
  const again = "counted ";
  const short = words.map((word, place) =>
    word.startsWith(again) && words[place - 1]?.startsWith(again) === true ? word.slice(again.length) : word,
  );
  return listed(short, "or");
}

/** One plain sentence on where the criterion lies. */
function place({ verdict, direction, rule }: AnswerFacts): string {
  if (rule === "point") {
    if (verdict === "met") return "the estimate reaches the criterion";
    return verdict === "not_met" ? "the estimate falls short of the criterion" : "the study does not say";
  }
  const good = direction === "at_least" ? "lower" : "upper";
  const bad = direction === "at_least" ? "upper" : "lower";
  if (verdict === "met") return `even the ${good} limit reaches the criterion`;
  if (verdict === "not_met") return `even the ${bad} limit falls short of the criterion`;
  return "the study is too small to say";
}

function counts({ measure, terms, right, total, failuresIncluded }: AnswerFacts): string {
  const wrong = total - right;
  const failed = failuresIncluded ? " (an invalid result counts as a failure)" : "";
  if (measure === "invalid_rate") return `${count(right)} of ${people(total)} had an invalid first result`;
  if (terms.heading === "Agreement") {
    const side = measure === "sensitivity" ? terms.positives : terms.negatives;
    return `The kit agreed for ${count(right)} of ${count(total)} ${side}${failed}`;
  }
  if (measure === "sensitivity") {
    return wrong === 0
      ? `None of ${count(total)} ${terms.positives} was missed${failed}`
      : `${count(wrong)} of ${count(total)} ${terms.positives} ${wrong === 1 ? "was" : "were"} missed${failed}`;
  }
  return wrong === 0
    ? `None of ${count(total)} ${terms.negatives} was falsely reactive${failed}`
    : `${count(wrong)} of ${count(total)} ${terms.negatives} ${wrong === 1 ? "was" : "were"} falsely reactive${failed}`;
}

export const answer = {
  heading: "The answer",
  leadWithoutCriteria:
    "The study file states no criterion, so this report gives estimates with their intervals and no verdict.",
  headline(groups: readonly VerdictGroup[]): Piece[][] {
    const single = groups.length === 1 && groups[0]?.importance === "primary";
    return groups.map((group) => groupSentence(group, single ? null : group.importance));
  },
  caption: "Each criterion with its estimate, interval and verdict",
  captionWithoutCriteria: "Estimates with their intervals",
  columns: {
    analyte: "Analyte",
    measure: "Measure",
    counts: "Right / all",
    countsInvalid: "invalid / all",
    countsAgreement: "Agree / all",
    estimate: "%",
    interval: (level: number, method: string) => `${statedPercent(level)}${THIN}% ${method} interval`,
    criterion: "Criterion",
    scale: (from: number, to: number) => `${statedPercent(from)}${THIN}% to ${statedPercent(to)}${THIN}%`,
    verdict: "Verdict",
    probability: "Probability truly reached",
    probabilityShort: "Probability",
  },
  criterion: (direction: "at_least" | "at_most", threshold: number) =>
    `${direction === "at_least" ? "≥" : "≤"}${THIN}${statedPercent(threshold)}`,
  invalidRate: "invalid results",
  nameInSentence: (analyte: string, measure: string, specimen: string | null, kit: string | null) =>
    [
      `${analyte} ${measure}`,
      kit === null ? "" : ` of ${kit}`,
      specimen === null ? "" : ` on ${specimen}`,
    ].join(""),
  plain(facts: AnswerFacts): string {
    if (facts.verdict === "not_estimable") return "No estimate is possible from these data.";
    return `${sentence(counts(facts))}; ${place(facts)}.`;
  },
  further(facts: AnswerFacts): string | null {
    if (facts.verdict !== "undecided") return null;
    if (facts.further === null) {
      return "No realistic number of further people would settle it while the estimate lies so close to the criterion.";
    }
    const settled = `About ${count(facts.further)} more would settle it if the estimate held`;
    if (facts.chance === null) return `${settled}.`;
    return `${settled}; with what is known so far the chance that they do is ${chance(facts.chance)}.`;
  },
  /** How a criterion is judged, where that is not by the two-sided interval. */
  rule({ rule, level, direction }: AnswerFacts): string | null {
    if (rule === "interval") return null;
    if (rule === "one_sided") {
      const limit = direction === "at_least" ? "lower" : "upper";
      return `Judged by one-sided ${statedPercent(level)}${THIN}% limits, the ${limit} one to meet it.`;
    }
    return "Judged by the estimate alone, as the study file asks: about half of the kits that lie exactly at the criterion pass.";
  },
  flip(verdict: string, invalid: readonly string[], window: readonly string[]): string {
    const conditions = [
      ...(invalid.length === 0 ? [] : [`invalid results are ${treatments(invalid)}`]),
      ...(window.length === 0 ? [] : [`readings outside the window are ${treatments(window)}`]),
    ];
    return `${sentence(verdict)} if ${listed(conditions, "or if")}.`;
  },
  noFlips: "No verdict changes under other treatments of invalid or untimely results.",
  someFlips:
    "Where other treatments of invalid or untimely results would change a verdict, its line says so.",
  howToRead: (level: number, method: string) =>
    `Two-sided ${statedPercent(level)}${THIN}% ${method} intervals. Met: the whole interval lies on the right side of the criterion; not met: on the wrong side; undecided: on both.`,
  eachByItself: "Each is judged by itself.",
  probability: "Probability: from these counts alone (Jeffreys prior).",
  margins: "Comparisons: the interval of the difference is held against the margin in the same way.",
  howToReadWithoutCriteria: (level: number, method: string) =>
    `Intervals are two-sided ${statedPercent(level)}${THIN}% ${method} intervals.`,
};
