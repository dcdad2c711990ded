import { count, statedPercent, THIN } from "../../formats.ts";
import { counted } from "./plural.ts";

const signed = (share: number) => `${statedPercent(share)}${THIN}%`;

/** Sections of a plan's page that speak of sizes: criteria, precision, enrolment, all together. */
export const criteria = {
  lead: "How many people show that the kit meets a criterion, if it is as good as expected. People are counted who are of that kind by the reference and have a usable result of both tests.",
  caption: "What each criterion asks for, at a glance",
  columns: {
    criterion: "Criterion",
    expected: "Expected",
    power: "Power wanted",
    flawless: "Least, if none fails",
    first: "First reached",
    stays: "For good",
    designEffect: "Design effect",
    needed: "Needed",
    importance: "Importance",
    source: "Source",
    enteredOn: "Entered on",
  },
  why: {
    own: "",
    shared_independent: "shared, if independent",
    shared_guaranteed: "shared, whatever the dependence",
    holm: "error shared (Holm)",
  },
  howToRead:
    "Least, if none fails: fewest people with whom a result without any failure meets the criterion. First reached: fewest people with the power wanted. For good: from so many on every larger number has it. Design effect: how many times more as people of one site are alike.",
  sourceCaption: "Where the criteria come from",
  chart: (criterion: string) => `power by number of people, ${criterion}`,
  first: (total: number, group: string, power: string) =>
    `A power of ${power} is first reached with ${count(total)} ${group}.`,
  same: "Every larger number has it too.",
  stays: (first: number, stays: number, allowed: number | null) =>
    `With some more people it is lost again: ${allowed === null || allowed === 0 ? "no failure" : counted(allowed, "failure", "failures")} may happen, and until one more is allowed each further person only adds a chance to fail. From ${count(stays)} on it stays reached, so ${count(stays)} are planned with, not ${count(first)}.`,
  fewest: (total: number) =>
    `With fewer than ${count(total)} not even a result without any failure would do.`,
  clustered: (effect: string, needed: number, clusters: number | null, size: string | null) =>
    `People of one site are alike${clusters === null ? "" : `: at ${count(clusters)} sites${size === null ? "" : ` with about ${size} each`}`} the design effect is ${effect}, and ${count(needed)} are needed.`,
  teethCaption: (criterion: string) => `Power tooth by tooth, ${criterion}`,
  teethColumns: {
    allowed: "May fail",
    people: "People",
    powerFrom: "Power at the first",
    powerTo: "Power at the last",
  },
  teethNote:
    "Along each line the same number may fail, and the power falls from the first number of people to the last.",
  teethCut:
    "Along each line the same number may fail, and the power falls from the first number of people to the last. Only lines near the number planned are shown; all are in the planning document.",
  endingsCaption: (criterion: string) => `How the study may end, ${criterion}`,
  endingsLead: (total: number, group: string, needed: string | null, ruledOut: string | null) =>
    `With ${count(total)} ${group} ${
      needed === null ? "no result meets the criterion" : `the criterion is met with ${needed} or more`
    }${ruledOut === null ? "" : `, and not met with ${ruledOut} or fewer`}; between, it stays undecided.`,
  right: (results: number) => `${count(results)} right`,
  valid: (results: number) => `${count(results)} valid`,
  against: (results: number) => `${count(results)} not counted by the measure`,
  endingsColumn: "If the truth is",
  ifExpected: (expected: number) => `${signed(expected)}, as expected`,
  ifThreshold: (threshold: number) => `${signed(threshold)}, just at the criterion`,
};

export const precision = {
  lead: "How many people make an interval as short as wanted, whatever the criteria.",
  caption: "People for intervals as short as wanted",
  columns: {
    title: "Wanted",
    expected: "Expected",
    halfWidth: "Points",
    onAverage: "Short enough on average",
    assured: "Short enough for sure",
    sure: (assurance: number) => `${signed(assurance)} of studies`,
    normal: "Textbook formula",
    needed: "Needed, clusters allowed for",
  },
  howToRead:
    "Points: half the length of the interval. On average is an even bet; the plan takes the number with which the interval is short enough in most studies. The textbook formula (normal interval) plans for too few where the share is near 0 or 100 %.",
  normalCaption: "The textbook's numbers beside it",
  normalLead:
    "The usual formula for accuracy studies, with intervals by the normal approximation: shown because reviewers ask for it, not planned with.",
  normalNote:
    "It leaves the number of people with the condition to chance: about every second study of that size ends with fewer than it plans for. Texts differ in whether the number with the condition is rounded up before it is divided by the prevalence: both are given.",
  normalColumns: {
    analyte: "Analyte",
    expected: "Expected sensitivity / specificity %",
    halfWidth: "Points",
    prevalence: "Prevalence",
    diseased: "With the condition",
    nondiseased: "Without it",
    enrolled: "Enrolled",
    rounded: "Enrolled, rounded first",
  },
};

export const enrolment = {
  lead: "Nobody knows beforehand who is positive. So many must be enrolled that enough positives and enough negatives with usable results come, with the probability wanted.",
  needed: (needed: number, group: string, because: string | null) =>
    `${count(needed)} ${group}${because === null ? "" : ` (for ${because})`}`,
  asks: (list: string) => `Needed: ${list}.`,
  usable: (share: string) => `Of those enrolled ${share} are left with a usable pair of results.`,
  naive: (total: number, short: string) =>
    `Just enough on average are ${count(total)}: with so many the study ends short with a probability of ${short}.`,
  forTested: (total: number) => `For enough people tested, ${count(total)} are enough.`,
  chart: (analyte: string) => `chance of enough people by number enrolled, ${analyte}`,
  caption: (analyte: string) => `People to enrol for ${analyte}, by how sure one wants to be`,
  columns: {
    assurance: "Sure",
    forPositives: "For the positives",
    forNegatives: "For the negatives",
    both: "For both",
    limiting: "Decided by",
  },
  curveCaption: (analyte: string) => `Chance of enough people by number enrolled, ${analyte}`,
  curveColumns: { enrolled: "Enrolled", chance: "Probability" },
};

export const together = {
  lead: (criteria: string, power: string) =>
    `${criteria} must all be met. Were each planned with a power of ${power}, all of them together would have less; so each gets more, until all together have it.`,
  leadOther: (criteria: string) =>
    `How probable it is that ${criteria} are all met at once, and how many people that would take. The decision of this plan does not ask for it.`,
  caption: "People needed so that all primary criteria are met together",
  columns: {
    criterion: "Criterion",
    independent: "If they hang together by chance alone",
    guaranteed: "However they hang together",
  },
  eachPower: (power: string) => `each with a power of ${power}`,
  note: (independent: string | null, guaranteed: string | null) =>
    [
      ...(independent === null ? [] : [`All together, if independent: ${independent}.`]),
      ...(guaranteed === null
        ? []
        : [`With the larger numbers, whatever the dependence: at least ${guaranteed}.`]),
    ].join(" "),
  pairsCaption: "Two criteria on the same people",
  pairsLead:
    "One person often counts for both analytes. If the kit is right on both, or wrong on both, more often than chance has it, the two criteria stand and fall together.",
  pairColumns: {
    pair: "Criteria",
    shared: "People in both",
    correlation: "Correlation",
    stated: "Both met",
    independent: "if independent",
    lowest: "at least",
    highest: "at most",
  },
  pairsNote:
    "Correlation: as the plan states it, and what the two expected shares allow. At least, at most: over every correlation that can be.",
};
