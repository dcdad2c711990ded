import { type Note, note } from "../../core/note.ts";
import { decisionFamily } from "../../methods/decision/family.ts";
import { decisionJoint } from "../../methods/decision/joint.ts";
import type { Verdict } from "../../methods/proportion/criterion.ts";
import type { Study } from "../../records/study.ts";
import type { Answer, Decision } from "../document.ts";
import { notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

type Control = Study["decision"]["control"];
type Judged = Decision["criteria"][number];

/**
 * All primary criteria together, as the study file says they are judged. `each` and `all_must_pass` take
 * every verdict as it stands; `holm` and `fixed_sequence` share the error between the criteria. The joint
 * probability is that of all being truly reached. `null` where no criterion is primary.
 */
export function decisionSection(worktop: Worktop, answers: readonly Answer[]): Decision | null {
  const { control } = worktop.study.decision;
  const { judged: primary, notes } = inOrder(worktop, answers);
  if (primary.length === 0) return null;
  const criteria = primary.map(testOf);
  const { values, notes: found } = worktop.compute(
    decisionFamily,
    { criteria },
    { alpha: errorOf(worktop, primary) },
  );
  const entries = primary.map((answer, index): Judged => {
    const { pValue, holm, fixedSequence } = values.criteria[index] as (typeof values.criteria)[number];
    const adjusted = control === "holm" ? holm : control === "fixed_sequence" ? fixedSequence : pValue;
    const shown = (adjusted ?? 1) <= errorOf(worktop, primary);
    return {
      criterion: answer.criterion,
      pValue,
      adjustedPValue: adjusted,
      verdict: sharesError(control) ? sharedVerdict(answer.verdict, shown) : answer.verdict,
    };
  });
  const verdicts = entries.map(({ verdict }) => verdict);
  return {
    control,
    criteria: entries,
    overall: sharesError(control) ? anyOf(verdicts) : allOf(verdicts),
    joint: jointOf(worktop, primary),
    notes: [...notes, ...notesUnder(found, { criteria: "criteria" }), ...ruleNotes(worktop, primary)],
  };
}

function sharesError(control: Control): boolean {
  return control === "holm" || control === "fixed_sequence";
}

/** Primary criteria, of each the first reader's answer; in fixed sequence in the order stated. */
function inOrder(
  { study }: Worktop,
  answers: readonly Answer[],
): { readonly judged: readonly Answer[]; readonly notes: readonly Note[] } {
  const primary = answers.filter(({ importance }) => importance === "primary");
  const first = primary.filter(
    ({ criterion }, index) => primary.findIndex((other) => other.criterion === criterion) === index,
  );
  const notes: Note[] = [];
  if (first.length < primary.length) {
    const message = "of several readers the first one's results are judged";
    notes.push(note("first_reader", "criteria", message));
  }
  const { control, order = [] } = study.decision;
  if (control !== "fixed_sequence") return { judged: first, notes };
  const place = (answer: Answer) => {
    const at = order.indexOf(answer.criterion);
    return at < 0 ? order.length : at;
  };
  if (first.some(({ criterion }) => !order.includes(criterion))) {
    const message = "criteria that the stated order does not name come last, in the order of the study file";
    notes.push(note("not_in_order", "criteria", message));
  }
  return { judged: [...first].sort((one, other) => place(one) - place(other)), notes };
}

/** One-sided error of the whole family: that of the rule the criteria follow, the stricter one where they differ. */
function errorOf({ study, interval }: Worktop, answers: readonly Answer[]): number {
  const oneSided = answers.every(({ criterion }) => ruleOf(study, criterion) === "one_sided");
  return oneSided ? 1 - interval.level : (1 - interval.level) / 2;
}

function ruleOf({ criteria }: Study, id: string) {
  return criteria.find((criterion) => criterion.id === id)?.rule ?? "interval";
}

/** Exact binomial test at the threshold; at 0 and 1 the answer does not depend on the data. */
function testOf({ criterion: label, threshold, direction, estimate: { count, total } }: Answer) {
  if (threshold > 0 && threshold < 1) return { label, count, total, threshold, direction };
  const certain = (threshold === 0) === (direction === "at_least");
  return { label, pValue: certain ? 0 : 1 };
}

/** Shown only within the shared error; what is refuted by itself stays refuted. */
function sharedVerdict(own: Verdict, shown: boolean): Verdict {
  if (own === "not_estimable" || own === "not_met") return own;
  return shown ? "met" : "undecided";
}

function allOf(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes("not_met")) return "not_met";
  if (verdicts.includes("not_estimable")) return "not_estimable";
  return verdicts.includes("undecided") ? "undecided" : "met";
}

function anyOf(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes("met")) return "met";
  if (verdicts.includes("undecided")) return "undecided";
  return verdicts.includes("not_estimable") ? "not_estimable" : "not_met";
}

function jointOf(worktop: Worktop, answers: readonly Answer[]): Decision["joint"] {
  const [only] = answers;
  if (answers.length === 1) {
    const probability = only?.probability ?? null;
    return { independent: probability, lowest: probability, highest: probability };
  }
  const criteria = answers.map(({ criterion: label, threshold, direction, estimate: { count, total } }) => ({
    label,
    count,
    total,
    threshold,
    direction,
  }));
  const { independent, lowest, highest } = worktop.compute(decisionJoint, { criteria }, worktop.interval)
    .values.probability;
  return { independent, lowest, highest };
}

function ruleNotes(worktop: Worktop, answers: readonly Answer[]): Note[] {
  const { control } = worktop.study.decision;
  const rules = new Set(answers.map(({ criterion }) => ruleOf(worktop.study, criterion)));
  const notes: Note[] = [];
  if (sharesError(control) && rules.size > 1) {
    const message =
      "the criteria follow different rules: all are tested one-sided at half the two-sided error";
    notes.push(note("mixed_rules", "criteria", message));
  }
  if (sharesError(control) && rules.has("point")) {
    const message = "an estimate alone has no error to share: such criteria are tested like the others here";
    notes.push(note("point_rule", "criteria", message));
  }
  if (control === "each" && answers.length > 1) {
    const message =
      "each criterion is judged by itself: the chance that one is met by luck grows with their number";
    notes.push(note("no_control", "overall", message));
  }
  return notes;
}
