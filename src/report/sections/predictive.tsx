import type { Predictive as PredictiveOf } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { NaturalFrequencies } from "../figures/natural-frequencies.tsx";
import * as formats from "../formats.ts";
import { cellTitle, mainCell, speaksOfAgreement } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { Drawing } from "../parts/drawing.tsx";
import { Notes } from "../parts/notes.tsx";
import { EstimateHead, PercentInterval } from "../parts/numbers.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { DataTable } from "../parts/table.tsx";
import { figureName } from "../render-figures.ts";

/** What a result means where the kit is to be used, and how common the condition must be for that. */
export function Predictive({ report }: SectionProps) {
  const { predictive: words } = report.words;
  const cells = report.evaluation.predictive.filter((cell) => !speaksOfAgreement(report, cell.analyte));
  return (
    <Section report={report} id="predictive">
      <p>{words.lead}</p>
      {cells.map((cell, place) => (
        <AnalytePart key={place} analyte={cell.analyte}>
          <CellPart report={report} cell={cell} />
        </AnalytePart>
      ))}
    </Section>
  );
}

interface CellProps {
  readonly report: Report;
  readonly cell: PredictiveOf;
}

function CellPart({ report, cell }: CellProps) {
  const { predictive: words } = report.words;
  const shown = new Set(["programmes", "lowestPrevalence"]);
  return (
    <>
      <h3>{cellTitle(report, cell)}</h3>
      <Chart
        report={report}
        name={figureName("predictive", cell)}
        label={words.dataCaption(cellTitle(report, cell))}
      >
        <CurveTable report={report} cell={cell} />
      </Chart>
      <Thousand report={report} cell={cell} />
      {cell.programmes.length === 0 ? (
        <p>{words.noProgrammes}</p>
      ) : (
        <Programmes report={report} cell={cell} />
      )}
      <Targets report={report} cell={cell} />
      <Notes report={report} notes={cell.notes.filter(({ path }) => shown.has(path.split(".")[0] ?? ""))} />
    </>
  );
}

/** A thousand people of the first programme, one mark each: for each analyte's main cell. */
function Thousand({ report, cell }: CellProps) {
  const { predictive: words } = report.words;
  const [programme] = cell.programmes;
  if (programme === undefined || mainCell(report.evaluation.predictive, cell.analyte) !== cell) return null;
  const { truePositives, falseNegatives, falsePositives, trueNegatives } = programme.per10000;
  const expected = [truePositives.value, falseNegatives.value, falsePositives.value, trueNegatives.value];
  const [found, missed, falsely, rest] = expected;
  if (found == null || missed == null || falsely == null || rest == null) return null;
  const title = words.thousand(programme.title, formats.statedPercent(programme.prevalence));
  return (
    <figure class="chart">
      <figcaption class="lead">{title}</figcaption>
      <Drawing label={`${title} ${cellTitle(report, cell)}`}>
        <NaturalFrequencies
          title={title}
          truePositives={found}
          falseNegatives={missed}
          falsePositives={falsely}
          trueNegatives={rest}
        />
      </Drawing>
    </figure>
  );
}

function Programmes({ report, cell }: CellProps) {
  const { predictive: words, page } = report.words;
  const limits = page.interval(report.evaluation.study.interval.level);
  return (
    <DataTable
      report={report}
      caption={words.caption(cellTitle(report, cell))}
      columns={[
        { head: words.columns.programme, heading: true, cell: (programme) => programme.title },
        {
          head: words.columns.prevalence,
          kind: "number",
          cell: (programme) => formats.statedPercent(programme.prevalence),
        },
        {
          head: <EstimateHead sign={words.columns.ppv} limits={limits} />,
          kind: "number",
          cell: (programme) => <PercentInterval report={report} of={programme.ppv} />,
        },
        {
          head: <EstimateHead sign={words.columns.npv} limits={limits} />,
          kind: "number",
          cell: (programme) => <PercentInterval report={report} of={programme.npv} />,
        },
        { head: words.columns.source, cell: (programme) => programme.source ?? words.unsourced },
      ]}
      groups={[{ rows: cell.programmes }]}
    />
  );
}

function Targets({ report, cell }: CellProps) {
  const { predictive: words, page } = report.words;
  if (cell.lowestPrevalence.length === 0) return null;
  const prevalence = (value: number | null) =>
    value === null ? page.notEstimable : words.prevalence(formats.significantPercent(value));
  return (
    <DataTable
      report={report}
      caption={words.targetCaption(cellTitle(report, cell))}
      lead={words.targetLead}
      columns={[
        {
          head: words.targetColumns.target,
          heading: true,
          kind: "number",
          cell: ({ target }) => formats.statedPercent(target),
        },
        {
          head: words.targetColumns.estimate,
          kind: "number",
          cell: (line) => prevalence(line.prevalence),
        },
        {
          head: words.targetColumns.lower,
          kind: "number",
          cell: (line) => prevalence(line.byLowerLimit),
        },
      ]}
      groups={[{ rows: cell.lowestPrevalence }]}
    />
  );
}

function CurveTable({ report, cell }: CellProps) {
  const { predictive: words, page } = report.words;
  const limits = page.interval(report.evaluation.study.interval.level);
  return (
    <DataTable
      report={report}
      caption={words.dataCaption(cellTitle(report, cell))}
      columns={[
        {
          head: words.columns.prevalence,
          heading: true,
          kind: "number",
          cell: ({ prevalence }) => formats.significantPercent(prevalence),
        },
        {
          head: <EstimateHead sign={words.columns.ppv} limits={limits} />,
          kind: "number",
          cell: ({ ppv }) => <PercentInterval report={report} of={ppv} />,
        },
        {
          head: <EstimateHead sign={words.columns.npv} limits={limits} />,
          kind: "number",
          cell: ({ npv }) => <PercentInterval report={report} of={npv} />,
        },
      ]}
      groups={[{ rows: cell.curve }]}
    />
  );
}
