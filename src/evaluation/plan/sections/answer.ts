import { enrolmentChance } from "../../../methods/planning/enrolment.ts";
import type { Plan } from "../../../records/plan/plan.ts";
import type { ComparisonPlan, EnrolmentPlan, PlanAnswer } from "../document.ts";
import type { PlanWorktop } from "../worktop.ts";
import { targetOf } from "./enrolment.ts";
import { type Asking, needOf } from "./needs.ts";

type Whole = Omit<PlanAnswer, "jointPower" | "days" | "cost">;

/** How many people to enrol, who decides it, and what can't be planned. */
export function answerSection(
  { plan }: PlanWorktop,
  asking: Asking,
  enrolment: readonly EnrolmentPlan[],
): Whole {
  const { assurance } = plan.recruitment;
  const byAnalyte = plan.analytes.map(({ id }, at) => ({
    analyte: id,
    positives: needOf(asking, id, "positives"),
    negatives: needOf(asking, id, "negatives"),
    tested: needOf(asking, id, "tested"),
    enrol: enrolFor(enrolment[at] as EnrolmentPlan, assurance),
  }));
  const asked = byAnalyte.filter((_, at) => asksForPeople(enrolment[at] as EnrolmentPlan));
  const main = asked.length === 0 ? null : largest(asked.map((one) => one.enrol));
  const beside = besideOf(plan, asking.comparisons, assurance);
  const enrol = total([main, ...beside.map((one) => one.enrol)]);
  return {
    enrol,
    assurance,
    assuredTogether: main === null || enrol === null ? null : leastForAll(enrolment, main, beside, asking),
    beside,
    deciding: main === null ? null : decidingOf(byAnalyte, enrolment, main, assurance),
    byAnalyte,
    criteria: {
      planned: asking.criteria.filter(({ needed }) => needed !== null).length,
      out: asking.criteria.filter(({ needed }) => needed === null).map(({ criterion }) => criterion),
    },
    out: [
      ...asking.widths.filter(({ needed }) => needed === null).map(({ width }) => width),
      ...asking.comparisons.filter(({ needed }) => needed === null).map(({ comparison }) => comparison),
    ],
  };
}

const asksForPeople = ({ enrolment, needed }: EnrolmentPlan) => enrolment !== null || needed.tested > 0;

/** The largest, or `null` where one of them can't be had. */
function largest(numbers: readonly (number | null)[]): number | null {
  return numbers.reduce((most, one) => (most === null || one === null ? null : Math.max(most, one)), 0);
}

function total(numbers: readonly (number | null)[]): number | null {
  return numbers.reduce((sum, one) => (sum === null || one === null ? null : sum + one), 0);
}

/** The larger of what reference results and tests ask for; `null` where one of them can't be had. */
function enrolFor(planned: EnrolmentPlan, assurance: number): number | null {
  if (!asksForPeople(planned)) return null;
  const { enrolment, forTested, needed } = planned;
  if (enrolment === null || (needed.tested > 0 && forTested === null)) return forTested;
  const target = targetOf(planned, assurance)?.total ?? null;
  return target === null ? null : Math.max(target, forTested ?? 0);
}

/** People with the second kit of unpaired comparisons; comparisons with the same kit share its people. */
function besideOf(
  plan: Plan,
  comparisons: readonly ComparisonPlan[],
  assurance: number,
): PlanAnswer["beside"] {
  const streams = plan.comparisons.flatMap(({ id, second }, at) => {
    const enrolment = comparisons[at]?.enrolment ?? null;
    return enrolment === null
      ? []
      : [{ id, kit: second.title, enrol: targetOf({ enrolment }, assurance)?.total ?? null }];
  });
  return [...new Set(streams.map(({ kit }) => kit))].map((kit) => {
    const own = streams.filter((stream) => stream.kit === kit);
    return { kit, comparisons: own.map(({ id }) => id), enrol: largest(own.map(({ enrol }) => enrol)) };
  });
}

/** However things hang together, so many enrolled are at least so probably enough for everything at once. */
function leastForAll(
  enrolment: readonly EnrolmentPlan[],
  main: number,
  beside: PlanAnswer["beside"],
  { comparisons }: Asking,
): number {
  const chance = (asked: EnrolmentPlan["enrolment"], people: number) =>
    asked === null ? 1 : enrolmentChance(asked.input, people).both;
  const chances = [
    ...enrolment.map((planned) => chance(planned.enrolment, main)),
    ...beside.flatMap(({ comparisons: ids, enrol }) =>
      comparisons
        .filter(({ comparison }) => ids.includes(comparison))
        .map((planned) => chance(planned.enrolment, enrol ?? 0)),
    ),
  ];
  return Math.min(1, Math.max(0, 1 - chances.reduce((missing, one) => missing + (1 - one), 0)));
}

function decidingOf(
  byAnalyte: PlanAnswer["byAnalyte"],
  enrolment: readonly EnrolmentPlan[],
  main: number,
  assurance: number,
): PlanAnswer["deciding"] {
  const at = byAnalyte.findIndex((one) => one.enrol === main);
  const answer = byAnalyte[at] as PlanAnswer["byAnalyte"][number];
  const planned = enrolment[at] as EnrolmentPlan;
  const target = targetOf(planned, assurance);
  const byTests = (planned.forTested ?? 0) > (target?.total ?? 0);
  const of = byTests ? "tested" : target?.limiting === "negatives" ? "negatives" : "positives";
  const { because } = answer[of];
  return because === null ? null : { analyte: answer.analyte, of, because };
}
