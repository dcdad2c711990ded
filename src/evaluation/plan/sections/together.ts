import { type Note, note } from "../../../core/note.ts";
import { jointPower } from "../../../methods/planning/joint-power.ts";
import { jointSize } from "../../../methods/planning/joint-size.ts";
import { meanPrevalence } from "../../../records/plan/check-plan-together.ts";
import type { Plan, PlanCriterion } from "../../../records/plan/plan.ts";
import { demandOf } from "../../criteria.ts";
import type { CriterionPlan, PlanAnswer, TogetherPlan } from "../document.ts";
import { isBeyond, sharingCriteria } from "../powers.ts";
import { criterionOptions, type PlanWorktop } from "../worktop.ts";
import { HORIZON } from "./criteria.ts";

/** What joint_size takes at most. */
const MOST_CRITERIA = 8;

/**
 * All primary criteria together: the size of each where all must pass, and what the same people counting for two
 * analytes does. `null` where there are not two primary criteria that can be planned.
 */
export function togetherSection(
  worktop: PlanWorktop,
  planned: readonly CriterionPlan[],
): TogetherPlan | null {
  const primary = primaryOf(worktop.plan, planned);
  if (primary.length < 2) return null;
  const notes: Note[] = [];
  const size = sizeOf(worktop, notes);
  const pairs = pairsOf(worktop.plan, primary).map(({ measure, first, second }) =>
    pairPower(worktop, measure, first, second),
  );
  if (worktop.plan.together === undefined && pairs.length > 0) {
    const message = "the plan states no correlation between the analytes: taken as 0";
    notes.push(note("no_correlation", "pairs", message));
  }
  return { criteria: primary.map(({ criterion }) => criterion.id), size, pairs, notes };
}

/** A primary criterion that can be planned, with the number that shows it. */
interface Primary {
  readonly criterion: PlanCriterion;
  readonly total: number;
}

function primaryOf(plan: Plan, planned: readonly CriterionPlan[]): Primary[] {
  return plan.criteria.flatMap((criterion, at) => {
    const total = planned[at]?.size.values.stays.total ?? null;
    const counts = criterion.importance === "primary" && isBeyond(criterion) && total !== null;
    return counts ? [{ criterion, total }] : [];
  });
}

/** Sizes of all criteria together; only where all must pass, and all are judged by the same rule. */
function sizeOf({ plan, ask }: PlanWorktop, notes: Note[]): TogetherPlan["size"] {
  const criteria = sharingCriteria(plan);
  if (criteria.length < 2) return null;
  const rules = new Set(criteria.map(({ rule }) => rule));
  if (rules.size > 1 || criteria.length > MOST_CRITERIA) {
    const message =
      rules.size > 1
        ? "the primary criteria are judged by different rules: each is planned with its share of the power, and no table of all is given"
        : `there are more than ${MOST_CRITERIA} primary criteria: each is planned with its share of the power, and no table of all is given`;
    notes.push(note("no_joint_table", "size", message));
    return null;
  }
  const asked = criteria.map((criterion) => ({
    label: criterion.id,
    expected: criterion.expected,
    ...demandOf(criterion),
  }));
  const { options } = criterionOptions(plan, criteria[0] as PlanCriterion);
  return ask(jointSize, { criteria: asked }, { ...options, power: plan.power, horizon: HORIZON });
}

interface Pair {
  readonly measure: "sensitivity" | "specificity";
  readonly first: Primary;
  readonly second: Primary;
}

/** The same measure of two analytes: some of the people count for both. Judged alike, on the same people. */
function pairsOf(plan: Plan, primary: readonly Primary[]): Pair[] {
  if (plan.analytes.length < 2) return [];
  return (["sensitivity", "specificity"] as const).flatMap((measure) => {
    const alike = primary.filter(({ criterion }) => criterion.measure === measure);
    return alike.flatMap((first, at) =>
      alike
        .slice(at + 1)
        .filter(
          ({ criterion }) =>
            criterion.analyte !== first.criterion.analyte &&
            criterion.specimen === first.criterion.specimen &&
            criterion.rule === first.criterion.rule,
        )
        .map((second) => ({ measure, first, second })),
    );
  });
}

function pairPower(
  { plan, ask, powerOf }: PlanWorktop,
  measure: Pair["measure"],
  first: Primary,
  second: Primary,
): TogetherPlan["pairs"][number] {
  const criteria = [first, second].map(({ criterion, total }) => ({
    label: criterion.id,
    expected: criterion.expected,
    ...demandOf(criterion),
    total,
  }));
  const shared = sharedPeople(plan, measure, first, second);
  const correlation = plan.together?.correlation ?? 0;
  const { options } = criterionOptions(plan, first.criterion, powerOf(first.criterion).level);
  const power = ask(jointPower, { criteria, shared, correlation }, options);
  return { measure, first: first.criterion.id, second: second.criterion.id, shared, power };
}

/** People expected in both totals: the smaller of what either total brings with it. */
function sharedPeople(plan: Plan, measure: Pair["measure"], first: Primary, second: Primary): number {
  const prevalence = ({ criterion }: Primary) =>
    meanPrevalence(
      (plan.analytes.find(({ id }) => id === criterion.analyte) as Plan["analytes"][number]).prevalence,
    );
  const [one, other] = [prevalence(first), prevalence(second)];
  const bothPositive = plan.together?.both_positive ?? one * other;
  const both = measure === "sensitivity" ? bothPositive : 1 - one - other + bothPositive;
  const [ofFirst, ofSecond] = measure === "sensitivity" ? [one, other] : [1 - one, 1 - other];
  const expected = Math.min((first.total * both) / ofFirst, (second.total * both) / ofSecond);
  return Math.min(first.total, second.total, Math.max(0, Math.round(expected)));
}

/**
 * The probability that all primary criteria are met at the numbers needed: as pairs hang together, if all were
 * independent, and what it lies between whatever hangs together. `stated` is `null` where a criterion is in
 * several pairs: then the pairs alone don't say it.
 */
export function jointAnswer(
  together: TogetherPlan | null,
  planned: readonly CriterionPlan[],
): PlanAnswer["jointPower"] {
  if (together === null) return null;
  const powers = new Map(planned.map(({ criterion, size }) => [criterion, size.values.stays.power] as const));
  const each = together.criteria.map((criterion) => powers.get(criterion) ?? 0);
  const product = (list: readonly number[]) => list.reduce((all, one) => all * one, 1);
  const paired = together.pairs.flatMap(({ first, second }) => [first, second]);
  const disjoint = new Set(paired).size === paired.length;
  const stated = together.pairs.map(({ power }) => power.values.together.stated);
  const alone = together.criteria.filter((criterion) => !paired.includes(criterion));
  const known = disjoint && stated.every((one) => one !== null);
  return {
    stated: known
      ? product([...(stated as number[]), ...alone.map((criterion) => powers.get(criterion) ?? 0)])
      : null,
    independent: product(each),
    lowest: Math.max(0, 1 - each.reduce((missing, power) => missing + (1 - power), 0)),
    highest: Math.min(...each),
  };
}
