import type { KitStock } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmTitle, channelTitle, kitName, leadingLine, unitOf } from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";

/** How many kits and packs to order for a year, so that they hardly ever run out. */
export function Kits({ report }: AlgorithmSectionProps) {
  const { kits: words } = report.words.algorithm;
  const { stock, file } = report.algorithms;
  const channels = [...new Set(stock.map(({ channel }) => channel))].sort(
    (one, other) => Number(one === null) - Number(other === null),
  );
  const leading = leadingLine(report);
  return (
    <Section report={report} id="kits">
      <p>
        {words.lead(
          leading === undefined ? null : algorithmTitle(report, leading.algorithm),
          formats.statedPercent(file.order.risk),
        )}
      </p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report)}
        groups={channels.map((channel) => {
          const rows = stock.filter((one) => one.channel === channel);
          const clients = formats.count(rows[0]?.clients ?? 0);
          const title = channel === null ? words.allChannels : channelTitle(report, channel);
          return { heading: words.group(title, clients), rows };
        })}
        note={words.note}
      />
      <AlgorithmNotes
        report={report}
        notes={stock.flatMap(({ notes, order }) => [...notes, ...order.notes])}
      />
    </Section>
  );
}

function columnsOf(report: AlgorithmReport): Column<KitStock>[] {
  const { columns } = report.words.algorithm.kits;
  const number = (head: string, of: (line: KitStock) => number | null, bold = false): Column<KitStock> => ({
    head,
    kind: "number",
    cell: (line) => {
      const value = of(line);
      if (value === null) return "";
      return bold ? <b>{formats.count(value)}</b> : formats.count(value);
    },
  });
  const priced = report.algorithms.stock.some(({ money }) => (money ?? 0) > 0);
  return [
    { head: columns.kit, heading: true, cell: ({ kit }) => kitName(report, kit) },
    number(columns.mean, ({ order }) => order.values.mean),
    number(columns.runs, ({ order }) => order.values.ordered.runs),
    {
      head: columns.waste,
      kind: "number",
      cell: ({ order }) => formats.percentSigned(order.input.waste),
    },
    number(columns.kits, ({ order }) => order.values.ordered.kits, true),
    {
      head: columns.packs,
      kind: "number",
      cell: ({ order }) => {
        const { packs } = order.values.ordered;
        if (packs === null) return "";
        return (
          <>
            <b>{formats.count(packs)}</b>
            <span class="place">
              {report.words.algorithm.kits.packsOf(formats.count(order.input.packSize))}
            </span>
          </>
        );
      },
    },
    {
      head: columns.byMean,
      kind: "number",
      cell: ({ order }) => {
        const { runsOut } = order.values.orderedByMean;
        return runsOut === null ? "" : formats.chance(runsOut);
      },
    },
    ...(priced ? [number(columns.money(unitOf(report)), ({ money }) => money)] : []),
  ];
}
