import { type Note, note } from "../../../core/note.ts";
import { planningCriterionPower } from "../../../methods/planning/criterion-power.ts";
import { planningCriterionSize, powerCurve } from "../../../methods/planning/criterion-size.ts";
import { planningNoFailures } from "../../../methods/planning/no-failures.ts";
import type { CriterionOptions } from "../../../methods/proportion/criterion.ts";
import type { PlanCriterion } from "../../../records/plan/plan.ts";
import { demandOf } from "../../criteria.ts";
import { notesUnder } from "../../notes.ts";
import type { CriterionPlan } from "../document.ts";
import { criterionOptions, groupOf, type PlanWorktop } from "../worktop.ts";
import { allowedFor } from "./clusters.ts";

/** How far sizes are looked for. */
export const HORIZON = 100_000;
/** A curve has at most so many points; of a long one the part around the size is kept. */
const LONGEST_CURVE = 3000;

/**
 * Each criterion alone: how many people show it with its power, what that many can show, and how the power
 * goes up and down with the number.
 */
export function criteriaSection(worktop: PlanWorktop): CriterionPlan[] {
  return worktop.plan.criteria.map((criterion) => planned(worktop, criterion));
}

function planned(worktop: PlanWorktop, criterion: PlanCriterion): CriterionPlan {
  const { power, why, level } = worktop.powerOf(criterion);
  const { options, notes: ruleNotes } = criterionOptions(worktop.plan, criterion, level);
  const demand = { expected: criterion.expected, ...demandOf(criterion) };
  const size = worktop.ask(planningCriterionSize, demand, { ...options, power, horizon: HORIZON });
  const total = size.values.stays.total;
  const { clustered, needed, notes } = allowedFor(worktop, total);
  return {
    criterion: criterion.id,
    analyte: criterion.analyte,
    measure: criterion.measure,
    of: groupOf(criterion.measure),
    power,
    why,
    size,
    atSize: total === null ? null : worktop.ask(planningCriterionPower, { ...demand, total }, options),
    noFailures:
      demand.direction === "at_most"
        ? null
        : worktop.ask(planningNoFailures, { threshold: demand.threshold }, options),
    curve: curveAround(size.input, options, total),
    clustered,
    needed,
    notes: [
      ...ruleNotes.map((entry) => ({ ...entry, path: "size" })),
      ...notesUnder(size.notes, { stays: "needed" }),
      ...notes,
      ...powerNotes(worktop, criterion),
    ],
  };
}

/** Every total from one to half as many again as are needed. */
function curveAround(
  input: CriterionPlan["size"]["input"],
  options: CriterionOptions,
  total: number | null,
): CriterionPlan["curve"] {
  if (total === null) return [];
  const most = Math.max(20, Math.ceil(1.5 * total));
  if (most <= LONGEST_CURVE) return powerCurve(input, options, 1, most);
  const from = Math.max(1, total - LONGEST_CURVE / 2);
  return powerCurve(input, options, from, from + LONGEST_CURVE - 1);
}

function powerNotes({ plan, powerOf }: PlanWorktop, criterion: PlanCriterion): Note[] {
  const { power, why, level } = powerOf(criterion);
  if (why === "holm") {
    const message = `planned at a level of ${level.toFixed(4)}, that of the strictest step of Holm's procedure: it may turn out easier`;
    return [note("holm_level", "size", message)];
  }
  if (why !== "shared_independent" || criterion.power === undefined || criterion.power >= power) return [];
  const message = `a power of ${criterion.power} was stated; all primary criteria together have ${plan.power} only if each has more`;
  return [note("more_than_stated", "power", message)];
}
