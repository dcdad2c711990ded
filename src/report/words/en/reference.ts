import { count, fixed, significantPercent, statedPercent, THIN } from "../../formats.ts";
import { counted, listed, people, sentence } from "./plural.ts";

type VerdictCode = "met" | "not_met" | "undecided" | "not_estimable";
type Piece = string | { readonly verdict: VerdictCode };

export interface BorderFacts {
  readonly at: number;
  readonly verdict: VerdictCode;
}
interface BothBorders {
  readonly below: BorderFacts | null;
  readonly above: BorderFacts | null;
}

export interface TippingFacts {
  /** The criterion in words: "HBsAg sensitivity ≥ 95 %". */
  readonly name: string;
  readonly analyte: string;
  readonly perfect: VerdictCode;
  readonly believed: VerdictCode;
  readonly throughout: VerdictCode | null;
  /** Whether any range stated has a width. */
  readonly ranged: boolean;
  readonly referenceSensitivity: BothBorders;
  readonly referenceSpecificity: BothBorders;
  readonly covarianceDiseased: BothBorders;
  readonly covarianceNondiseased: BothBorders;
}

/** How many people one error is among: "1 in 345 people"; a percentage where errors are frequent. */
function oneIn(errors: number, who: string): string {
  if (errors <= 0) return `no ${who}`;
  if (errors > 0.1) return `${significantPercent(errors)}${THIN}% of ${who}`;
  const among = 1 / errors;
  return `1 in ${among < 30 ? Number(fixed(among, 1)) : count(Number(among.toPrecision(3)))} ${who}`;
}

interface Change {
  readonly text: string;
  readonly verdict: VerdictCode;
}

/**
 * What would change the verdict, each alone: the reference's misses and its false positives. Where there would be
 * no estimate any more the table does not fit such a reference, and nothing is said.
 */
function changesOf(facts: TippingFacts): Change[] {
  const { analyte, referenceSensitivity: misses, referenceSpecificity: falsely } = facts;
  const change = (border: BorderFacts | null, text: (errors: number) => string): Change[] =>
    border === null || border.verdict === "not_estimable"
      ? []
      : [{ text: text(1 - border.at), verdict: border.verdict }];
  const [ill, well] = [`people with ${analyte}`, "people without it"];
  return [
    ...change(misses.below, (errors) => `misses more than ${oneIn(errors, ill)}`),
    ...change(misses.above, (errors) => `misses fewer than ${oneIn(errors, ill)}`),
    ...change(falsely.below, (errors) => `falsely finds ${analyte} in more than ${oneIn(errors, well)}`),
    ...change(falsely.above, (errors) => `falsely finds ${analyte} in fewer than ${oneIn(errors, well)}`),
  ];
}

function bordersText(facts: TippingFacts): Piece[] {
  const changes = changesOf(facts);
  if (changes.length === 0) {
    return ["No number of misses or of false positives of the reference, alone, gives another verdict. "];
  }
  return [
    "The verdict holds unless the reference ",
    ...changes.flatMap(({ text, verdict }, place): Piece[] => [
      place === 0 ? text : `, or ${text}`,
      " (then ",
      { verdict },
      ")",
    ]),
    ". ",
  ];
}

/** Errors in common with the kit. */
function togetherText(facts: TippingFacts): Piece[] {
  const { covarianceDiseased: ill, covarianceNondiseased: well, analyte } = facts;
  const who = [`among people with ${analyte}`, `among people without ${analyte}`];
  const found = [ill, well].flatMap(({ above }, place) =>
    above === null || above.verdict === "not_estimable" ? [] : [{ ...above, who: who[place] ?? "" }],
  );
  const [first] = found;
  if (first === undefined) return [];
  const same = found.every(({ verdict }) => verdict === first.verdict);
  if (same) {
    const places = found.map(({ at, who: among }) => `above ${signed(at)} ${among}`);
    return [
      `If both erred together, a covariance ${listed(places, "or")} would make it `,
      { verdict: first.verdict },
      ".",
    ];
  }
  return [
    "If both erred together, a covariance ",
    ...found.flatMap(({ at, verdict, who: among }, place): Piece[] => [
      `${place === 0 ? "" : ", and one "}above ${signed(at)} ${among} would make it `,
      { verdict },
    ]),
    ".",
  ];
}

/** A covariance to two significant digits with a true minus sign. */
function signed(value: number): string {
  const rounded = Number(value.toPrecision(2));
  const size = rounded === 0 ? 2 : Math.max(0, 1 - Math.floor(Math.log10(Math.abs(rounded))));
  return fixed(rounded, Math.min(6, size));
}

export interface VerificationFacts {
  readonly name: string;
  readonly naive: VerdictCode;
  readonly corrected: VerdictCode;
  readonly lowest: VerdictCode;
  readonly highest: VerdictCode;
  readonly holds: boolean;
  /** Odds ratios between which the corrected verdict stays, by one odds ratio for both results. */
  readonly from: string | null;
  readonly to: string | null;
  readonly lookedFrom: string;
  readonly lookedTo: string;
}

export const reference = {
  lead: "Every figure before this takes the reference for the truth. Here is what becomes of them if it is not, or was not done in everybody; the plain answer always stands beside.",
  errorsHeading: (cell: string) => `If the reference errs: ${cell}`,
  tipping(facts: TippingFacts): Piece[] {
    const first: Piece[] = [
      `${sentence(facts.name)}: `,
      { verdict: facts.believed },
      " with the reference as stated",
      ...(facts.perfect === facts.believed
        ? [", and the same if it never erred. "]
        : ["; ", { verdict: facts.perfect }, " if it never erred. "]),
    ];
    const range: Piece[] = !facts.ranged
      ? []
      : facts.throughout === null
        ? ["Within the range stated it changes. "]
        : ["Over all of the range stated it stays ", { verdict: facts.throughout }, ". "];
    return [...first, ...bordersText(facts), ...range, ...togetherText(facts)];
  },
  errorsCaption: (cell: string) => `As observed, and behind the errors of the reference: ${cell}`,
  columns: {
    measure: "Measure",
    naive: "As observed %",
    counts: "Right / all",
    corrected: "Corrected %",
    ranged: "With the range stated %",
    strip: "hollow: as observed; full: corrected",
  },
  prevalence: "share with the condition",
  errorsHow: (ranged: boolean) =>
    `As observed: as if the reference never erred. Corrected: the reference taken to be exactly as stated${ranged ? "; with the range stated: its uncertainty drawn too" : ""}.`,
  verdictsCaption: (cell: string) => `Verdicts by what is supposed of the reference: ${cell}`,
  verdictColumns: {
    criterion: "Criterion",
    naive: "In the answer",
    perfect: "Reference never errs",
    believed: "As stated",
    throughout: "Over the range stated",
  },
  changes: "changes",
  verdictsHow:
    "The answer judges by the study's interval, the other columns by likelihood limits: close to a criterion the two may differ for that reason alone.",
  mapCaption: (name: string) => `Verdict by what is true of the reference: ${name}`,
  mapHow: (sensitivity: string, specificity: string) =>
    `Dot: the reference as stated; dashed box: the range stated. Plain ground: met; dots: undecided; slanted lines: not met. The axes begin at ${specificity} and ${sensitivity}, not at zero.`,
  otherMaps: (names: readonly string[]) =>
    `The map for ${listed(names)}, which does not hang on the reference`,
  bordersCaption: (name: string) => `Where the verdict changes, each alone: ${name}`,
  borderColumns: {
    what: "What is supposed",
    stated: "Stated",
    below: "Changes below",
    above: "Changes above",
  },
  borderRows: {
    referenceSensitivity: "sensitivity of the reference, %",
    referenceSpecificity: "specificity of the reference, %",
    covarianceDiseased: "covariance of errors, with the condition",
    covarianceNondiseased: "covariance of errors, without it",
  },
  nowhere: "nowhere",
  covariance: signed,
  statedHeading: "What is stated",
  facts: {
    finds: "Reference finds",
    clears: "Reference clears",
    together: "Errors shared with the kit",
    made: "Made of",
    source: "Source",
  },
  finds: (share: string, analyte: string) => `${share} of people with ${analyte}`,
  clears: (share: string, analyte: string) => `${share} of people without ${analyte}`,
  range: (believed: number, from: number, to: number) =>
    from === to
      ? `${statedPercent(believed)}${THIN}%`
      : `${statedPercent(believed)}${THIN}% (${statedPercent(from)} to ${statedPercent(to)})`,
  independent: "none: they err independently",
  covariances: (diseased: string, nondiseased: string) =>
    `covariance ${diseased} among people with the condition, ${nondiseased} among those without`,
  composite(
    rule: "any_positive" | "both_positive",
    tests: readonly string[],
    covariances: string | null,
  ): string {
    const made = rule === "any_positive" ? "positive if either is" : "positive only if both are";
    return `${listed(tests)}; ${made}; ${covariances === null ? "their errors independent" : `their errors shared, ${covariances}`}`;
  },
  compositeTest: (title: string, sensitivity: number, specificity: number) =>
    `${title} (finds ${statedPercent(sensitivity)}${THIN}%, clears ${statedPercent(specificity)}${THIN}%)`,
  source: (source: string, day: string | null) => (day === null ? source : `${source}, entered ${day}`),
  admissible: (sensitivity: string, specificity: string) =>
    `With independent errors, this table allows no reference whose sensitivity lies below ${sensitivity} or whose specificity lies below ${specificity}, save by chance.`,

  verificationHeading: (cell: string) => `Not everybody had the reference: ${cell}`,
  unverified: (reactive: string, nonreactive: string) =>
    `Without a reference result: ${reactive} people with a reactive result, and ${nonreactive} with a non-reactive one.`,
  strata: (titles: readonly string[]) =>
    titles.length === 0
      ? "Corrected: people without a reference are taken to be like those who had it and the same result."
      : `Corrected: people without a reference are taken to be like those who had it, with the same result and the same ${listed(titles)}.`,
  verified(facts: VerificationFacts): Piece[] {
    const first: Piece[] = [
      `${sentence(facts.name)}: `,
      { verdict: facts.naive },
      " by those who had the reference",
      ...(facts.naive === facts.corrected
        ? [", and the same once corrected. "]
        : [", ", { verdict: facts.corrected }, " once corrected. "]),
    ];
    const { lookedFrom, lookedTo, from, to, lowest, highest } = facts;
    if (lowest === highest && lowest === facts.corrected) {
      return [...first, "Whatever those without it have, it stays ", { verdict: lowest }, "."];
    }
    const odds = facts.holds
      ? `That holds if people with the condition were ${lookedFrom} to ${lookedTo} times as readily verified (in odds)`
      : from === null || to === null
        ? "It changes within the odds of verification looked at"
        : `That holds while people with the condition are ${from} to ${to} times as readily verified (in odds; looked at: ${lookedFrom} to ${lookedTo})`;
    return [
      ...first,
      `${odds}, but not whatever those without it have: at worst `,
      { verdict: lowest },
      ", at best ",
      { verdict: highest },
      ".",
    ];
  },
  peopleCaption: (cell: string) => `People by kit result and by what is known of them: ${cell}`,
  peopleColumns: {
    result: "Kit",
    diseased: "Reference positive",
    nondiseased: "Reference negative",
    unverified: "No reference",
    share: "Without, %",
  },
  measuresCaption: (cell: string) => `Verified people only, corrected, and at the bounds: ${cell}`,
  measuresColumns: {
    measure: "Measure",
    naive: "Verified people only",
    corrected: "Corrected %",
    bounds: "Whatever the others have %",
    strip: "hollow: verified only; full: corrected",
  },
  measures: {
    sensitivity: "sensitivity",
    specificity: "specificity",
    prevalence: "share with the condition",
    ppv: "positive predictive value",
    npv: "negative predictive value",
  },
  measuresHow:
    "Whatever the others have: from the lowest to the highest that any truth about people without a reference would give, chance not counted.",
  otherWays: "Who had the reference, other ways of correcting, and verification that hangs on the condition",
  otherCaption: (cell: string) => `Corrected, weighted and completed: ${cell}`,
  otherColumns: {
    measure: "Measure",
    corrected: "Corrected",
    weighted: "Weighted",
    imputed: "Completed",
    missing: "Uncertainty from want of verification",
  },
  otherHow:
    "Weighted: verified people stand for those like them. Completed: many tables with the missing results drawn. All three rest on the same assumption, so that agreement among them does not prove it.",
  curveCaption: (name: string) => `If who was verified hung on the condition itself: ${name}`,
  curveData: { odds: "Odds ratio", estimate: "Estimate %", verdict: "Verdict" },
  curveHow: (stated: boolean) =>
    `Right of 1: people with the condition were verified more readily than others with the same result. The data are silent on this; ${stated ? "the study file states how far it may go" : "the study file states no range, so a wide one is shown"}.`,
  oneResult: (axis: "reactive" | "nonreactive", from: string, to: string) =>
    `If that concerned only people with a ${axis === "reactive" ? "reactive" : "non-reactive"} result, the verdict would hold from ${from} to ${to}.`,
  setAside: (listedPeople: string) => `Set aside: ${listedPeople}.`,

  discrepantHeading: "Retesting only those who disagree",
  discrepantLead: (retested: string) =>
    `People whose results differed, and only they, were tested again. This is shown as a warning; it is never an analysis. Invented people, of whom ${retested} would be retested, show why:`,
  discrepantCaption: "Invented people: what retesting only those who disagree does",
  discrepantColumns: {
    held: "The kit held against",
    sensitivity: "Sensitivity %",
    specificity: "Specificity %",
  },
  discrepantRows: {
    truth: "the truth",
    unresolved: "the first reference, nobody retested",
    resolved: "the same after retesting those who disagree",
    everybody: "the retest, done in everybody",
  },
  discrepantGain: (sensitivity: string, specificity: string) =>
    `Here the practice makes the kit look better than it is by ${sensitivity} points of sensitivity and ${specificity} of specificity: errors shared by kit and reference are never looked for. This study's own figures are those from before any such retest.`,
  discrepantHow: (kit: string, comparator: string, resolver: string, prevalence: string) =>
    `Supposed: kit ${kit}, first reference ${comparator}, retest ${resolver} (sensitivity / specificity), prevalence ${prevalence}; errors independent.`,
  people,
  counted,
};
