import type { TwoAnalytes } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmTitle, channelTitle, kitName, unitOf } from "../names.ts";

/** One device that shows two analytes: counted and paid once. */
export function Together({ report }: AlgorithmSectionProps) {
  const { together } = report.algorithms;
  return (
    <Section report={report} id="together">
      {together === null ? null : <Shared report={report} together={together} />}
    </Section>
  );
}

type Channel = TwoAnalytes["channels"][number];

function Shared({ report, together }: { report: AlgorithmReport; together: TwoAnalytes }) {
  const { together: words } = report.words.algorithm;
  const { columns } = words;
  const unit = unitOf(report);
  const amount = (head: string, of: (line: Channel) => number | null): Column<Channel> => ({
    head,
    kind: "number",
    cell: (line) => {
      const value = of(line);
      return value === null ? "" : formats.ratio(value);
    },
  });
  const priced = together.channels.some(({ cost }) => (cost ?? 0) > 0);
  return (
    <>
      <p>
        {words.lead(
          kitName(report, together.kit),
          report.words.grammar.listed(together.algorithms.map((id) => algorithmTitle(report, id))),
        )}
      </p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={[
          { head: columns.channel, heading: true, cell: ({ channel }) => channelTitle(report, channel) },
          amount(columns.apart, ({ devicesApart }) => devicesApart),
          amount(columns.devices, ({ devices }) => devices),
          ...(priced
            ? [
                amount(columns.costApart(unit), ({ costApart }) => costApart),
                amount(columns.cost(unit), ({ cost }) => cost),
                {
                  head: columns.saved(unit),
                  kind: "number" as const,
                  cell: ({ savedPer100000 }: Channel) =>
                    savedPer100000 === null ? "" : formats.count(savedPer100000),
                },
              ]
            : []),
        ]}
        groups={[{ rows: together.channels }]}
        note={words.note}
      />
    </>
  );
}
