import { chance, count, statedPercent, THIN } from "../../formats.ts";
import { counted, listed, numberWord, people, sentence } from "./plural.ts";

type Group = "positives" | "negatives" | "tested";
type Direction = "at_least" | "at_most";

/** What one criterion asks of the study, for its plain sentence. */
export interface SaidFacts {
  readonly measure: "sensitivity" | "specificity" | "invalid_rate";
  readonly direction: Direction;
  /** Whom it counts, e.g. HBsAg-positive people. */
  readonly group: string;
  /** People needed if they were independent, and most of them who may fail. */
  readonly total: number;
  readonly allowed: number;
  /** People needed, clusters allowed for. */
  readonly needed: number;
}

/** How probably the primary criteria are met together; numbers as texts. */
export interface JointFacts {
  readonly primary: number;
  /** Of them, those that can be planned: the probability is theirs. */
  readonly planned: number;
  readonly stated: string;
  readonly bounds: string | null;
  /** What was wanted of all together; `null` where each stands for itself. */
  readonly wanted: string | null;
}

/** What went wrong for those who may fail. */
function failed(measure: SaidFacts["measure"], direction: Direction): string {
  if (measure === "invalid_rate")
    return direction === "at_most" ? "have an invalid result" : "have a valid one";
  if (direction === "at_most") return "be called rightly";
  return measure === "sensitivity" ? "be missed" : "be falsely reactive";
}

const signed = (share: number) => `${statedPercent(share)}${THIN}%`;

export const plan = {
  kind: "Study plan",
  skip: "Skip to the answer",
  running: (title: string) => `Fourfold study plan · ${title}`,
  hashes: (planHash: string, software: string, seed: number) =>
    `Plan ${planHash}, software ${software}, seed ${seed}.`,
  about: (analytes: string, criteria: number, sites: number) =>
    [
      analytes,
      counted(criteria, "criterion", "criteria"),
      ...(sites === 0 ? [] : [counted(sites, "site", "sites")]),
    ] as const,
  interval: (level: number, method: string) => `${method} ${statedPercent(level)}${THIN}% intervals`,
  sections: {
    criteria: "Against each criterion",
    precision: "Precision",
    enrolment: "People to enrol",
    together: "All criteria together",
    comparisons: "Comparisons",
    agreement: "Agreement between readers",
    stopping: "Stopping early",
    whatif: "What if",
    effort: "Time and cost",
    methods: "Methods and formulas",
    cautions: "Cautions",
    provenance: "Provenance",
  },
  ofAnalyte: (analyte: string, measure: string) => `${analyte} ${measure}`,
  onSpecimen: (measure: string, specimen: string) => `${measure} on ${specimen}`,
  tested: "people tested",
  group: (analyte: string, of: "positives" | "negatives") =>
    `${analyte}-${of === "positives" ? "positive" : "negative"} people`,
  groupShort: (analyte: string, of: Group) =>
    of === "tested" ? "tested" : `${analyte} ${of === "positives" ? "positive" : "negative"}`,
  demand: (direction: Direction, threshold: number) =>
    `${direction === "at_least" ? "at least" : "at most"} ${signed(threshold)}`,
  noPlan: "can't be planned",
  none: "none",
  answer: {
    heading: "The answer",
    enrol: (enrol: number) => `Enrol ${people(enrol)}.`,
    cannotShow: (names: readonly string[], needsAll: boolean) =>
      `As it stands this plan can't show ${listed(names)}${needsAll ? ", and the kit needs every primary criterion" : ""}: the table says what to change.`,
    enrolForRest: (enrol: number) => `For the rest, enrol ${people(enrol)}.`,
    noEnrol: "No number of people to enrol can be given.",
    because: (assurance: number, needed: number, group: string, demand: string, alone: boolean) =>
      `With ${chance(assurance)} probability that brings the ${count(needed)} ${group} needed ${demand}${alone ? "" : "; nothing else needs more"}.`,
    assured: (assurance: number) =>
      `With ${chance(assurance)} probability that brings everybody who is needed.`,
    needOfCriterion: (measure: string, demand: string) => `to show ${measure} of ${demand}`,
    needOfOther: (title: string) => `for “${title}”`,
    joint({ primary, planned, stated, bounds, wanted }: JointFacts): string {
      const those = planned === primary ? "primary criteria" : "primary criteria that can be planned";
      const all =
        planned === 1
          ? `the ${those.replace("criteria", "criterion")} is`
          : `${planned === 2 ? "both" : `all ${numberWord(planned)}`} ${those} are`;
      const between = bounds === null ? "" : ` (${bounds}, however they hang together)`;
      const asked = wanted === null ? "" : `; ${wanted} was wanted`;
      return `If the kit is as good as expected, ${all} met with probability ${stated}${between}${asked}.`;
    },
    bounds: (lowest: string, highest: string) => `${lowest} to ${highest}`,
    shared: (powers: string) => `For that each of them is planned with a power of ${powers}.`,
    daysAndCost: (days: string | null, assurance: number, sites: number, cost: string | null) => {
      const at = sites > 1 ? ` at ${numberWord(sites)} sites` : "";
      const price = cost === null ? "" : `, and the study costs about ${cost}`;
      if (days === null) return cost === null ? null : `The study costs about ${cost}.`;
      return `Enrolment takes up to ${days} working days${at} (${chance(assurance)} sure)${price}.`;
    },
    money: (amount: string, unit: string) => `${amount} ${unit}`,
    beside: (enrol: number, kit: string) =>
      `${count(enrol)} of those enrolled ${enrol === 1 ? "gets" : "get"} ${kit} instead, and ${enrol === 1 ? "counts" : "count"} for the comparison only.`,
    out: (names: readonly string[]) =>
      `${sentence(listed(names))} can't be planned as ${names.length === 1 ? "it stands" : "they stand"}.`,
    caption: "What each criterion asks for",
    columns: {
      analyte: "Analyte",
      measure: "Measure",
      expected: "Expected",
      criterion: "Criterion",
      needed: "People needed",
      neededShort: "needed",
      allowed: "May fail",
      power: "Power",
      powerWanted: (wanted: string) => `${wanted} wanted`,
    },
    ofThose: (allowed: number, total: number) => `${count(allowed)} of ${count(total)}`,
    said({ measure, direction, group, total, allowed, needed }: SaidFacts): string {
      const some = allowed === 0 ? "None" : `At most ${count(allowed)}`;
      const alike =
        needed === total
          ? ""
          : `; ${count(needed)} are needed, not ${count(total)}, as people of one site are alike`;
      return `${some} of ${count(total)} ${group} may ${failed(measure, direction)}${alike}.`;
    },
    /** How a criterion is judged, where that is not by the two-sided interval. */
    rule: (rule: "interval" | "one_sided" | "point", level: number) =>
      ({
        interval: null,
        one_sided: `Judged by one-sided ${signed(level)} limits.`,
        point: "Judged by the estimate alone: of kits that lie just at the criterion about half would pass.",
      })[rule],
    howToRead: (level: number, interval: string) =>
      `Hollow dot: what is expected of the kit. Bar: the results that would meet the criterion in a study of that size, judged by the two-sided ${signed(level)} ${interval} interval. Flag: the criterion. May fail: most failures with which it is still met. Power: probability that it is met if the kit is as expected. The number needed is the one from which on the power stays reached: fewer can have it too, and lose it with one person more.`,
    pointRule: "Where a criterion has a rule of its own, its own rule is planned with.",
  },
  people: {
    heading: "How many to enrol",
    lead: (
      fallsShort: readonly { readonly analyte: string; readonly chance: number; readonly worst: boolean }[],
    ) => {
      const list = fallsShort.map(
        ({ analyte, chance: short, worst }) =>
          `for ${analyte}${worst ? ", at the worse end of its range," : ""} in ${chance(short)} of studies`,
      );
      return list.length === 0
        ? "So many must be enrolled for enough people of each kind to be left with usable results."
        : `Enrolling just enough on average is not enough: ${listed(list)} that falls short.`;
    },
    caption: "People to enrol by analyte and by how sure one wants to be",
    columns: {
      analyte: "Analyte",
      prevalence: "Prevalence",
      mayLie: "may lie within",
      positives: "Positives needed",
      negatives: "Negatives needed",
      naive: "Enough on average",
      fallsShort: "… falls short in",
      sure: (assurance: number) => `${chance(assurance)} sure`,
      limiting: "Decided by",
      tested: "For those tested",
    },
    limiting: { positives: "positives", negatives: "negatives", both: "both alike" },
    together: (chance: string) =>
      ` With the number to enrol, the probability of enough for all analytes at once is at least ${chance}.`,
    note: (assurance: number) =>
      `Sure: probability that enough positives and enough negatives with usable results are among the people enrolled. The plan wants ${chance(assurance)}.`,
  },
  care: {
    heading: "What this plan assumes",
    expected: {
      label: "The kit is as good as expected",
      text: (list: string) =>
        `Every number hangs on this: ${list}. Nobody knows it yet; a kit a little worse needs far more people, or can't show it at all.`,
    },
    intervalOf: (level: number, interval: string) => `two-sided ${signed(level)} ${interval}`,
    worse: {
      label: "If it is worse",
      text: (most: string, measures: string) =>
        `A kit that lies just at its criterion (${measures}) is still passed with a probability of up to ${most}: that is the error accepted.`,
    },
    prevalence: {
      label: "How common it is",
      text: (list: string) => `${list}. Where fewer turn out to have it, enrolment must go on for longer.`,
      fixed: (analyte: string, value: string) => `${analyte} ${value}, taken as known`,
      counts: (analyte: string, positive: number, tested: number, mean: string, range: string | null) =>
        `${analyte} ${mean}${range === null ? "" : ` (${range})`}, from ${count(positive)} of ${count(tested)} people tested before`,
      uncertain: (analyte: string, mean: string, range: string | null) =>
        `${analyte} ${mean}${range === null ? "" : ` (${range})`}`,
      range: (analyte: string, low: string, high: string) =>
        `${analyte} anywhere from ${low} to ${high}, planned for the worse end`,
    },
    losses: {
      label: "Losses",
      text: (invalid: string, lost: string, unverified: string) =>
        `${invalid} without a valid result of the kit, ${lost} lost, ${unverified} without a reference result, each by chance alone. Losses that hit people with the condition more than others bias the study, whatever its size.`,
      none: "No invalid result, nobody lost, a reference result for all: rarely so. State what is likely.",
    },
    alike: {
      label: "People of one site are alike",
      text: (icc: string, by: string) =>
        `Intra-cluster correlation ${icc}, ${by}. It is a guess until data are in.`,
      none: "People count as independent: the plan states no intra-cluster correlation. With few sites more people may be needed.",
      clusters: (clusters: number) => counted(clusters, "site", "sites"),
      size: (size: string) => `${size} people of each kind at a site`,
    },
    together: {
      label: "Both analytes of one person",
      text: (correlation: string) =>
        `Being right on one goes with being right on the other with a correlation of ${correlation}.`,
    },
    judged: {
      label: "How it will be judged",
      text: (interval: string, control: string) =>
        `By the ${interval} interval fixed here; ${control}. Another interval or rule afterwards makes the plan void.`,
      control: {
        each: "each criterion by itself",
        all_must_pass: "the kit needs every primary criterion",
        holm: "any one primary criterion is enough, the error shared (Holm)",
        fixed_sequence: "the primary criteria in a fixed order",
      },
    },
  },
};
