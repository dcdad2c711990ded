import { count, percentSigned } from "../../formats.ts";
import { numberWord, people, sentence } from "./plural.ts";

export const flow = {
  lead: (enrolled: number, analysed: number, cell: string) =>
    `Of ${people(enrolled)} enrolled, ${count(analysed)} are in the table of the primary analysis for ${cell}. Every person is accounted for.`,
  caption: (cell: string) => `Flow of people, ${cell}`,
  none: "The records hold no person, so there is no flow to draw.",
  rows: {
    enrolled: "Enrolled",
    before: (reason: string) => `Left before: ${reason}`,
    eligible: "Eligible",
    rapidNotDone: "Rapid test not done",
    tested: "Tested",
    firstInvalid: "of these, first device invalid",
    branch: (rapid: string) => sentence(rapid),
    reference: (status: string) => `of these, ${status}`,
    setAside: (reason: string) => `Not in the table: ${reason}`,
    analysed: "In the table",
    outside: "Read outside the window",
  },
  outside: (number: number, treatment: string) =>
    `${people(number)} had results read outside the reading window; in this analysis they are ${treatment}.`,
  columns: { step: "Step", people: "People" },
};

export const participants = {
  lead: (enrolled: number, sites: number) =>
    `${people(enrolled)} enrolled${sites > 0 ? ` at ${numberWord(sites)} ${sites === 1 ? "site" : "sites"}` : ""}. How people were found decides what the figures can be used for.`,
  siteCaption: "People and reference positives by site",
  selectionCaption: "People and reference positives by way of selection",
  columns: {
    site: "Site",
    selection: "Selection",
    people: "People",
    share: "% of people",
    positive: (analyte: string, positive: string) => `${analyte}, ${positive}`,
  },
  howToRead:
    "Positive among people with a positive or a negative result, as counts, % and interval; counts alone where people did not come consecutively or at random, for their share says nothing of any population.",
  arm: (id: string, title: string, selection: string) => `Arm ${id}: ${title} (${selection}).`,
  facts: (devices: string, readings: string, operators: string | null) =>
    `They gave ${devices} and ${readings}${operators === null ? "" : ` by ${operators}`}.`,
  repeats: (repeats: string) => `${repeats} were repeats after an invalid result.`,
  lineWithoutControl: (devices: string) =>
    `On ${devices} a test line was seen although the control line was absent; such results are invalid.`,
  resultDates: (first: string, last: string) => `The first rapid result is of ${first}, the last of ${last}.`,
  unknown: "not recorded",
};

export const queries = {
  lead: (total: number) =>
    total === 0
      ? "The checks of the tables found nothing to query."
      : `The checks found ${count(total)} ${total === 1 ? "thing" : "things"} to query. A fault in a row never stops the reading; what became of it is said here.`,
  caption: "Data queries by rule",
  columns: {
    severity: "Severity",
    found: "What was found, and how to mend it",
    file: "Table",
    rows: "Number",
    became: "Became",
    example: "First example",
  },
  example: (row: string, column: string | null, expected: string, received: string) =>
    `${column === null ? "" : `${column}: `}expected ${expected}, received ${received}${row === "" ? "" : ` (${row})`}`,
  row: (row: number) => `row ${count(row)}`,
  ledgerHeading: "Where each row went",
  ledgerLead:
    "Each row of each table is either used or set aside for one reason; the numbers add up to all rows.",
  ledgerCaption: "Ledger of rows by table",
  ledgerColumns: { file: "Table", rows: "Rows" },
  used: "Used",
  setAside: (reason: string) => `Set aside: ${reason}`,
  allRows: "All rows",
};

export const invalid = {
  lead: (cell: string, first: string, final: string) =>
    `${sentence(cell)}: ${first} had an invalid first result, ${final} none that was valid in the end. What an invalid result counts as is a choice; here are all of them side by side.`,
  ratesCaption: "Invalid results, first and final",
  columns: {
    analyte: "Analyte and specimen",
    first: "First device",
    final: "In the end",
    reasons: "Reasons in the end",
    treatment: "Invalid results",
  },
  reason: (reason: string, number: number) => `${reason} ${count(number)}`,
  treatmentsCaption: "Results under each treatment of invalid results",
  treatmentsLead: "The same people, with invalid results treated in four ways.",
  howToRead:
    "Counted as failures: an invalid result is wrong whatever the reference says, which gives the lowest figures these data allow.",
  flip: (criterion: string, verdict: string, other: string) =>
    `${sentence(criterion)} is ${verdict}. ${other}`,
  noFlip: "No verdict depends on this choice.",
  none: "The records hold no invalid results that could be told apart.",
};

export const subgroups = {
  lead: "Differences between groups, with the counts they rest on. Small groups give wide intervals; a group that looks worse may do so by chance. Groups not named before the data were seen are set in italics: they can raise a question, never answer one. Groups without anyone are left out.",
  caption: (measure: string, cell: string) => `${sentence(measure)} by group, ${cell}`,
  homogeneity: (parts: readonly string[]) => `one value for all groups? ${parts.join(", ")}`,
  chiSquare: (value: string, degrees: string, p: string) => `chi-square ${value}, ${degrees} df, p ${p}`,
  exact: (p: string) => `exact p ${p}`,
  trend: (p: string) => `trend p ${p}`,
  noTest: "no test possible",
  multiplicity: (tests: number) =>
    `${count(tests)} tests that all groups share one value are shown, none adjusted for their number. Were there no difference at all and the tests independent, at least one would still fall below 0.05 in about ${percentSigned(1 - Math.pow(0.95, tests), 0)} of such studies.`,
  overall: "All people",
  axis: (measure: string) => `${sentence(measure)} (%)`,
};
