import type { Accuracy, Flow, Invalid, Joint } from "../../../src/evaluation/document.ts";
import { type CellCounts, sum } from "./cells.ts";
import { exact, logRatio, wilson } from "./intervals.ts";

/** Parts of the document that follow from one cell's counts by arithmetic. */
const BEFORE = [
  { reason: "not_eligible", people: 9 },
  { reason: "no_consent", people: 6 },
  { reason: "second_enrolment", people: 52 },
];

function fourfold({ table }: CellCounts): Accuracy["counts"] {
  return {
    truePositives: table.reactive.positive,
    falsePositives: table.reactive.negative,
    falseNegatives: table.nonreactive.positive,
    trueNegatives: table.nonreactive.negative,
  };
}

export function accuracyOf(cell: CellCounts): Accuracy {
  const counts = fourfold(cell);
  const { truePositives: tp, falsePositives: fp, falseNegatives: fn, trueNegatives: tn } = counts;
  const [positives, negatives, all] = [tp + fn, fp + tn, tp + fn + fp + tn];
  const sensitivity = exact(tp, positives);
  const specificity = exact(tn, negatives);
  const [se, sp] = [tp / positives, tn / negatives];
  const variancePlus = 1 / tp - 1 / positives + 1 / fp - 1 / negatives;
  const varianceMinus = 1 / fn - 1 / positives + 1 / tn - 1 / negatives;
  const half = 1.959963984540054 * Math.sqrt((se * (1 - se)) / positives + (sp * (1 - sp)) / negatives);
  return {
    analyte: cell.analyte,
    kit: cell.kit,
    specimen: cell.specimen,
    reader: cell.reader,
    crossTabulation: cell.table,
    counts,
    sensitivity,
    specificity,
    wilson: { sensitivity: wilson(tp, positives), specificity: wilson(tn, negatives) },
    positiveLikelihoodRatio: logRatio(se / (1 - sp), variancePlus),
    negativeLikelihoodRatio: logRatio((1 - se) / sp, varianceMinus),
    diagnosticOddsRatio: logRatio((tp * tn) / (fp * fn), 1 / tp + 1 / fp + 1 / fn + 1 / tn),
    youden: { value: se + sp - 1, lower: se + sp - 1 - half, upper: se + sp - 1 + half },
    overallAccuracy: exact(tp + tn, all),
    apparentPrevalence: exact(tp + fp, all),
    referencePrevalence: exact(positives, all),
    jointRegion: {
      level: 0.95,
      sensitivity: { lower: (sensitivity.lower ?? 0) - 0.006, upper: 0.999 },
      specificity: { lower: (specificity.lower ?? 0) - 0.001, upper: 0.9985 },
    },
    ownPredictiveValues: null,
    refused: "enriched_sample",
    notes: [],
  };
}

export function flowOf(cell: CellCounts): Flow {
  const { table } = cell;
  const counts = fourfold(cell);
  const tested = sum(table.reactive) + sum(table.nonreactive) + sum(table.invalid);
  const rapidNotDone = sum(table.not_done);
  const before = BEFORE;
  const eligible = tested + rapidNotDone;
  const rows = [table.reactive, table.nonreactive, table.invalid];
  const total = (status: "indeterminate" | "not_done") => rows.reduce((all, row) => all + row[status], 0);
  const setAside = [
    { reason: "rapid_not_done", people: rapidNotDone },
    { reason: "reference_not_done", people: total("not_done") },
    { reason: "reference_indeterminate", people: total("indeterminate") },
    { reason: "invalid", people: table.invalid.positive + table.invalid.negative },
  ].filter(({ people }) => people > 0);
  return {
    analyte: cell.analyte,
    kit: cell.kit,
    specimen: cell.specimen,
    reader: cell.reader,
    enrolled: eligible + before.reduce((total, { people }) => total + people, 0),
    before,
    eligible,
    rapidNotDone,
    tested,
    firstInvalid: cell.firstInvalid,
    branches: (["reactive", "nonreactive", "invalid"] as const).map((rapid) => ({
      rapid,
      people: sum(table[rapid]),
      reference: table[rapid],
    })),
    outsideWindow: { people: 233, treatment: "keep" },
    analysed: Object.values(counts).reduce((total, people) => total + people, 0),
    setAside,
  };
}

const TREATMENTS = ["set_aside", "failure", "reactive", "nonreactive"] as const;

/** Right and all under one treatment of invalid results. */
export function treated(cell: CellCounts, treatment: (typeof TREATMENTS)[number]) {
  const { truePositives: tp, falsePositives: fp, falseNegatives: fn, trueNegatives: tn } = fourfold(cell);
  const { positive, negative } = cell.table.invalid;
  const counted = treatment === "set_aside" ? 0 : 1;
  const found = treatment === "reactive" ? positive : 0;
  const cleared = treatment === "nonreactive" ? negative : 0;
  return {
    sensitivity: exact(tp + found, tp + fn + counted * positive),
    specificity: exact(tn + cleared, fp + tn + counted * negative),
  };
}

export function invalidOf(cell: CellCounts): Invalid {
  const flow = flowOf(cell);
  const final = sum(cell.table.invalid);
  return {
    analyte: cell.analyte,
    kit: cell.kit,
    specimen: cell.specimen,
    reader: cell.reader,
    firstAttempt: exact(cell.firstInvalid, flow.tested),
    final: exact(final, flow.tested),
    reasons: [
      { reason: "control_absent", people: final - 3 },
      { reason: "unreadable", people: 3 },
    ],
    treatments: TREATMENTS.map((treatment) => ({ treatment, ...treated(cell, treatment) })),
    notes: [],
  };
}

export function jointOf(specimen: string, table: number[][]): Joint {
  const at = (row: number, column: number) => table[row]?.[column] ?? 0;
  const total = (row: number) => (table[row] ?? []).reduce((all, people) => all + people, 0);
  const diagonal = [0, 1, 2, 3].map((place) => at(place, place));
  const all = [0, 1, 2, 3].reduce((people, row) => people + total(row), 0);
  const statuses = ["++", "+-", "-+", "--"] as const;
  const whenOtherPositive = exact(at(1, 0) + at(1, 2), total(1));
  const whenOtherNegative = exact(at(3, 0) + at(3, 2), total(3));
  const difference = (whenOtherPositive.value ?? 0) - (whenOtherNegative.value ?? 0);
  return {
    analytes: ["hbsag", "hcv"],
    kit: "kit-q",
    specimen,
    reader: "R1",
    table,
    bothRight: exact(
      diagonal.reduce((right, people) => right + people, 0),
      all,
    ),
    byStatus: statuses.map((status, row) => ({ status, bothRight: exact(at(row, row), total(row)) })),
    crossReaction: [
      {
        analyte: "hcv",
        other: "hbsag",
        whenOtherPositive,
        whenOtherNegative,
        difference: { value: difference, lower: difference - 0.008, upper: difference + 0.052 },
        pValue: 0.46,
      },
      {
        analyte: "hbsag",
        other: "hcv",
        whenOtherPositive: exact(at(2, 0) + at(2, 1), total(2)),
        whenOtherNegative: exact(at(3, 0) + at(3, 1), total(3)),
        difference: { value: 0.0035, lower: -0.0049, upper: 0.0404 },
        pValue: 0.47,
      },
    ],
    errorCorrelation: { bothPositive: null, bothNegative: -0.0057 },
    notes: [
      {
        code: "no_errors",
        path: "errorCorrelation.bothPositive",
        message: "no wrong result among people positive for both, so the correlation has no value",
      },
    ],
  };
}
