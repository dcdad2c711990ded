import type { Joint as JointOf } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { analyteTitle, speaksOfAgreement, specimenTitle, toldKit, toldReader } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { Counts, EstimateHead, NumberInterval, PercentInterval, proportionText } from "../parts/numbers.tsx";
import { Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

const STATUSES = ["++", "+-", "-+", "--"] as const;

/** Two analytes on one device: whole results, and whether one line troubles the other. */
export function Joint({ report }: SectionProps) {
  return (
    <Section report={report} id="joint">
      {report.evaluation.joint.map((joint, place) => (
        <JointPart key={place} report={report} joint={joint} />
      ))}
    </Section>
  );
}

interface PartProps {
  readonly report: Report;
  readonly joint: JointOf;
}

const agreementOf = ({ report, joint }: PartProps) =>
  joint.analytes.some((analyte) => speaksOfAgreement(report, analyte));

function JointPart({ report, joint }: PartProps) {
  const { joint: words } = report.words;
  const [first, second] = titlesOf({ report, joint });
  const agreement = agreementOf({ report, joint });
  const kit = toldKit(report, joint.kit);
  const reader = toldReader(report, joint.reader);
  const where = [kit, specimenTitle(report, joint.specimen), reader]
    .filter((part) => part !== null)
    .join(", ");
  return (
    <div class="part">
      <p>{(agreement ? words.leadAgreement : words.lead)(first, second, where)}</p>
      <JointTable report={report} joint={joint} where={where} />
      <WholeResults report={report} joint={joint} where={where} />
      <h3>{words.crossHeading}</h3>
      <CrossReaction report={report} joint={joint} where={where} />
      <p>{correlationText({ report, joint })}</p>
      <Notes report={report} notes={joint.notes} />
    </div>
  );
}

function titlesOf({ report, joint }: PartProps): [string, string] {
  const [first, second] = joint.analytes;
  return [analyteTitle(report, first), analyteTitle(report, second)];
}

function JointTable({ report, joint, where }: PartProps & { where: string }) {
  const { joint: words } = report.words;
  const [first, second] = titlesOf({ report, joint });
  const status = (code: string) => words.status(first, second, code);
  type Line = { code: string; counts: readonly number[]; place: number };
  const rows: Line[] = STATUSES.map((code, place) => ({ code, counts: joint.table[place] ?? [], place }));
  const columns: Column<Line>[] = [
    { head: `${words.reference} \\ ${words.kit}`, heading: true, cell: (line) => status(line.code) },
    ...STATUSES.map(
      (code, column): Column<Line> => ({
        head: status(code),
        kind: "number",
        cell: (line) => {
          const text = formats.count(line.counts[column] ?? 0);
          return line.place === column ? <b>{text}</b> : text;
        },
      }),
    ),
    {
      head: report.words.page.total,
      kind: "number",
      cell: (line) => formats.count(line.counts.reduce((all, people) => all + people, 0)),
    },
  ];
  return (
    <DataTable
      report={report}
      caption={`${words.tableCaption(first, second)}, ${where}`}
      columns={columns}
      groups={[{ rows }]}
    />
  );
}

function WholeResults({ report, joint, where }: PartProps & { where: string }) {
  const { joint: words, page } = report.words;
  const limits = page.interval(report.evaluation.study.interval.level);
  const [first, second] = titlesOf({ report, joint });
  const agreement = agreementOf({ report, joint });
  const rows = [
    { title: words.all, of: joint.bothRight },
    ...joint.byStatus.map(({ status, bothRight }) => ({
      title: words.status(first, second, status),
      of: bothRight,
    })),
  ];
  return (
    <DataTable
      report={report}
      caption={`${words.bothCaption}, ${where}`}
      lead={words.bothLead(proportionText(report, joint.bothRight), agreement)}
      columns={[
        { head: words.columns.status, heading: true, cell: (row) => row.title },
        {
          head: agreement ? words.columns.countsAgreement : words.columns.counts,
          kind: "number",
          cell: (row) => <Counts of={row.of} />,
        },
        {
          head: <EstimateHead sign={words.columns.estimate} limits={limits} />,
          kind: "number",
          cell: (row) => <PercentInterval report={report} of={row.of} />,
        },
      ]}
      groups={[{ rows }]}
    />
  );
}

function CrossReaction({ report, joint, where }: PartProps & { where: string }) {
  const { joint: words } = report.words;
  const proportion = (of: JointOf["bothRight"]) => (
    <>
      <span class="counts">{formats.countOf(of.count, of.total)}</span>
      <PercentInterval report={report} of={of} />
    </>
  );
  return (
    <DataTable
      report={report}
      caption={`${words.crossCaption}, ${where}`}
      lead={agreementOf({ report, joint }) ? words.crossLeadAgreement : words.crossLead}
      columns={[
        {
          head: words.crossColumns.analyte,
          heading: true,
          cell: (cross) => analyteTitle(report, cross.analyte),
        },
        { head: words.crossColumns.other, cell: (cross) => analyteTitle(report, cross.other) },
        {
          head: words.crossColumns.present,
          kind: "number",
          cell: (cross) => proportion(cross.whenOtherPositive),
        },
        {
          head: words.crossColumns.absent,
          kind: "number",
          cell: (cross) => proportion(cross.whenOtherNegative),
        },
        {
          head: words.crossColumns.difference,
          kind: "number",
          cell: (cross) => <NumberInterval report={report} of={cross.difference} format={formats.points} />,
        },
        {
          head: words.crossColumns.pValue,
          kind: "number",
          cell: (cross) => (cross.pValue === null ? "" : formats.pValue(cross.pValue)),
        },
      ]}
      groups={[{ rows: joint.crossReaction }]}
    />
  );
}

function correlationText({ report, joint }: PartProps): string {
  const text = (value: number | null) =>
    value === null ? report.words.page.notEstimable : formats.index(value);
  const { bothPositive, bothNegative } = joint.errorCorrelation;
  return report.words.joint.correlation(text(bothPositive), text(bothNegative));
}
