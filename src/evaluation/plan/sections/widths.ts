import { planningPrecision } from "../../../methods/planning/precision.ts";
import { planningPrecisionNormal } from "../../../methods/planning/precision-normal.ts";
import { meanPrevalence } from "../../../records/plan/check-plan-together.ts";
import type { Plan } from "../../../records/plan/plan.ts";
import { notesUnder } from "../../notes.ts";
import type { NormalSize, WidthPlan } from "../document.ts";
import { groupOf, type PlanWorktop } from "../worktop.ts";
import { allowedFor } from "./clusters.ts";
import { HORIZON } from "./criteria.ts";

/** How many people make each interval as short as asked for, with its assurance. */
export function widthsSection(worktop: PlanWorktop): WidthPlan[] {
  return worktop.plan.widths.map(({ id, analyte, measure, expected, half_width, assurance }) => {
    const horizon = horizonFor(expected, half_width);
    const options = { ...worktop.plan.interval, assurance, horizon };
    const size = worktop.ask(planningPrecision, { expected, halfWidth: half_width }, options);
    const { clustered, needed, notes } = allowedFor(worktop, size.values.assured.stays);
    return {
      width: id,
      analyte,
      of: groupOf(measure),
      size,
      clustered,
      needed,
      notes: [...notesUnder(size.notes, { "assured.stays": "needed" }), ...notes],
    };
  });
}

/** How far to look: ten times what the textbook formula gives at a level of 95 %, and 2,000 at least. */
function horizonFor(expected: number, halfWidth: number): number {
  const textbook = (4 * expected * (1 - expected)) / (halfWidth * halfWidth);
  return Math.min(HORIZON, Math.max(2000, Math.ceil(10 * textbook)));
}

/**
 * The textbook formula beside the exact sizes, for each analyte of which both measures are expected something:
 * with the half-width asked for, else with the distance between the sensitivity expected and that demanded.
 */
export function normalSizesSection(worktop: PlanWorktop): NormalSize[] {
  const { plan } = worktop;
  return plan.analytes.flatMap(({ id, prevalence }) => {
    const sensitivity = expectedOf(plan, id, "sensitivity");
    const specificity = expectedOf(plan, id, "specificity");
    const halfWidth = halfWidthOf(plan, id);
    if (sensitivity === null || specificity === null || halfWidth === null) return [];
    const input = { sensitivity, specificity, halfWidth, prevalence: meanPrevalence(prevalence) };
    return [
      { analyte: id, size: worktop.ask(planningPrecisionNormal, input, { level: plan.interval.level }) },
    ];
  });
}

type Measured = "sensitivity" | "specificity";

/** What is expected of a measure: as a width says, else as a criterion. */
function expectedOf({ widths, criteria }: Plan, analyte: string, measure: Measured): number | null {
  const found = [...widths, ...criteria].find((one) => one.analyte === analyte && one.measure === measure);
  return found?.expected ?? null;
}

function halfWidthOf({ widths, criteria }: Plan, analyte: string): number | null {
  const width = widths.find((one) => one.analyte === analyte);
  if (width !== undefined) return width.half_width;
  const criterion = criteria.find((one) => one.analyte === analyte && one.measure === "sensitivity");
  if (criterion?.at_least === undefined || criterion.expected <= criterion.at_least) return null;
  return criterion.expected - criterion.at_least;
}
