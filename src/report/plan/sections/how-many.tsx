import type { EnrolmentPlan } from "../../../evaluation/plan/document.ts";
import * as formats from "../../formats.ts";
import { EstimateHead } from "../../parts/numbers.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PlanReport, PlanSectionProps } from "../context.ts";
import { plannedTitle } from "../names.ts";
import { PeopleOr, PlanNotes, shown } from "../parts.tsx";

/** How many to enrol for each analyte, by how sure one wants to be; enough on average beside it. */
export function HowMany({ report }: PlanSectionProps) {
  const { people: words } = report.words.plan;
  const { enrolment } = report.planning;
  if (enrolment.every(({ enrolment: found }) => found === null)) return null;
  const short = enrolment.flatMap(({ analyte, enrolment: found }) => {
    const chance = found?.values.naive.fallsShort ?? null;
    return chance === null
      ? []
      : [{ analyte: plannedTitle(report, analyte), chance, worst: found?.input.prevalence.kind === "range" }];
  });
  return (
    <section id="people" aria-labelledby="people-heading">
      <h2 id="people-heading">{words.heading}</h2>
      <DataTable
        report={report}
        caption={words.caption}
        lead={words.lead(short)}
        columns={columnsOf(report)}
        groups={[{ rows: enrolment }]}
        note={noteOf(report)}
      />
      <PlanNotes
        report={report}
        notes={enrolment.flatMap(({ notes, enrolment: found }) => [...notes, ...(found?.notes ?? [])])}
      />
    </section>
  );
}

function noteOf({ planning: { answer }, words }: PlanReport): string {
  const { people } = words.plan;
  const several = answer.byAnalyte.length > 1 && answer.assuredTogether !== null;
  const together = several ? people.together(formats.chance(answer.assuredTogether ?? 0)) : "";
  return `${people.note(answer.assurance)}${together}`;
}

function columnsOf(report: PlanReport): Column<EnrolmentPlan>[] {
  const { people: words } = report.words.plan;
  const { columns } = words;
  const { enrolment, answer } = report.planning;
  const assurances = [
    ...new Set(
      enrolment.flatMap(({ enrolment: found }) =>
        (found?.values.targets ?? []).flatMap(({ assurance }) => (assurance === null ? [] : [assurance])),
      ),
    ),
  ].sort((one, other) => one - other);
  const tested = enrolment.some(({ forTested }) => forTested !== null);
  return [
    {
      head: columns.analyte,
      heading: true,
      cell: ({ analyte }) => plannedTitle(report, analyte),
    },
    {
      head: <EstimateHead sign={columns.prevalence} limits={columns.mayLie} />,
      kind: "number",
      cell: (line) => <PrevalenceOf line={line} />,
    },
    { head: columns.positives, kind: "number", cell: ({ needed }) => formats.count(needed.positives) },
    { head: columns.negatives, kind: "number", cell: ({ needed }) => formats.count(needed.negatives) },
    {
      head: columns.naive,
      kind: "number",
      cell: ({ enrolment: found }) => shown(found?.values.naive.total ?? null, formats.count),
    },
    {
      head: columns.fallsShort,
      kind: "number",
      cell: ({ enrolment: found }) => shown(found?.values.naive.fallsShort ?? null, formats.chance),
    },
    ...assurances.map(
      (assurance): Column<EnrolmentPlan> => ({
        head: words.columns.sure(assurance),
        kind: "number",
        cell: ({ enrolment: found }) => (
          <PeopleOr
            report={report}
            of={targetOf(found, assurance)?.total ?? null}
            bold={assurance === answer.assurance}
          />
        ),
      }),
    ),
    {
      head: columns.limiting,
      cell: ({ enrolment: found }) => {
        const limiting = targetOf(found, answer.assurance)?.limiting ?? null;
        return limiting === null ? "" : words.limiting[limiting];
      },
    },
    ...(tested
      ? [
          {
            head: columns.tested,
            kind: "number" as const,
            cell: ({ forTested }: EnrolmentPlan) => shown(forTested, formats.count),
          },
        ]
      : []),
  ];
}

type Found = EnrolmentPlan["enrolment"];

export function targetOf(found: Found, assurance: number) {
  return found?.values.targets.find((target) => target.assurance === assurance) ?? null;
}

/** The mean prevalence, and where it may lie where it is not known. */
function PrevalenceOf({ line: { enrolment: found } }: { line: EnrolmentPlan }) {
  if (found === null) return null;
  const { mean, lower, upper } = found.values.prevalence;
  if (mean === null) return null;
  const { kind } = found.input.prevalence;
  if (kind === "fixed") return <>{formats.percentSigned(mean)}</>;
  return (
    <>
      {formats.percentSigned(mean)}
      <span class="limits">{formats.percentRange({ value: mean, lower, upper }, 1) ?? ""}</span>
    </>
  );
}
