import { count, countOf } from "../../formats.ts";
import { counted } from "./plural.ts";

export interface PairFacts {
  readonly first: string;
  readonly second: string;
  readonly same: number;
  readonly total: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
}

/** Said of devices, never of people: a repeated device counts by itself. */
export const readers = {
  lead: "Two readers looked at the same devices. This part says how often they called them the same, and where they did not. Counts are devices, not people.",
  neverAccuracy:
    "Neither reader is the truth. When two agree both may be wrong, so this is agreement and is never called sensitivity or specificity: those need a reference.",
  glanceCaption: "All pairs of readers at a glance",
  glanceColumns: {
    readers: "Readers",
    both: "Both reactive",
    firstOnly: "First only",
    secondOnly: "Second only",
    neither: "Both non-reactive",
    overall: "Same result %",
    kappa: "Kappa",
  },
  glanceHowToRead:
    "Kappa alone misleads where one result is rare: the four counts say more. The first pair of each analyte stands below in full.",
  pair: (first: string, second: string) => `${first} and ${second}`,
  pairShort: (first: string, second: string) => `${first} and ${second}`,
  how: { eye: "by eye", optical: "by instrument", instrument: "by instrument", recorded: "as recorded" },
  readerHow: (reader: string, how: string) => `${reader}, ${how}`,
  plain({ first, second, same, total, firstOnly, secondOnly }: PairFacts): string {
    if (total === 0) return "No device has a valid result of both readers.";
    const wrong = total - same;
    if (wrong === 0) return `They gave the same result for all ${counted(total, "device", "devices")}.`;
    const whose =
      firstOnly === secondOnly
        ? "as many one way as the other"
        : firstOnly > secondOnly
          ? `${count(firstOnly)} reactive to ${first} only, ${count(secondOnly)} to ${second} only`
          : `${count(secondOnly)} reactive to ${second} only, ${count(firstOnly)} to ${first} only`;
    return `They gave the same result for ${countOf(same, total)} devices and differed on ${count(wrong)}: ${whose}.`;
  },
  invalid: (both: number, firstOnly: number, secondOnly: number, first: string, second: string) =>
    both + firstOnly + secondOnly === 0
      ? null
      : `Not in the table because invalid: ${count(both)} to both, ${count(firstOnly)} to ${first} only, ${count(secondOnly)} to ${second} only.`,
  unpaired: (devices: number) =>
    devices === 0 ? null : `${counted(devices, "device was", "devices were")} read by one of the two only.`,
  tableCaption: (pair: string, cell: string) => `Devices by the results of ${pair}, ${cell}`,
  measuresCaption: (pair: string, cell: string) => `Agreement of ${pair}, ${cell}`,
  coefficientsCaption: (pair: string, cell: string) => `Agreement beyond chance of ${pair}, ${cell}`,
  all: "All",
  results: { reactive: "reactive", nonreactive: "non-reactive" },
  cells: {
    bothReactive: "both reactive",
    firstOnly: (first: string) => `${first} only`,
    secondOnly: (second: string) => `${second} only`,
    bothNonreactive: "both non-reactive",
  },
  columns: {
    measure: "Measure",
    counts: "Same / all",
    value: "%",
    coefficient: "Value",
    beyondChance: "Beyond chance",
  },
  rows: {
    overall: "Overall agreement",
    positivePercent: (second: string) => `Of those reactive to ${second}`,
    negativePercent: (second: string) => `Of those non-reactive to ${second}`,
    positive: "Positive agreement",
    positiveNote: "on reactive results, neither reader first",
    negative: "Negative agreement",
    negativeNote: "on non-reactive results",
    kappa: "Kappa (Cohen)",
    kappaNote: "agreement beyond chance",
    weighted: "Weighted kappa",
    weightedNote: "of the line: absent, faint or clear; linear weights",
    pabak: "PABAK",
    pabakNote: "kappa if both results were equally common",
    ac1: "AC1 (Gwet)",
    ac1Note: "chance agreement taken as lower",
  },
  strength: {
    caption: (pair: string, cell: string) => `The line as ${pair} saw it, ${cell}`,
    lead: "The same devices by how strongly each saw the test line; off the diagonal they differ.",
    levels: ["absent", "faint", "clear"],
    all: "All",
  },
  coefficients: (alpha: string, prevalence: string, bias: string) =>
    `Krippendorff's alpha ${alpha}; prevalence index ${prevalence}, bias index ${bias} (0: balanced).`,
  paradox: {
    prevalence: (overall: string, kappa: string, pabak: string) =>
      `Why is kappa ${kappa} although they agree on ${overall}? Nearly all devices have the same result, so agreement by chance is already high and little is left to be beyond it. Kappa falls with rarity, not with the readers' care: with both results equally common it would be ${pabak}. Judge by positive and negative agreement.`,
    bias: (overall: string, kappa: string, pabak: string) =>
      `Kappa is ${kappa} with ${overall} agreement, and flattered: one reader calls many more devices reactive than the other, which lowers the agreement expected by chance. Balanced in both ways it would be ${pabak}. Judge by positive and negative agreement.`,
    both: (overall: string, kappa: string, pabak: string) =>
      `Kappa is ${kappa} with ${overall} agreement and can't be read by itself: one result is much rarer than the other, which lowers it, and one reader calls many more devices reactive, which raises it. Balanced in both ways it would be ${pabak}. Judge by positive and negative agreement.`,
  },
  whereCaption: (pair: string, cell: string) => `Where ${pair} disagree, ${cell}`,
  whereAxis: "Devices on which they differ (%)",
  whereCounts: "Differ / all",
  by: {
    line: (first: string) => `Line, as ${first} saw it`,
    window: (first: string) => `Time of reading, ${first}`,
    lot: () => "Lot",
    operator: () => "Operator",
    site: () => "Site",
  },
  lines: { clear: "clear line", faint: "faint line", absent: "no line" },
  overall: "All devices",
  faint: (share: string, rest: string, all: string) =>
    `Of the devices with a faint line ${share} were read differently, of the others ${rest}; ${all} of the disagreements are on faint lines.`,
  details: (pair: string, cell: string) => `${pair}, ${cell}`,
  manyHeading: "All eye readers together",
  manyLead:
    "Agreement among all eye readers at once, for devices that two or more of them read. Intervals by resampling devices.",
  manyCaption: "Agreement among all eye readers",
  manyColumns: {
    cell: "Analyte and specimen",
    readers: "Readers",
    devices: "Devices",
    kappa: "Kappa (Fleiss)",
    ac1: "AC1 (Gwet)",
    alpha: "Alpha (Krippendorff)",
  },
};
