import { MEASURES } from "../../evaluation/measures.ts";
import type { Report } from "../context.ts";
import { Strip, StripScale } from "../figures/strip.tsx";
import { stripDomain } from "../figures/strip-scale.ts";
import { type CutoffLine, cutoffLines, instrumentTitle, readingText } from "../instrument-names.ts";
import { termsOf } from "../names.ts";
import { Counts, PercentInterval } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import type { InstrumentProps } from "./instrument-readings.tsx";

const WIDTH = 78;

/** The cutoff stated, the one chosen here with what to expect of it in others, and the readers by eye. */
export function InstrumentCutoffs({ report, measured, explained }: InstrumentProps) {
  const { instrument: words, grammar } = report.words;
  const lines = cutoffLines(measured);
  if (lines.length === 0) return null;
  const terms = termsOf(report, measured.analyte);
  const columns: Column<CutoffLine>[] = [
    {
      head: words.columns.what,
      heading: true,
      kind: "short",
      cell: (line) => nameOf(report, measured, line),
    },
    {
      head: words.columns.cutoff,
      kind: "number",
      cell: ({ cutoff }) => (cutoff === null ? "" : words.atLeast(readingText(cutoff), measured.direction)),
    },
    ...MEASURES.flatMap((measure): Column<CutoffLine>[] => {
      const domain = stripDomain(lines.map((line) => line[measure]));
      return [
        {
          head: report.words.answer.columns.counts,
          kind: "number",
          cell: (line) => {
            const { count, total } = line[measure];
            return count === undefined || total === undefined ? "" : <Counts of={{ count, total }} />;
          },
        },
        {
          head: `${grammar.sentence(terms[measure])}, %`,
          kind: "number",
          cell: (line) => <PercentInterval report={report} of={line[measure]} />,
        },
        {
          head: <StripScale domain={domain} width={WIDTH} />,
          kind: "figure",
          cell: (line) => <Strip estimate={line[measure]} domain={domain} width={WIDTH} />,
        },
      ];
    }),
  ];
  return (
    <DataTable
      report={report}
      caption={words.cutoffsCaption(instrumentTitle(report, measured))}
      columns={columns}
      groups={[{ rows: lines }]}
      {...(explained ? { note: words.cutoffsHow(measured.unit, measured.chosen !== null) } : {})}
    />
  );
}

function nameOf(report: Report, { stated }: InstrumentProps["measured"], line: CutoffLine): string {
  const { instrument: words, grammar } = report.words;
  const { rows } = words;
  if (line.kind === "stated") return grammar.sentence(rows.stated(stated?.from ?? "kit"));
  if (line.kind === "expected") return grammar.sentence(rows.expected);
  if (line.kind === "eye") return grammar.sentence(rows.eye(line.reader));
  return grammar.sentence(rows.chosen);
}
