import { type Note, note } from "../../../core/note.ts";
import { planningPairedDifference } from "../../../methods/planning/paired-difference.ts";
import { planningPairedNoninferiority } from "../../../methods/planning/paired-noninferiority.ts";
import { planningUnpairedDifference } from "../../../methods/planning/unpaired-difference.ts";
import { planningUnpairedNoninferiority } from "../../../methods/planning/unpaired-noninferiority.ts";
import type { PlanComparison } from "../../../records/plan/plan.ts";
import { notesUnder } from "../../notes.ts";
import type { ComparisonPlan } from "../document.ts";
import { groupOf, type PlanWorktop } from "../worktop.ts";
import { allowedFor } from "./clusters.ts";
import { enrolmentFor } from "./enrolment.ts";

/** How many people each comparison of two kits takes. */
export function comparisonsSection(worktop: PlanWorktop): ComparisonPlan[] {
  return worktop.plan.comparisons.map((comparison) => {
    const { id, analyte, measure, design, margin } = comparison;
    const start = {
      comparison: id,
      analyte,
      of: groupOf(measure),
      kind: margin === undefined ? ("difference" as const) : ("noninferiority" as const),
      design,
      ...NOT_ASKED,
    };
    return design === "paired"
      ? { ...start, ...paired(worktop, comparison) }
      : { ...start, ...unpaired(worktop, comparison) };
  });
}

const NOT_ASKED = {
  pairedDifference: null,
  pairedNoninferiority: null,
  unpairedDifference: null,
  unpairedNoninferiority: null,
};

type Answered = Pick<ComparisonPlan, "clustered" | "groups" | "needed" | "enrolment" | "notes"> &
  Partial<Pick<ComparisonPlan, keyof typeof NOT_ASKED>>;

function paired(worktop: PlanWorktop, comparison: PlanComparison): Answered {
  const { first, second, discordant, margin } = comparison;
  const { level } = worktop.plan.interval;
  const options = { level, power: comparison.power ?? worktop.plan.power };
  const kits = { first: first.expected, second: second.expected, discordant: discordant ?? null };
  const asked =
    margin === undefined
      ? { pairedDifference: worktop.ask(planningPairedDifference, kits, options) }
      : { pairedNoninferiority: worktop.ask(planningPairedNoninferiority, { ...kits, margin }, options) };
  const { values, notes } =
    asked.pairedDifference ?? (asked.pairedNoninferiority as NonNullable<typeof asked.pairedNoninferiority>);
  const allowed = allowedFor(worktop, values.exact.stays);
  return {
    ...asked,
    clustered: allowed.clustered === null ? [] : [allowed.clustered],
    groups: null,
    needed: allowed.needed,
    enrolment: null,
    notes: [...ofSize(notes), ...allowed.notes, ...alikeNote(allowed.clustered)],
  };
}

function unpaired(worktop: PlanWorktop, comparison: PlanComparison): Answered {
  const { first, second, margin } = comparison;
  const { level } = worktop.plan.interval;
  const options = { level, power: comparison.power ?? worktop.plan.power };
  const kits = { first: first.expected, second: second.expected };
  const asked =
    margin === undefined
      ? { unpairedDifference: worktop.ask(planningUnpairedDifference, kits, options) }
      : { unpairedNoninferiority: worktop.ask(planningUnpairedNoninferiority, { ...kits, margin }, options) };
  const { values, notes } =
    asked.unpairedDifference ??
    (asked.unpairedNoninferiority as NonNullable<typeof asked.unpairedNoninferiority>);
  const [one, other] = [values.exact.stays, values.exact.secondGroup].map((total) =>
    allowedFor(worktop, total),
  ) as [ReturnType<typeof allowedFor>, ReturnType<typeof allowedFor>];
  const groups =
    one.needed === null || other.needed === null ? null : { first: one.needed, second: other.needed };
  return {
    ...asked,
    clustered: [one.clustered, other.clustered].filter((found) => found !== null),
    groups,
    needed: groups === null ? null : groups.first + groups.second,
    enrolment: groups === null ? null : secondGroup(worktop, comparison, groups.second),
    notes: [...ofSize(notes), ...once([...one.notes, ...other.notes]), ...alikeNote(one.clustered)],
  };
}

/** The second group has a kit of its own: its people are enrolled besides. */
function secondGroup(worktop: PlanWorktop, { analyte, measure }: PlanComparison, people: number) {
  const needed =
    measure === "sensitivity" ? { positives: people, negatives: 0 } : { positives: 0, negatives: people };
  return enrolmentFor(worktop, analyte, needed);
}

/** What is said of the size, or of all exact answers at once. */
function ofSize(notes: readonly Note[]): Note[] {
  const whole = notes.filter(({ path }) => path === "exact" || path === "exact.stays");
  return notesUnder(whole, { "exact.stays": "needed", exact: "needed" });
}

function once(notes: readonly Note[]): Note[] {
  return notes.filter(({ code }, index) => notes.findIndex((other) => other.code === code) === index);
}

function alikeNote(clustered: ComparisonPlan["clustered"][number] | null): Note[] {
  if (clustered === null) return [];
  const message =
    "clusters are allowed for as for a single proportion; kits compared at the same sites may need fewer people";
  return [note("clusters_as_single", "needed", message)];
}
