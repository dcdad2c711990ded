import type { TruePrevalence as TruePrevalenceOf } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { stripDomain } from "../figures/strip-scale.ts";
import { cellTitle, sameCell, speaksOfAgreement } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { Counts, EstimateHead, PercentInterval, PercentLimits } from "../parts/numbers.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { shareStrips } from "../parts/strip-column.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

/** How common the condition truly is where a programme counted its own reactive results. */
export function TruePrevalence({ report }: SectionProps) {
  const { prevalence: words } = report.words;
  const all = report.evaluation.truePrevalence.filter(({ analyte }) => !speaksOfAgreement(report, analyte));
  const cells = all.filter((one, place) => all.findIndex((other) => sameCell(one, other)) === place);
  return (
    <Section report={report} id="prevalence">
      <p>{words.lead}</p>
      {cells.map((cell, place) => {
        const rows = all.filter((one) => sameCell(one, cell));
        return (
          <AnalytePart key={place} analyte={cell.analyte}>
            <h3>{cellTitle(report, cell)}</h3>
            <DataTable
              report={report}
              caption={words.caption(cellTitle(report, cell))}
              columns={columnsOf(report, rows)}
              groups={[{ rows }]}
              {...(place === cells.length - 1 ? { note: words.howToRead } : {})}
            />
            <Notes report={report} notes={rows.flatMap(({ notes }) => notes)} />
          </AnalytePart>
        );
      })}
    </Section>
  );
}

function columnsOf(report: Report, rows: readonly TruePrevalenceOf[]): Column<TruePrevalenceOf>[] {
  const { prevalence: words, page } = report.words;
  const limits = page.interval(report.evaluation.study.interval.level);
  const domain = stripDomain(
    rows.flatMap((row) => [row.estimated, row.apparent]),
    [],
    "be_low",
  );
  return [
    { head: words.columns.population, heading: true, cell: (row) => row.title },
    { head: words.columns.counts, kind: "number", cell: (row) => <Counts of={row.apparent} /> },
    {
      head: <EstimateHead sign={words.columns.apparent} limits={limits} />,
      kind: "number",
      cell: (row) => <PercentInterval report={report} of={row.apparent} />,
    },
    {
      head: <EstimateHead sign={words.columns.estimated} limits={limits} />,
      kind: "number",
      cell: (row) => <PercentInterval report={report} of={row.estimated} />,
    },
    shareStrips(domain, (row: TruePrevalenceOf) => row.estimated),
    {
      head: words.columns.known,
      kind: "number",
      cell: (row) => <PercentLimits report={report} of={row.known} />,
    },
  ];
}
