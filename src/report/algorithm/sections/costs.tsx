import type { AlgorithmLine } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmTitle, hasPrices, kitName, unitOf } from "../names.ts";
import { Amount } from "../parts.tsx";
import { lineGroups } from "./answer-table.tsx";
import { groupHeading } from "./people.tsx";

/** What each algorithm uses up, costs and takes in minutes. */
export function Costs({ report }: AlgorithmSectionProps) {
  const { costs: words } = report.words.algorithm;
  return (
    <Section report={report} id="costs">
      <p>{words.lead(hasPrices(report))}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report)}
        groups={lineGroups(report).map((group) => ({
          heading: groupHeading(report, group.channel, group.analyte),
          rows: group.lines,
        }))}
        note={words.note}
        long
      />
    </Section>
  );
}

function columnsOf(report: AlgorithmReport): Column<AlgorithmLine>[] {
  const { columns } = report.words.algorithm.costs;
  const { lines } = report.algorithms.answer;
  const unit = unitOf(report);
  const kits = [...new Set(lines.flatMap((line) => line.kits.map(({ kit }) => kit)))];
  const amount = (
    head: string,
    of: (line: AlgorithmLine) => number | null,
    format: (value: number) => string = formats.ratio,
  ): Column<AlgorithmLine>[] =>
    lines.every((line) => of(line) === null)
      ? []
      : [
          {
            head,
            kind: "number",
            cell: (line) => {
              const value = of(line);
              return value === null ? "" : format(value);
            },
          },
        ];
  return [
    { head: columns.algorithm, heading: true, cell: ({ algorithm }) => algorithmTitle(report, algorithm) },
    ...kits.map(
      (id): Column<AlgorithmLine> => ({
        head: columns.kit(kitName(report, id)),
        kind: "number",
        cell: (line) => {
          const used = line.kits.find(({ kit }) => kit === id)?.perPerson ?? 0;
          return used === 0 ? "" : formats.ratio(used * 100);
        },
      }),
    ),
    ...(hasPrices(report)
      ? [
          {
            head: columns.perClient(unit),
            kind: "number" as const,
            cell: ({ cost }: AlgorithmLine) => <Amount of={cost.perClient} format={formats.ratio} />,
          },
          ...amount(columns.perCase(unit), ({ cost }) => cost.perCaseFound),
          ...amount(columns.perAverted(unit), ({ cost }) => cost.perFalsePositiveAverted),
          ...amount(columns.withErrors(unit), ({ cost }) => cost.withErrors),
        ]
      : []),
    ...amount(columns.minutes, ({ minutes }) => minutes.mean, formats.count),
    ...amount(columns.mostMinutes, ({ minutes }) => minutes.most, formats.count),
  ];
}
