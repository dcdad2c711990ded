import { count, fixed, significantPercent, statedPercent, THIN } from "../../formats.ts";
import { listed, sentence } from "./plural.ts";

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
  if (rounded === 0) return "0";
  const size = Math.max(0, 1 - Math.floor(Math.log10(Math.abs(rounded))));
  return fixed(rounded, Math.min(6, size));
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
  discrepantGain: (
    sensitivity: readonly [string, string, string],
    specificity: readonly [string, string, string],
  ) =>
    `Here the practice moves sensitivity from ${sensitivity[0]} to ${sensitivity[1]}${THIN}% (truth: ${sensitivity[2]}) and specificity from ${specificity[0]} to ${specificity[1]}${THIN}% (truth: ${specificity[2]}). Errors that kit and reference share are never looked for, and every quarrel can only be settled in the kit's favour. A study's figures should be those from before any such retest.`,
  discrepantHow: (kit: string, comparator: string, resolver: string | null, prevalence: string) =>
    `Supposed: kit ${kit}, first reference ${comparator} (sensitivity / specificity), ${resolver === null ? "a retest that never errs" : `retest ${resolver}`}, prevalence ${prevalence}; errors independent.`,
};
