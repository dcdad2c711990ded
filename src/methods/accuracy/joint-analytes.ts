import * as v from "valibot";
import { choice, count, estimate, level, proportionEstimate, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { differenceInterval } from "../proportion/difference-interval.ts";
import { intervalMethod } from "../proportion/intervals/fields.ts";
import { estimateProportion, type IntervalSettings } from "../proportion/proportion-interval.ts";
import { fisherProbabilities } from "../strata/fisher-probabilities.ts";

/** Joint status or result of two analytes, the first analyte's sign first. */
export const JOINT_STATUSES = ["++", "+-", "-+", "--"] as const;
export type JointStatus = (typeof JOINT_STATUSES)[number];

const Input = v.strictObject({
  table: v.pipe(
    v.array(
      v.pipe(
        v.array(count("people with this reference status and this result")),
        v.length(4, "expected four columns"),
      ),
    ),
    v.length(4, "expected four rows"),
    v.description(
      "people by joint reference status (rows ++, +-, -+, --; the first analyte's sign first) and joint test result (columns, same order)",
    ),
  ),
});
const Options = v.strictObject({ method: intervalMethod(), level: level() });
const Values = v.strictObject({
  bothRight: proportionEstimate("people whose results are right for both analytes"),
  byStatus: v.pipe(
    v.array(
      v.strictObject({
        status: choice(JOINT_STATUSES, "joint reference status"),
        bothRight: proportionEstimate("right for both analytes among people of this status"),
      }),
    ),
    v.description("four entries: ++, +-, -+, --"),
  ),
  crossReaction: v.pipe(
    v.array(
      v.strictObject({
        analyte: choice(["first", "second"], "whose false positives"),
        whenOtherPositive: proportionEstimate("false positives where the other analyte is truly present"),
        whenOtherNegative: proportionEstimate("false positives where the other analyte is truly absent"),
        difference: estimate("proportion", "present minus absent, hybrid score interval"),
        pValue: quantity("probability", "Fisher's exact two-sided p-value of the difference"),
      }),
    ),
    v.description("two entries: first analyte, second analyte"),
  ),
  errorCorrelation: v.pipe(
    v.strictObject({
      all: quantity("statistic", "phi of the two errors over all people"),
      bothPositive: quantity("statistic", "phi of the two errors where both analytes are present"),
      firstOnly: quantity("statistic", "phi of the two errors where only the first is present"),
      secondOnly: quantity("statistic", "phi of the two errors where only the second is present"),
      bothNegative: quantity("statistic", "phi of the two errors where both are absent"),
    }),
    v.description("do the errors of the two analytes come together: -1..1"),
  ),
});
export type JointAnalytesInput = v.InferOutput<typeof Input>;
export type JointAnalytesOptions = v.InferOutput<typeof Options>;
export type JointAnalytesValues = v.InferOutput<typeof Values>;

/**
 * Two analytes on one device: are both results right, does one analyte make the other falsely
 * positive, and do errors come together?
 *
 * @param table 4 x 4 people, rows reference status, columns result, in the order ++, +-, -+, --;
 *   devices that were invalid are left out
 * @returns proportions in 0..1, differences in -1..1; `null` with a note where a status has nobody or
 *   no errors
 */
export function jointAnalytesOf(
  { table }: JointAnalytesInput,
  options: JointAnalytesOptions,
): Finding<JointAnalytesValues> {
  const cell = (row: number, column: number) => table[row]?.[column] ?? 0;
  const people = JOINT_STATUSES.map((_, row) => [0, 1, 2, 3].reduce((sum, at) => sum + cell(row, at), 0));
  const right = JOINT_STATUSES.map((_, at) => cell(at, at));
  const byStatus = JOINT_STATUSES.map((status, row) => ({
    status,
    bothRight: estimateProportion(right[row] ?? 0, people[row] ?? 0, options),
  }));
  const errors = JOINT_STATUSES.map((_, row) => errorsOf(row, cell));
  const crossReaction = [
    crossReactionOf("first", cell, people, options),
    crossReactionOf("second", cell, people, options),
  ];
  const values: JointAnalytesValues = {
    bothRight: estimateProportion(sum(right), sum(people), options),
    byStatus,
    crossReaction,
    errorCorrelation: {
      all: phi(errors.reduce(add)),
      bothPositive: phi(errors[0]),
      firstOnly: phi(errors[1]),
      secondOnly: phi(errors[2]),
      bothNegative: phi(errors[3]),
    },
  };
  return { values, notes: notesOn(values) };
}

const sum = (numbers: readonly number[]) => numbers.reduce((total, next) => total + next, 0);

function crossReactionOf(
  analyte: "first" | "second",
  cell: (row: number, column: number) => number,
  people: readonly number[],
  options: IntervalSettings,
): JointAnalytesValues["crossReaction"][number] {
  // Rows where this analyte is absent and the other present, and columns where this one is reactive.
  const present = analyte === "first" ? 2 : 1;
  const reactive = analyte === "first" ? ([0, 1] as const) : ([0, 2] as const);
  const falsePositives = (row: number) => cell(row, reactive[0]) + cell(row, reactive[1]);
  const withOther = { count: falsePositives(present), total: people[present] ?? 0 };
  const without = { count: falsePositives(3), total: people[3] ?? 0 };
  const comparable = withOther.total > 0 && without.total > 0;
  return {
    analyte,
    whenOtherPositive: estimateProportion(withOther.count, withOther.total, options),
    whenOtherNegative: estimateProportion(without.count, without.total, options),
    difference: differenceInterval(withOther, without, "newcombe", options.level ?? 0.95),
    pValue: comparable ? fisherProbabilities(withOther, without).twoSided : null,
  };
}

/** People by error: of both analytes, of the first only, of the second only, of neither. */
type Errors = readonly [number, number, number, number];

function errorsOf(row: number, cell: (row: number, column: number) => number): Errors {
  // Rows and columns carry two signs as bits; the exclusive or of two of them marks what differs.
  return [cell(row, row ^ 3), cell(row, row ^ 2), cell(row, row ^ 1), cell(row, row)];
}

const add = (one: Errors, other: Errors): Errors => [
  one[0] + other[0],
  one[1] + other[1],
  one[2] + other[2],
  one[3] + other[3],
];

/** Correlation of two yes-or-no features; `null` where one of them does not vary. */
function phi(errors: Errors | undefined): number | null {
  if (errors === undefined) return null;
  const [both, first, second, neither] = errors;
  const spread =
    Math.sqrt(both + first) *
    Math.sqrt(second + neither) *
    Math.sqrt(both + second) *
    Math.sqrt(first + neither);
  return spread === 0 ? null : (both * neither - first * second) / spread;
}

function notesOn(values: JointAnalytesValues): Note[] {
  const notes: Note[] = [];
  if (values.bothRight.total === 0) {
    notes.push(note("no_observations", "bothRight", "nobody was observed"));
  }
  values.byStatus.forEach(({ status, bothRight }, index) => {
    if (bothRight.total > 0) return;
    notes.push(note("no_people", `byStatus.${index}`, `nobody had the reference status ${status}`));
  });
  values.crossReaction.forEach(({ whenOtherPositive, whenOtherNegative }, index) => {
    if (whenOtherPositive.total > 0 && whenOtherNegative.total > 0) return;
    const message = "nobody to compare: one of the two groups is empty";
    notes.push(note("no_people", `crossReaction.${index}`, message));
  });
  for (const [name, value] of Object.entries(values.errorCorrelation)) {
    if (value !== null) continue;
    const message = "one of the analytes has no errors here, or nothing else: no correlation";
    notes.push(note("no_variation", `errorCorrelation.${name}`, message));
  }
  return notes;
}

/** Row ++, +-, -+, -- of a made-up table. */
const TABLE = [
  [17, 1, 1, 0],
  [2, 88, 0, 3],
  [1, 1, 110, 6],
  [0, 4, 9, 1157],
];

export const jointAnalytes = defineMethod({
  id: "accuracy.joint_analytes",
  version: 1,
  title: "Two analytes on one device",
  question: "Is the whole device right, and does one analyte disturb the other?",
  formula:
    "both right = diagonal / people; false positives of one analyte compared between people with and without the other: difference with square-and-add of two score intervals, p by Fisher; phi = (n11 n00 - n10 n01) / sqrt(product of margins) of the two errors",
  caution:
    "cross-reaction rests on few people where a status is rare; a difference may also come from people, not from the device. Invalid devices are left out: count them beside",
  sources: ["newcombe1998difference", "fisher1935"],
  input: Input,
  options: Options,
  values: Values,
  run: jointAnalytesOf,
  examples: [
    {
      name: "1,400 people, made up",
      input: { table: TABLE },
      options: { method: "wilson" },
      expect: {
        "bothRight.count": 1372,
        "bothRight.lower": 0.97124620606978,
        "bothRight.upper": 0.986126858784022,
        "crossReaction.0.whenOtherPositive.count": 2,
        "crossReaction.0.difference.value": 0.0135303491235695,
        "crossReaction.0.difference.lower": 0.000132063171732071,
        "crossReaction.0.difference.upper": 0.0563296290595232,
        "crossReaction.0.pValue": 0.0977638724386685,
        "crossReaction.1.difference.lower": -0.00321847911322424,
        "crossReaction.1.pValue": 0.191478883043498,
        "errorCorrelation.all": 0.0633584188214771,
        "errorCorrelation.bothPositive": -0.0555555555555555,
        "errorCorrelation.firstOnly": -0.0270665980980383,
        "errorCorrelation.secondOnly": 0.244950786051187,
        "errorCorrelation.bothNegative": -0.00515686622315864,
      },
      tolerance: { relative: 1e-8 },
      source: "newcombe1998difference",
      recomputedBy: "R 4.2.2: fisher.test, cor of 0/1 errors, closed forms",
      memory: true,
    },
    {
      name: "difference 56/70 minus 48/80 as false positives of the first analyte",
      input: {
        table: [
          [0, 0, 0, 0],
          [0, 0, 0, 0],
          [56, 0, 14, 0],
          [0, 48, 0, 32],
        ],
      },
      expect: {
        "crossReaction.0.difference.value": 0.2,
        "crossReaction.0.difference.lower": 0.0524,
        "crossReaction.0.difference.upper": 0.3339,
        "crossReaction.1.pValue": null,
      },
      tolerance: { decimals: 4 },
      source: "newcombe1998difference",
      memory: true,
    },
  ],
});
