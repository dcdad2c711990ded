import type { Flow as FlowOf } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { figureWords } from "../figure-words.ts";
import { FlowDiagram } from "../figures/flow.tsx";
import { count } from "../formats.ts";
import { cellTitle, worded } from "../names.ts";
import { Drawing } from "../parts/drawing.tsx";
import { MainOrFolded } from "../parts/main-or-folded.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { DataTable } from "../parts/table.tsx";

/** People from enrolment to the fourfold table: the primary specimen large, the others folded. */
export function Flow({ report }: SectionProps) {
  const { flows } = report.evaluation;
  return (
    <Section report={report} id="flow">
      {flows.map((flow, place) => (
        <AnalytePart key={place} analyte={flow.analyte}>
          <OneFlow report={report} flow={flow} />
        </AnalytePart>
      ))}
    </Section>
  );
}

function OneFlow({ report, flow }: { report: Report; flow: FlowOf }) {
  const { flow: words } = report.words;
  return (
    <MainOrFolded report={report} cell={flow} cells={report.evaluation.flows}>
      <p class="lead">{words.lead(flow.enrolled, flow.analysed, cellTitle(report, flow))}</p>
      <Diagram report={report} flow={flow} />
    </MainOrFolded>
  );
}

function Diagram({ report, flow }: { report: Report; flow: FlowOf }) {
  const { flow: words, page, codes } = report.words;
  const caption = words.caption(cellTitle(report, flow));
  const { people, treatment } = flow.outsideWindow;
  return (
    <figure class="chart">
      <Drawing label={caption}>
        <FlowDiagram flow={flow} words={figureWords(report, flow.analyte).flow} />
      </Drawing>
      {people > 0 ? <p class="how">{words.outside(people, codes.windowTreatments[treatment])}</p> : null}
      <details class="aside">
        <summary>{page.data}</summary>
        <DataTable
          report={report}
          caption={caption}
          columns={[
            { head: words.columns.step, heading: true, cell: (line) => line.step },
            { head: words.columns.people, kind: "number", cell: (line) => count(line.people) },
          ]}
          groups={[{ rows: flowLines(report, flow) }]}
        />
      </details>
    </figure>
  );
}

interface FlowLine {
  readonly step: string;
  readonly people: number;
}

/** The flow as lines of a table, in the order of the way. */
function flowLines(report: Report, flow: FlowOf): FlowLine[] {
  const { flow: words, codes, reasons } = report.words;
  const reference = figureWords(report, flow.analyte).flow.reference;
  const statuses = ["positive", "negative", "indeterminate", "not_done"] as const;
  const line = (step: string, people: number): FlowLine => ({ step, people });
  return [
    line(words.rows.enrolled, flow.enrolled),
    ...flow.before.map(({ reason, people }) => line(words.rows.before(worded(reasons, reason)), people)),
    line(words.rows.eligible, flow.eligible),
    line(words.rows.rapidNotDone, flow.rapidNotDone),
    line(words.rows.tested, flow.tested),
    line(words.rows.firstInvalid, flow.firstInvalid),
    ...flow.branches.flatMap((branch) => [
      line(words.rows.branch(codes.rapid[branch.rapid]), branch.people),
      ...statuses.map((status) => line(words.rows.reference(reference[status]), branch.reference[status])),
    ]),
    ...flow.setAside.map(({ reason, people }) => line(words.rows.setAside(worded(reasons, reason)), people)),
    line(words.rows.analysed, flow.analysed),
  ];
}
