import { count, statedPercent, THIN } from "../../formats.ts";
import { people, sentence } from "./plural.ts";
import type { Terms } from "./terms.ts";

export interface ComparedFacts {
  readonly terms: Terms;
  readonly measure: "sensitivity" | "specificity";
  readonly first: string;
  readonly second: string;
  /** Difference in points with its sign, and its limits in words; `null` where there is none. */
  readonly difference: string | null;
  readonly span: string | null;
  /** Which way the difference lies: 0 where its interval holds zero. */
  readonly side: -1 | 0 | 1 | null;
  readonly paired: { readonly firstOnly: number; readonly secondOnly: number } | null;
}

export interface MarginFacts {
  readonly terms: Terms;
  readonly measure: "sensitivity" | "specificity";
  readonly first: string;
  readonly second: string;
  readonly kind: "noninferiority" | "equivalence";
  readonly margin: number;
  readonly verdict: "met" | "not_met" | "undecided" | "not_estimable";
}

const points = (margin: number) => `${statedPercent(margin)} ${margin === 0.01 ? "point" : "points"}`;

/** Where the difference lies, beside the margin. */
function marginPlace({ kind, margin, verdict, first, second }: MarginFacts): string {
  const far = points(margin);
  if (verdict === "not_estimable") return "the data give no difference.";
  if (kind === "equivalence") {
    if (verdict === "met") return `${first} and ${second} differ by less than ${far}, whatever the chance.`;
    if (verdict === "not_met")
      return `${first} and ${second} differ by more than ${far}, whatever the chance.`;
    return `they may differ by more than the ${far} tolerated or by less; the study is too small to say.`;
  }
  if (verdict === "met") return `even at worst ${first} loses less than the ${far} tolerated.`;
  if (verdict === "not_met") return `even at best ${first} loses more than the ${far} tolerated.`;
  return `${first} may lose more than the ${far} tolerated, or less; the study is too small to say.`;
}

function found({ first, second, difference, span, side, terms, measure }: ComparedFacts): string {
  if (difference === null) return `No difference in ${terms[measure]} can be given.`;
  const words =
    side === 0 || side === null
      ? "a difference that chance may explain"
      : `${side < 0 ? second : first} does better, beyond chance`;
  return `${sentence(terms[measure])}: ${first} less ${second} is ${difference} points${span === null ? "" : ` (${span})`}, ${words}.`;
}

export const comparisons = {
  lead: "Two kits, specimen types or readers held against each other. Where the same people were on both sides, only those with different results tell the two apart.",
  /** The analyte first, unless the title says it already. */
  heading: (analyte: string, title: string) => (title.includes(analyte) ? title : `${analyte}: ${title}`),
  samePeople: (both: number, firstOnly: number, secondOnly: number, first: string, second: string) =>
    `${people(both)} had a result on both sides, and each result is held against the same person's other one.${
      firstOnly + secondOnly === 0
        ? ""
        : ` Left out: ${count(firstOnly)} with ${first} only, ${count(secondOnly)} with ${second} only.`
    }`,
  differentPeople: (firstOnly: number, secondOnly: number, first: string, second: string) =>
    `Different people: ${count(firstOnly)} with ${first}, ${count(secondOnly)} with ${second}. Whatever else differs between them is part of the difference.`,
  plain: found,
  onlyOne: (facts: ComparedFacts) =>
    facts.paired === null
      ? null
      : `${sentence(facts.first)} alone was ${facts.terms.right} for ${count(facts.paired.firstOnly)}, ${facts.second} alone for ${count(facts.paired.secondOnly)}.`,
  pairedCaption: (measure: string, title: string) => `The same people by both results, ${measure}, ${title}`,
  sidesCaption: (measure: string, title: string) => `Both sides, ${measure}, ${title}`,
  differenceCaption: (title: string) => `Differences, ${title}`,
  predictiveCaption: (title: string) => `Predictive values of both sides, ${title}`,
  columns: {
    side: "Side",
    counts: "Right / all",
    countsAgreement: "Agree / all",
    estimate: "%",
    measure: "Measure",
    difference: "Difference, points",
    margin: "Margin",
    verdict: "Verdict",
    pValue: "p",
    ratio: "Ratio",
  },
  cells: { both: "both sides", only: (side: string) => `${side} only`, neither: "neither side" },
  /** Unique on the page, even where two comparisons bear one title. */
  titled: (title: string, id: string) => `${title} (${id})`,
  percentOf: (side: string) => `${sentence(side)} %`,
  all: "All",
  differenceHowToRead: (first: string, second: string, margins: boolean) =>
    `${sentence(first)} less ${second}; ratio: ${first} over ${second}. Thin rule: no difference.${margins ? " Flag: the margin." : ""}`,
  methods: (interval: string, test: string) => `Interval: ${interval}; p: ${test}.`,
  intervals: {
    tango: "Tango's score interval for paired proportions",
    newcombe: "Newcombe's hybrid score interval",
    wald: "normal approximation",
    miettinen_nurminen: "Miettinen and Nurminen's score interval",
    newcombe_corrected: "Newcombe's hybrid score interval, continuity-corrected",
    agresti_caffo: "Agresti and Caffo's interval",
    mee: "Mee's score interval",
  } as Readonly<Record<string, string>>,
  tests: {
    mid_p: "McNemar's test, mid-p",
    exact: "McNemar's exact test",
    asymptotic: "McNemar's chi-square test",
    corrected: "McNemar's chi-square test, corrected",
    mcnemar_exact: "McNemar's exact test",
    mcnemar_mid_p: "McNemar's test, mid-p",
    fisher: "Fisher's exact test",
    fisher_mid_p: "Fisher's test, mid-p",
    score: "score test of two proportions",
  } as Readonly<Record<string, string>>,
  marginText: (margin: number, kind: "noninferiority" | "equivalence") =>
    kind === "equivalence" ? `±${statedPercent(margin)}` : `>${THIN}${statedPercent(-margin)}`,
  marginSource: (margin: string, source: string, entered: string | null) =>
    `Margin ${margin} points: ${source}${entered === null ? ", no date" : `, entered on ${entered}`}.`,
  marginP: (kind: "noninferiority" | "equivalence", measure: string, p: string) =>
    `${kind === "equivalence" ? "Equivalence" : "Non-inferiority"} of ${measure}: p ${p}.`,
  margin: (facts: MarginFacts) => sentence(marginPlace(facts)),
  answerCaption: "Comparisons with a margin",
  answerColumns: { compared: "Compared", pValue: "p" },
  kinds: { noninferiority: "non-inferior", equivalence: "equivalent" },
  versus: (first: string, second: string) => `${first} less ${second}`,
  ppv: "positive predictive value",
  npv: "negative predictive value",
  predictiveLead: "Predictive values in this sample; its own prevalence is the programme's.",
};
