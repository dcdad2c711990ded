import type { Group, Planning } from "../evaluation/plan/document.ts";
import { statedPercent } from "../report/formats.ts";

/**
 * The answer of a plan in a few lines: how many to enrol and what decides it, what each criterion, width and
 * comparison needs, and what can't be planned and why.
 */
export function planHeadline(planning: Planning): string {
  const lines = [
    ...lackingLine(planning),
    ...enrolLines(planning),
    ...planning.criteria.map((criterion) => criterionLine(planning, criterion)),
    ...otherLines(planning),
    ...jointLine(planning),
  ];
  return lines.map((line) => `${line.replaceAll(/[\u00a0\u202f]/g, " ")}\n`).join("");
}

/** Primary criteria that can't be planned come before any number. */
function lackingLine({ answer, plan }: Planning): string[] {
  const out = plan.criteria.filter(
    ({ id, importance }) => importance === "primary" && answer.criteria.out.includes(id),
  );
  if (out.length === 0) return [];
  const all = plan.decision.control === "all_must_pass" ? ", and the kit needs every primary criterion" : "";
  return [
    `this plan can't show ${out.map(({ id }) => id).join(", ")} as it stands${all}${answer.enrol === null ? "" : "; for the rest:"}`,
  ];
}

const people = (count: number) => count.toLocaleString("en-GB");

function enrolLines({ answer, plan, enrolment }: Planning): string[] {
  const { enrol, deciding, beside, days, cost } = answer;
  if (enrol === null) {
    const reasons = enrolment.flatMap(({ analyte, notes }) =>
      notes.map(({ message }) => `  ${titleOf(plan, analyte)}: ${message}`),
    );
    return ["enrol: no number can be given as the plan stands", ...reasons];
  }
  const by = deciding === null ? "" : `; ${titleOf(plan, deciding.analyte)} decides, by ${deciding.because}`;
  const lines = [`enrol ${people(enrol)} people (assurance ${statedPercent(answer.assurance)} %)${by}`];
  for (const one of beside) {
    if (one.enrol !== null) lines.push(`  of them ${people(one.enrol)} with ${one.kit} alone`);
  }
  if (days !== null) {
    const money =
      cost === null || plan.costs === undefined ? "" : `, ${people(Math.round(cost))} ${plan.costs.unit}`;
    lines.push(`  within ${people(Math.ceil(days))} working days${money}`);
  }
  return lines;
}

const GROUP_WORDS: Readonly<Record<Group, string>> = {
  positives: "reference positive",
  negatives: "reference negative",
  tested: "tested",
};

function criterionLine({ plan }: Planning, planned: Planning["criteria"][number]): string {
  const { criterion, analyte, of, needed, power, notes, size } = planned;
  const { threshold, direction, expected } = size.input;
  const asked = `${direction === "at_least" ? "at least" : "at most"} ${statedPercent(threshold)} %, ${statedPercent(expected)} % expected`;
  const start = `${criterion}: ${titleOf(plan, analyte)}, ${planned.measure.replace("_", " ")} ${asked}`;
  if (needed === null) return `${start}: can't be planned: ${why(notes)}`;
  return `${start}: ${people(needed)} ${GROUP_WORDS[of]} (power ${(100 * power).toFixed(1)} %)`;
}

function otherLines({ widths, comparisons }: Planning): string[] {
  const line = (id: string, of: Group, needed: number | null, notes: readonly { message: string }[]) =>
    needed === null
      ? `${id}: can't be planned: ${why(notes)}`
      : `${id}: ${people(needed)} ${GROUP_WORDS[of]}`;
  return [
    ...widths.map(({ width, of, needed, notes }) => line(width, of, needed, notes)),
    ...comparisons.map(({ comparison, of, needed, notes }) => line(comparison, of, needed, notes)),
  ];
}

function jointLine({ answer, plan }: Planning): string[] {
  const { jointPower } = answer;
  if (jointPower === null || plan.decision.control !== "all_must_pass") return [];
  const stated = jointPower.stated ?? jointPower.independent;
  return stated === null ? [] : [`all primary criteria together: met with probability ${stated.toFixed(3)}`];
}

function titleOf(plan: Planning["plan"], analyte: string): string {
  return plan.analytes.find(({ id }) => id === analyte)?.title ?? analyte;
}

function why(notes: readonly { readonly message: string }[]): string {
  return notes[0]?.message ?? "its page says why";
}
