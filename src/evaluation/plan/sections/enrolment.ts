import { type Note, note } from "../../../core/note.ts";
import { enrolmentChance, planningEnrolment } from "../../../methods/planning/enrolment.ts";
import { enrolledFor } from "../../../methods/planning/enrolment-size.ts";
import type { Plan } from "../../../records/plan/plan.ts";
import { notesUnder } from "../../notes.ts";
import type { EnrolmentPlan } from "../document.ts";
import { type PlanWorktop, usableShares } from "../worktop.ts";
import { MOST_ENROLLED } from "./effort.ts";
import { type Asking, needOf } from "./needs.ts";

/** Probabilities shown beside the plan's own. */
const SHOWN = [0.5, 0.8, 0.9, 0.95];
const CURVE_POINTS = 80;

/** How many people to enrol for each analyte, so that enough of each kind come with the plan's assurance. */
export function enrolmentSection(worktop: PlanWorktop, asking: Asking): EnrolmentPlan[] {
  return worktop.plan.analytes.map((analyte) => {
    const needed = {
      positives: needOf(asking, analyte.id, "positives").needed ?? 0,
      negatives: needOf(asking, analyte.id, "negatives").needed ?? 0,
      tested: needOf(asking, analyte.id, "tested").needed ?? 0,
    };
    const enrolment =
      needed.positives + needed.negatives === 0 ? null : enrolmentFor(worktop, analyte.id, needed);
    const { assurance } = worktop.plan.recruitment;
    const forTested = testedFor(worktop.plan, needed.tested);
    return {
      analyte: analyte.id,
      needed,
      enrolment,
      forTested,
      curve: enrolment === null ? [] : curveOf(enrolment, assurance),
      notes: enrolmentNotes(enrolment, assurance, needed.tested, forTested),
    };
  });
}

/** People to enrol for so many who are tested; `null` where none are needed, or too many would have to come. */
function testedFor(plan: Plan, needed: number): number | null {
  const { tested } = usableShares(plan);
  if (needed === 0 || needed > MOST_ENROLLED * tested) return null;
  return enrolledFor(needed, tested, plan.recruitment.assurance);
}

type Enrolment = NonNullable<EnrolmentPlan["enrolment"]>;

/** How many people to enrol so that so many of either kind come, by the analyte's prevalence and the losses. */
export function enrolmentFor(
  { plan, ask }: PlanWorktop,
  analyte: string,
  { positives, negatives }: { readonly positives: number; readonly negatives: number },
): Enrolment {
  const { prevalence } = plan.analytes.find(({ id }) => id === analyte) as Plan["analytes"][number];
  const { assurance, invalid, lost, unverified } = plan.recruitment;
  const assurances = [...new Set([...SHOWN, assurance])].sort((one, other) => one - other);
  const losses = { invalid, lost, unverified };
  const input = { positives, negatives, prevalence: prevalenceForm(prevalence), losses };
  return ask(planningEnrolment, input, { assurances });
}

function prevalenceForm(stated: Plan["analytes"][number]["prevalence"]): Enrolment["input"]["prevalence"] {
  const { value, positive, tested, a, b, low, high } = stated;
  if (value !== undefined) return { kind: "fixed", value };
  if (positive !== undefined && tested !== undefined) return { kind: "counts", positive, total: tested };
  if (a !== undefined && b !== undefined) return { kind: "beta", a, b };
  return { kind: "range", low: low as number, high: high as number };
}

/** What the plan's own assurance asks for. */
export function targetOf({ enrolment }: Pick<EnrolmentPlan, "enrolment">, assurance: number) {
  return enrolment?.values.targets.find((target) => target.assurance === assurance) ?? null;
}

/** Totals from far too few to more than the highest assurance asks for. */
function curveOf(enrolment: Enrolment, assurance: number): EnrolmentPlan["curve"] {
  const totals = enrolment.values.targets.flatMap(({ total }) => (total === null ? [] : [total]));
  const own = targetOf({ enrolment }, assurance)?.total ?? null;
  if (totals.length === 0) return [];
  const from = Math.floor(
    Math.min(...totals, enrolment.values.naive.total ?? Number.POSITIVE_INFINITY) * 0.8,
  );
  const to = Math.ceil(Math.max(...totals) * 1.05);
  const steps = Array.from({ length: CURVE_POINTS + 1 }, (_, step) =>
    Math.round(from + ((to - from) * step) / CURVE_POINTS),
  );
  const all = [...new Set([...steps, ...(own === null ? [] : [own])])].sort((one, other) => one - other);
  return all.map((total) => ({ total, chance: share(enrolmentChance(enrolment.input, total).both) }));
}

/** Sums of many small probabilities may end a rounding error beyond the ends. */
function share(probability: number): number {
  return Math.min(1, Math.max(0, probability));
}

function enrolmentNotes(
  enrolment: EnrolmentPlan["enrolment"],
  assurance: number,
  tested: number,
  forTested: number | null,
): Note[] {
  const notes: Note[] = [];
  if (tested > 0 && forTested === null) {
    const message =
      "more than 10,000,000 people would have to be enrolled for enough who are tested: lose fewer";
    notes.push(note("too_many", "forTested", message));
  }
  if (enrolment === null) {
    if (tested > 0) return notes;
    const message = "nothing that can be planned asks for people of this analyte";
    return [note("nothing_asked", "enrolment", message)];
  }
  const at = enrolment.values.targets.findIndex((target) => target.assurance === assurance);
  return [...notes, ...notesUnder(enrolment.notes, { [`targets.${at}.total`]: "enrolment" })];
}
