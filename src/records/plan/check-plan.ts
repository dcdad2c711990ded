import type { IssueLog } from "../issues.ts";
import { named } from "../named.ts";
import { type Fault, fieldPlace, type YamlFile } from "../yaml-file.ts";
import { checkPlannedComparisons } from "./check-plan-comparisons.ts";
import { checkTogether } from "./check-plan-together.ts";
import type { Plan } from "./plan.ts";

/**
 * Faults between the fields of a plan: names that nothing defines, names given twice, and values that
 * contradict each other. What can be asked and can't be reached is no fault: the planning says so.
 */
export function checkPlan(file: string, read: YamlFile<Plan>, issues: IssueLog): void {
  const plan = read.value;
  const faultOf =
    (rule: "unknown_name" | "wrong_field"): Fault =>
    (path, expected, received) =>
      issues.add(rule, fieldPlace(file, path, read.lineOf), expected, received, "value_ignored");
  const unknown = faultOf("unknown_name");
  const wrong = faultOf("wrong_field");
  checkUnique(plan, unknown);
  checkCriteria(plan, unknown);
  plan.widths.forEach(({ analyte }, index) => {
    named(["widths", index, "analyte"], analyte, analytesOf(plan), "an analyte of this file", unknown);
  });
  checkPlannedComparisons(plan, unknown, wrong);
  checkStopping(plan, unknown, wrong);
  checkWhatIf(plan, unknown, wrong);
  checkDecision(plan, unknown);
  checkTogether(plan, wrong);
}

const analytesOf = (plan: Plan) => plan.analytes.map((analyte) => analyte.id);

/** Criteria, widths and comparisons share their names: the answer calls each by its id alone. */
function checkUnique(plan: Plan, fault: Fault): void {
  const ids = (list: readonly { readonly id: string }[]) => list.map(({ id }) => id);
  const lists: readonly (readonly [path: readonly (string | number)[], key: string, names: string[]])[] = [
    [["analytes"], "id", ids(plan.analytes)],
    [["specimens"], "type", plan.specimens.map(({ type }) => type)],
    [["agreement"], "id", ids(plan.agreement)],
    [["stopping"], "id", ids(plan.stopping)],
    [["what_if"], "criterion", plan.what_if.map(({ criterion }) => criterion)],
    [["recruitment", "sites"], "id", ids(plan.recruitment.sites)],
  ];
  for (const [path, key, names] of lists) {
    names.forEach((name, index) => {
      if (names.indexOf(name) < index) fault([...path, index, key], "each name once", name);
    });
  }
  const seen = new Set<string>();
  for (const field of ["criteria", "widths", "comparisons"] as const) {
    plan[field].forEach(({ id }, index) => {
      const expected = "each name once among criteria, widths and comparisons";
      if (seen.has(id)) fault([field, index, "id"], expected, id);
      seen.add(id);
    });
  }
}

function checkCriteria(plan: Plan, fault: Fault): void {
  const specimens = plan.specimens.map((specimen) => specimen.type);
  plan.criteria.forEach((criterion, index) => {
    const path = ["criteria", index];
    named([...path, "analyte"], criterion.analyte, analytesOf(plan), "an analyte of this file", fault);
    if (criterion.specimen !== undefined) {
      named([...path, "specimen"], criterion.specimen, specimens, "a specimen type of this file", fault);
    }
    if (criterion.kit !== undefined && plan.kit === undefined) {
      fault([...path, "kit"], "no kit: this plan names no kit file", criterion.kit);
    }
  });
}

/** A rule for stopping holds the kit expected against one that must fail: that one must be the worse. */
function checkStopping(plan: Plan, unknown: Fault, wrong: Fault): void {
  const ids = plan.criteria.map((criterion) => criterion.id);
  plan.stopping.forEach((rule, index) => {
    const path = ["stopping", index];
    named([...path, "criterion"], rule.criterion, ids, "a criterion of this file", unknown);
    const criterion = plan.criteria.find(({ id }) => id === rule.criterion);
    if (criterion === undefined) return;
    if (criterion.at_least === undefined) {
      wrong([...path, "criterion"], "a criterion that demands at_least", rule.criterion);
    } else if (rule.unacceptable >= criterion.expected) {
      const expected = `less than what is expected of the kit, ${criterion.expected}`;
      wrong([...path, "unacceptable"], expected, rule.unacceptable);
    }
  });
}

function checkWhatIf(plan: Plan, unknown: Fault, wrong: Fault): void {
  const ids = plan.criteria.map((criterion) => criterion.id);
  plan.what_if.forEach(({ criterion: name, prevalences }, index) => {
    named(["what_if", index, "criterion"], name, ids, "a criterion of this file", unknown);
    const measure = plan.criteria.find(({ id }) => id === name)?.measure;
    if (measure !== "invalid_rate" || prevalences === undefined || prevalences.length === 0) return;
    const expected = "no prevalences: invalid results are counted among everybody tested";
    wrong(["what_if", index, "prevalences"], expected, prevalences);
  });
}

/** The order of judging names each criterion once at most. */
function checkDecision(plan: Plan, fault: Fault): void {
  const criteria = plan.criteria.map((criterion) => criterion.id);
  const order = plan.decision.order ?? [];
  order.forEach((name, index) => {
    const path = ["decision", "order", index];
    named(path, name, criteria, "a criterion of this file", fault);
    if (order.indexOf(name) < index) fault(path, "each criterion once", name);
  });
}
