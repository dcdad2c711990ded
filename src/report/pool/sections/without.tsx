import type { PooledInfluence } from "../../../evaluation/pool/document.ts";
import * as formats from "../../formats.ts";
import { PercentInterval } from "../../parts/numbers.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { measureName } from "../names.ts";
import { PoolNotes } from "../parts.tsx";

type Row = PooledInfluence["values"]["without"][number];

/** The summary without each study in turn: those that move it most open, the rest folded. */
const OPEN = 6;
/** Few rows more are shown rather than folded. */
const FOLDED = 3;

export function Without({ report }: PoolSectionProps) {
  const { without: words } = report.words.pool;
  const { influence, bivariate } = report.pooling;
  if (influence === null) {
    return (
      <Section report={report} id="without">
        <p>{words.tooMany(formats.count(bivariate.input.studies.length - 1))}</p>
      </Section>
    );
  }
  const sorted = [...influence.values.without].sort(
    (one, other) => (other.distance ?? -1) - (one.distance ?? -1),
  );
  const open = sorted.length <= OPEN + FOLDED ? sorted.length : OPEN;
  const rest = sorted.slice(open);
  const columns = columnsOf(report, influence);
  return (
    <Section report={report} id="without">
      <p>{words.lead(influence.values.farthest)}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columns}
        groups={[{ rows: [whole(influence)] }, { rows: sorted.slice(0, open) }]}
        note={words.note}
      />
      {rest.length === 0 ? null : (
        <details class="printed">
          <summary>{words.restTitle(rest.length)}</summary>
          <DataTable
            report={report}
            caption={words.restCaption}
            columns={columns}
            groups={[{ rows: rest }]}
            long
          />
        </details>
      )}
      <PoolNotes report={report} notes={influence.notes.filter(({ code }) => code !== "no_residual")} all />
    </Section>
  );
}

/** The summary of all studies, as the first line. */
function whole({ values }: PooledInfluence): Row {
  const { sensitivity, specificity } = values.whole;
  return {
    label: "",
    sensitivity,
    specificity,
    verdict: "not_asked",
    changesVerdict: false,
    distance: null,
    spread: { sensitivity: null, specificity: null, correlation: null },
    residual: { sensitivity: null, specificity: null },
  };
}

function columnsOf(report: PoolReport, { values }: PooledInfluence): Column<Row>[] {
  const { columns, all } = report.words.pool.without;
  const largest = Math.max(0, ...values.without.map(({ distance }) => distance ?? 0));
  const number = (value: number | null, format: (value: number) => string) =>
    value === null ? "" : format(value);
  const changed = report.pooling.answer.criteria.some(({ changedBy }) => changedBy.length > 0);
  return [
    { head: columns.study, heading: true, cell: ({ label }) => (label === "" ? <i>{all}</i> : label) },
    {
      head: columns.sensitivity,
      kind: "number",
      cell: ({ sensitivity }) => <PercentInterval report={report} of={sensitivity} />,
    },
    {
      head: columns.specificity,
      kind: "number",
      cell: ({ specificity }) => <PercentInterval report={report} of={specificity} />,
    },
    {
      head: columns.distance,
      kind: "figure",
      cell: ({ distance }) => <Moved distance={distance} largest={largest} />,
    },
    {
      head: columns.sensitivityResidual,
      kind: "number",
      cell: ({ residual }) => number(residual.sensitivity, formats.statistic),
    },
    {
      head: columns.specificityResidual,
      kind: "number",
      cell: ({ residual }) => number(residual.specificity, formats.statistic),
    },
    ...(changed ? [{ head: columns.verdict, cell: ({ label }: Row) => changedText(report, label) }] : []),
  ];
}

/** How far the summary moves, as a number and a bar. */
function Moved({ distance, largest }: { distance: number | null; largest: number }) {
  if (distance === null || largest === 0) return null;
  const length = Math.round((56 * distance * 100) / largest) / 100;
  return (
    <span class="moved">
      {formats.statistic(distance)}
      <svg class="fig fig-drawn" aria-hidden="true" width="56" height="8" viewBox="0 0 56 8">
        <rect class="fig-full" x="0" y="1" width={Math.max(length, 0.5)} height="6" />
      </svg>
    </span>
  );
}

function changedText(report: PoolReport, label: string): string {
  const { changed } = report.words.pool.without;
  const measures = report.pooling.answer.criteria
    .filter(({ changedBy }) => changedBy.includes(label))
    .map(({ measure }) => measureName(report, measure));
  return measures.length === 0 ? "" : changed(report.words.grammar.listed(measures));
}
