import { percentSigned, statedPercent, THIN } from "../../formats.ts";
import { counted } from "./plural.ts";
import type { Terms } from "./terms.ts";

export const accuracy = {
  leadAccuracy: "How often the kit is right, counted in people and held against the reference.",
  leadAgreement:
    "How far the kit and the comparison test agree, counted in people. The comparison test is not a reference standard.",
  leadMixed: "How the kit compares with the reference or the comparison test, counted in people.",
  crossCaption: (cell: string) => `All results before any treatment, ${cell}`,
  crossLead:
    "All people with their results as recorded, before invalid results and readings outside the window are treated.",
  crossColumns: { rapid: "Kit" },
  measuresCaption: (cell: string) => `Measures, ${cell}`,
  measuresLead: (level: number) =>
    `Each measure with its two-sided ${statedPercent(level)}${THIN}% interval; the Wilson interval beside the chosen one.`,
  columns: {
    measure: "Measure",
    counts: "Count / all",
    estimate: "%",
    interval: (method: string) => `${method} interval`,
    wilson: "Wilson interval",
    value: "Value",
    limits: "interval",
  },
  ratiosCaption: (cell: string) => `Ratios, ${cell}`,
  positiveLikelihoodRatio: "likelihood ratio of a reactive result",
  negativeLikelihoodRatio: "likelihood ratio of a non-reactive result",
  diagnosticOddsRatio: "diagnostic odds ratio",
  apparent: "reactive among all in the table",
  ppv: "positive predictive value in this sample",
  npv: "negative predictive value in this sample",
  ratiosHowToRead:
    "A likelihood ratio is how much more often a result comes from people who are positive than from those who are negative: it multiplies the odds. An interval without an upper limit means that the data set none.",
  region: (terms: Terms, level: number, sensitivity: string, specificity: string) =>
    `Both together: with ${statedPercent(level)}${THIN}% confidence ${terms.sensitivity} lies within ${sensitivity}${THIN}% and at the same time ${terms.specificity} within ${specificity}${THIN}%.`,
  noRegion: "A joint region is not estimable.",
  none: "The records give no fourfold table.",
  imperfect:
    "The reference is known to be imperfect. Its own errors shift these figures, most where the condition is rare; they are not corrected here.",
  imperfectCorrected: (section: string) =>
    `The reference is known to be imperfect. Its own errors shift these figures, most where the condition is rare; they are corrected in ${section}.`,
};

export const joint = {
  lead: (first: string, second: string, specimen: string) =>
    `${first} and ${second} read on the same devices, ${specimen}. Rows are the reference, columns the kit; a person is on the diagonal when both results are right.`,
  leadAgreement: (first: string, second: string, specimen: string) =>
    `${first} and ${second} read on the same devices, ${specimen}. Rows are the reference or comparison test, columns the kit; a person is on the diagonal when both results agree.`,
  tableCaption: (first: string, second: string) =>
    `People by both references and both kit results, ${first} and ${second}`,
  status: (first: string, second: string, code: string) =>
    `${first}${"\u00a0"}${code[0] === "+" ? "+" : "−"} ${second}${"\u00a0"}${code[1] === "+" ? "+" : "−"}`,
  reference: "Reference",
  kit: "Kit",
  bothCaption: "Whole results by joint reference status",
  bothLead: (right: string, agreement: boolean) =>
    `${agreement ? "Both results agree with the reference or comparison test" : "Both results are right"} for ${right}.`,
  columns: {
    status: "Status by the reference",
    counts: "Both right / all",
    countsAgreement: "Both agree / all",
    estimate: "%",
  },
  all: "All",
  crossHeading: "Cross-reaction",
  crossLead:
    "Does one analyte make the other's line appear? False results of one among people with and without the other.",
  crossLeadAgreement:
    "Does one analyte make the other's line appear? Results of the kit alone, among people positive and negative for the other.",
  crossCaption: "Reactive without the reference, by the other analyte",
  crossColumns: {
    analyte: "Line of",
    other: "Other analyte",
    present: "Other positive",
    absent: "Other negative",
    difference: "Difference, points",
    pValue: "p",
  },
  correlation: (positive: string, negative: string) =>
    `Correlation of the two lines' wrong results: ${positive} among people positive for both, ${negative} among people negative for both.`,
};

export const predictive = {
  lead: "What a result means depends on how common the condition is where the kit is used. These values combine the study's estimates with stated prevalences; they hold at the prevalence printed and nowhere else.",
  caption: (cell: string) => `Predictive values at the programmes' prevalences, ${cell}`,
  columns: {
    programme: "Programme",
    prevalence: "Prevalence %",
    ppv: "PPV %",
    npv: "NPV %",
    source: "Source of the prevalence",
  },
  unsourced: "not stated",
  targetCaption: (cell: string) => `Lowest prevalence at which the PPV reaches a target, ${cell}`,
  targetLead: "How common the condition must be before a reactive result can be trusted this far:",
  targetColumns: { target: "PPV target %", estimate: "By the estimate", lower: "By the lower limit" },
  prevalence: (text: string) => `${text}${THIN}%`,
  dataCaption: (cell: string) => `Predictive values over prevalence, ${cell}`,
  thousand: (programme: string, prevalence: string) =>
    `A thousand people in the programme “${programme}”, prevalence ${prevalence}${THIN}%:`,
  noProgrammes: "The study file states no programme prevalence; the curve shows a range.",
};

export const typed = {
  lead: "Readers also typed a result. Where it differs from their own lines the rule was misread; where two readers' lines differ the line was seen by one and not by the other. The two call for different remedies.",
  caption: "Typed results held against the reader's own lines and another reader's lines",
  columns: {
    analyte: "Analyte",
    reader: "Reader",
    typed: "Typed",
    agree: "As the lines",
    misread: "Misread the rule",
    saw: "Saw differently",
  },
  misreadCaption: "Typed results that are not what the lines give",
  misreadColumns: { derived: "The lines give", typed: "Typed", count: "Number" },
  none: "No results were typed beside the lines.",
  howToRead: "Counts of device results, not of people.",
};

export const general = {
  cell: (analyte: string, kit: string | null, specimen: string | null, reader: string | null) =>
    [analyte, kit, specimen, reader].filter((part) => part !== null).join(", "),
  reader: (reader: string) =>
    reader === "consensus"
      ? "consensus of readers"
      : reader === "recorded"
        ? "as recorded"
        : `reader ${reader}`,
  percent: (share: number) => percentSigned(share),
  span: (lower: string, upper: string) => `${lower} to ${upper}`,
  outOf: (part: string, all: string) => `${part} of ${all}`,
  devices: (value: number) => counted(value, "device", "devices"),
  readings: (value: number) => counted(value, "reading", "readings"),
  operators: (value: number) => counted(value, "operator", "operators"),
};
