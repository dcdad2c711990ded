import type { BestAlgorithm } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmTitle } from "../names.ts";
import { GroupName, lineGroups } from "./answer-table.tsx";

/** Which algorithm of the file is the cheapest that reaches every target, and which is the surest to. */
export function BestTable({ report }: AlgorithmSectionProps) {
  const { answer: words } = report.words.algorithm;
  const { best, lines } = report.algorithms.answer;
  const rows = best.filter(({ analyte, channel }) => rivals(report, analyte, channel) > 1);
  if (rows.length === 0 || lines.length === 0) return null;
  return (
    <DataTable
      report={report}
      caption={words.bestCaption}
      lead={words.bestLead}
      columns={columnsOf(report)}
      groups={[{ rows }]}
    />
  );
}

function rivals({ algorithms }: AlgorithmReport, analyte: string, channel: string): number {
  return algorithms.answer.lines.filter((line) => line.analyte === analyte && line.channel === channel)
    .length;
}

/** Whether another algorithm is surer by as much as shows in two decimals. */
function surer({ surest, cheapest, surestChance, cheapestChance }: BestAlgorithm): boolean {
  if (surest === null || surest === cheapest || surestChance === null) return false;
  return cheapestChance === null || formats.probability(surestChance) !== formats.probability(cheapestChance);
}

function columnsOf(report: AlgorithmReport): Column<BestAlgorithm>[] {
  const { bestColumns: columns, none } = report.words.algorithm.answer;
  const targets = Object.keys(report.algorithms.file.targets).length > 0;
  const chance = (of: (best: BestAlgorithm) => number | null): Column<BestAlgorithm> => ({
    head: columns.chance,
    kind: "number",
    cell: (best) => {
      const value = of(best);
      return value === null ? "" : formats.probability(value);
    },
  });
  const groups = lineGroups(report);
  return [
    {
      head: columns.channel,
      heading: true,
      cell: ({ channel, analyte }) => {
        const group = groups.find((one) => one.channel === channel && one.analyte === analyte);
        return group === undefined ? channel : <GroupName report={report} group={group} />;
      },
    },
    {
      head: columns.cheapest(targets),
      cell: ({ cheapest }) =>
        cheapest === null ? <span class="absent">{none}</span> : algorithmTitle(report, cheapest),
    },
    ...(targets
      ? [
          chance(({ cheapestChance }) => cheapestChance),
          {
            head: columns.surest,
            cell: (best: BestAlgorithm) =>
              best.surest === null || !surer(best) ? "" : algorithmTitle(report, best.surest),
          },
          chance((best) => (surer(best) ? best.surestChance : null)),
        ]
      : []),
  ];
}
