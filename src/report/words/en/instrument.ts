import { statedPercent, THIN } from "../../formats.ts";
import { listed, numberWord, people, sentence } from "./plural.ts";

type RuleFacts =
  | { readonly kind: "youden" }
  | { readonly kind: "specificity_at_least" | "sensitivity_at_least"; readonly least: number }
  | {
      readonly kind: "cost";
      readonly prevalence: number;
      readonly falsePositiveCost: number;
      readonly falseNegativeCost: number;
    };

/** A share of pairs in words: always below 100 unless it is. */
export interface AreaFacts {
  readonly value: string;
  readonly span: string | null;
  readonly direction: "higher" | "lower";
}

export const instrument = {
  lead: "Where an instrument gives a number, every number can be the cutoff. Here is what each would find and miss, what the instrument makes of the readings that people gave by eye, and when it read.",
  heading: (cell: string) => sentence(cell),
  area: ({ value, span, direction }: AreaFacts, positive: string) =>
    `Of two people, one ${positive} and one not, the instrument reads the first ${direction} in ${value}${span === null ? "" : ` (${span})`} of all pairs: the area under its curve.`,
  span: (from: string, to: string) => `${from} to ${to}`,
  flatter(facts: {
    readonly cutoff: string;
    /** How it was chosen, in words. */
    readonly rule: string;
    readonly sensitivity: string;
    readonly specificity: string;
    readonly expectedSensitivity: string;
    readonly expectedSpecificity: string;
    readonly names: { readonly sensitivity: string; readonly specificity: string };
  }) {
    const { names, cutoff } = facts;
    return `The cutoff of ${cutoff} was chosen on these very people (${facts.rule}), who show ${names.sensitivity} ${facts.sensitivity} and ${names.specificity} ${facts.specificity} there. In other people expect about ${facts.expectedSensitivity} and ${facts.expectedSpecificity}.`;
  },
  noArea: "The readings of these people give no curve.",
  cutoffsCaption: (cell: string) => `Cutoffs and readers by eye on the same people: ${cell}`,
  columns: { what: "Reactive is", cutoff: "Reading" },
  rows: {
    stated: (from: "kit" | "study") =>
      from === "kit" ? "at the kit's cutoff" : "at the study file's cutoff",
    chosen: "at the cutoff chosen here",
    expected: "the same, in other people",
    eye: (reader: string) => `by eye, ${reader}`,
  },
  rule(rule: RuleFacts): string {
    if (rule.kind === "youden") return "highest sum of both measures";
    if (rule.kind === "cost") {
      return `least harm, a miss ${Number((rule.falseNegativeCost / rule.falsePositiveCost).toPrecision(3))} times a false positive, at a prevalence of ${statedPercent(rule.prevalence)}${THIN}%`;
    }
    const measure = rule.kind === "specificity_at_least" ? "specificity" : "sensitivity";
    return `${measure} at least ${statedPercent(rule.least)}${THIN}%`;
  },
  atLeast: (cutoff: string, direction: "higher" | "lower") =>
    direction === "higher" ? `≥ ${cutoff}` : `≤ ${cutoff}`,
  cutoffsHow: (unit: string, chosen: boolean) =>
    `Readings in ${unit}.${chosen ? " Limits of the chosen cutoff's row are as of one fixed beforehand: too good. The row under it allows for the choosing." : ""}`,
  people: (facts: {
    readonly positives: number;
    readonly negatives: number;
    readonly setAside: readonly { readonly reason: string; readonly people: number }[];
  }) => {
    const aside = facts.setAside.map(({ reason, people: number }) => `${people(number)} (${reason})`);
    return `${people(facts.positives + facts.negatives)} with a reading and a status.${aside.length === 0 ? "" : ` Not among them: ${listed(aside)}.`}`;
  },
  curveCaption: (cell: string) => `Both measures over all cutoffs: ${cell}`,
  curveHow: (facts: {
    readonly marked: boolean;
    readonly half: readonly [string, string] | null;
    readonly level: string;
  }) =>
    [
      ...(facts.marked ? ["Both scales begin near what is marked, not at zero."] : []),
      ...(facts.half === null
        ? []
        : [
            `The whole line at once, all cutoffs together, lies within ${facts.half[0]} points upwards and ${facts.half[1]} sidewards (${facts.level}${THIN}%).`,
          ]),
    ].join(" "),
  curveColumns: { cutoff: "Reading" },
  curveNote: "Some of the cutoffs; limits hold for each alone. All are in the evaluation document.",
  truthCaption: (cell: string) => `Readings by truth: ${cell}`,
  truthColumns: {
    truth: "People",
    readings: "Readings",
    p05: "5 % below",
    p25: "Lower quartile",
    median: "Median",
    p75: "Upper quartile",
    p95: "95 % below",
  },
  minutesTitle: "When it read",
  minutesLead: "Lines go on developing: a reading taken late may stand on the other side of the cutoff.",
  minutesCaption: (cell: string) => `Readings by minute: ${cell}`,
  minutesHow: "Dot: median; thick bar: the middle half; number: people.",
  minuteColumns: { minutes: "Minutes" },
  minuteUnknown: (known: string, unknown: string) =>
    `The minute is known of ${known}, unknown of ${unknown}.`,
  eyesTitle: "The eye against the instrument",
  eyesCaption: (cell: string) => `The eye against the instrument on the same people: ${cell}`,
  eyesColumns: {
    reader: "Reader",
    people: "People",
    atSpecificity: (name: string) => `Instrument's ${name} at the eye's specificity, %`,
    atSensitivity: (name: string) => `Instrument's ${name} at the eye's sensitivity, %`,
    difference: "less the eye's, points",
    lines: "Area by line strength seen",
  },
  eyesHow:
    "Limits: people drawn anew with both their results. Line strength: absent, faint, clear, as the reader wrote it down, taken as a scale.",
  calibrationTitle: "Does the probability mean what it says?",
  calibrationLead(facts: {
    readonly observed: string;
    readonly predicted: string;
    readonly slope: string | null;
  }) {
    const slope =
      facts.slope === null
        ? ""
        : ` Slope of the log odds ${facts.slope}: 1 is right, below 1 the instrument is too sure of itself.`;
    return `On average the instrument gives ${facts.predicted}; ${facts.observed} have the condition.${slope}`;
  },
  calibrationCaption: (cell: string) => `Probability given and share with the condition: ${cell}`,
  calibrationColumns: {
    given: "Probability given, %",
    people: "People",
    mean: "Mean given, %",
    observed: "With the condition, %",
  },
  calibrationHow: "Dot: a group of people, the larger the more; bar: its exact interval.",
  scores: (brier: string, scaled: string) =>
    `Brier score ${brier}; against giving everybody the same share it is ${scaled} better.`,
  comparisonsHeading: "Two curves on the same people",
  comparisonsCaption: "Areas under two curves, compared",
  comparisonColumns: {
    what: "Analyte",
    first: "First",
    second: "Second",
    people: "People",
    difference: "First less second",
    p: "p",
  },
  side: (kit: string, reader: string) => `${kit}, ${reader}`,
  nobodyBoth: "measured by both: nobody",
  warnings: {
    label: "Cutoff",
    chosen(facts: {
      readonly number: number;
      readonly name: string;
      readonly measures: { readonly sensitivity: string; readonly specificity: string };
      readonly seen: string;
      readonly expected: string;
    }) {
      const { number, name, measures, seen, expected } = facts;
      const [subject, verb] =
        number === 1
          ? ["A cutoff of the instrument was", "it looks better than it is"]
          : [
              `${sentence(numberWord(number))} cutoffs of the instrument were`,
              "they look better than they are",
            ];
      return `${subject} chosen on these very people, where ${verb}: ${number === 1 ? "" : "most so "}for ${name}, ${measures.sensitivity} and ${measures.specificity} of ${seen}, in others to be expected ${expected}.`;
    },
    both: (sensitivity: string, specificity: string) => `${sensitivity} and ${specificity}`,
  },
};

export const detection = {
  lead: "Devices run at known concentrations tell how little of the analyte is still found. A panel made in the laboratory is no person: it says nothing of accuracy in the field.",
  found: (facts: {
    readonly chance: string;
    readonly concentration: string;
    readonly unit: string;
    readonly span: string | null;
  }) =>
    `${facts.chance} of devices are reactive at ${facts.concentration} ${facts.unit}${facts.span === null ? ", without limits on both sides" : ` (${facts.span})`}.`,
  none: (chance: string) => `No concentration can be given at which ${chance} of devices are reactive.`,
  seen: (facts: {
    readonly allFrom: string | null;
    readonly noneUpTo: string | null;
    readonly unit: string;
  }) =>
    [
      ...(facts.allFrom === null
        ? []
        : [`Every device was reactive from ${facts.allFrom} ${facts.unit} on.`]),
      ...(facts.noneUpTo === null ? [] : [`None was up to ${facts.noneUpTo} ${facts.unit}.`]),
    ].join(" "),
  lots: (facts: { readonly lowest: string; readonly highest: string; readonly unit: string }) =>
    `By lot it lies between ${facts.lowest} and ${facts.highest} ${facts.unit}.`,
  span: (from: string, to: string) => `${from} to ${to}`,
  caption: (panel: string) => `Concentrations found with a chance: ${panel}`,
  columns: {
    lot: "Lot",
    devices: "Devices",
    at: (chance: string) => `${chance} reactive at`,
    fit: "Fit, p",
    widened: "Widened",
  },
  allLots: "all together",
  lot: (lot: string) => `lot ${lot}`,
  how: (unit: string, widened: boolean) =>
    `Probit line over log concentration; concentrations in ${unit} with fiducial limits.${widened ? " Widened: rows scatter around the line more than chance does, and variances were multiplied by so much." : ""}`,
  times: (factor: string) => `× ${factor}`,
  chart: (panel: string) => `Share of devices reactive by concentration: ${panel}`,
  chartHow:
    "Dots: reactive / tested; diamond and thick bar: the concentration asked for, with its limits, at the height of the chance asked.",
  rowsCaption: (panel: string) => `Devices by concentration: ${panel}`,
  rowColumns: {
    concentration: "Concentration",
    reactive: "Reactive / tested",
    share: "%",
    probit: "Probit line, %",
    logit: "Logit line, %",
  },
  logit: (facts: { readonly concentration: string; readonly unit: string; readonly span: string | null }) =>
    `By a logit line instead: ${facts.concentration} ${facts.unit}${facts.span === null ? "" : ` (${facts.span})`}.`,
  blanks: (reactive: string, tested: string, share: string) =>
    `Blanks, without the analyte: ${reactive} of ${tested} reactive, ${share}.`,
  source: "Source",
  kit: "Kit",
  warnings: {
    label: "Detection limit",
    none: (titles: readonly string[]) =>
      `No concentration with limits can be given for ${listed(titles)}: the devices tested do not settle it.`,
  },
};
