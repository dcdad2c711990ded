import type { FileChannel, FileKit } from "../../../records/algorithm/algorithm-schema.ts";
import type { Uncertain } from "../../../records/algorithm/uncertain-fields.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { hasPrices, severalAnalytes, unitOf } from "../names.ts";

/** Kits and channels as the file states them. */
export function Given({ report }: AlgorithmSectionProps) {
  const { given: words } = report.words.algorithm;
  const { file } = report.algorithms;
  return (
    <Section report={report} id="given">
      <p>{words.lead}</p>
      <DataTable
        report={report}
        caption={words.kitsCaption}
        columns={kitColumns(report)}
        groups={file.analytes.map(({ id, title }) => ({
          ...(severalAnalytes(report) ? { heading: title } : {}),
          rows: file.kits.flatMap((kit) => (Object.hasOwn(kit.analytes, id) ? [{ kit, analyte: id }] : [])),
        }))}
        note={words.note}
      />
      <DataTable
        report={report}
        caption={words.channelsCaption}
        columns={channelColumns(report)}
        groups={[{ rows: file.channels }]}
      />
    </Section>
  );
}

interface KitLine {
  readonly kit: FileKit;
  readonly analyte: string;
}

function kitColumns(report: AlgorithmReport): Column<KitLine>[] {
  const { kitColumns: columns } = report.words.algorithm.given;
  const { kits } = report.algorithms.file;
  const share = (head: string, of: (line: KitLine) => Uncertain | undefined): Column<KitLine> => ({
    head,
    kind: "number",
    cell: (line) => statedText(report, of(line)),
  });
  return [
    { head: columns.kit, heading: true, cell: ({ kit }) => kit.title },
    share(columns.sensitivity, ({ kit, analyte }) => kit.analytes[analyte]?.sensitivity),
    share(columns.specificity, ({ kit, analyte }) => kit.analytes[analyte]?.specificity),
    share(columns.invalid, ({ kit }) => kit.invalid),
    ...(kits.some(({ antigens }) => antigens !== undefined)
      ? [{ head: columns.antigens, cell: ({ kit }: KitLine) => kit.antigens ?? "" }]
      : []),
    ...(kits.some(({ minutes }) => minutes !== undefined)
      ? [
          {
            head: columns.minutes,
            kind: "number" as const,
            cell: ({ kit }: KitLine) => (kit.minutes === undefined ? "" : formats.count(kit.minutes)),
          },
        ]
      : []),
    ...(hasPrices(report)
      ? [
          {
            head: columns.price(unitOf(report)),
            kind: "number" as const,
            cell: ({ kit: { price } }: KitLine) =>
              price.value === undefined
                ? formats.statedRange(price.low ?? 0, price.high ?? 0)
                : formats.stated(price.value),
          },
        ]
      : []),
  ];
}

/** A share as it is stated: people out of people, a range, a known value. */
function statedText(report: AlgorithmReport, stated: Uncertain | undefined): string {
  if (stated === undefined) return "";
  const { value, low, high, a, b } = stated;
  if (value !== undefined) return `${formats.statedPercent(value)}${formats.THIN}%`;
  if (low !== undefined && high !== undefined) {
    return `${formats.range(formats.statedPercent(low), formats.statedPercent(high))}${formats.THIN}%`;
  }
  if (a !== undefined && b !== undefined) {
    return report.words.algorithm.given.beta(formats.stated(a), formats.stated(b));
  }
  const part = stated.right ?? stated.invalid ?? stated.positive ?? 0;
  const all = stated.total ?? stated.tested ?? 0;
  return formats.countOf(part, all);
}

function channelColumns(report: AlgorithmReport): Column<FileChannel>[] {
  const { channelColumns: columns } = report.words.algorithm.given;
  const { analytes, channels } = report.algorithms.file;
  return [
    { head: columns.channel, heading: true, cell: ({ title }) => title },
    { head: columns.clients, kind: "number", cell: ({ clients }) => formats.count(clients) },
    ...analytes.map(
      ({ id, title }): Column<FileChannel> => ({
        head: columns.prevalence(severalAnalytes(report) ? title : null),
        kind: "number",
        cell: ({ prevalence }) => statedText(report, prevalence[id]),
      }),
    ),
    ...(channels.some((channel) => channel.return !== undefined)
      ? [
          {
            head: columns.return,
            kind: "number" as const,
            cell: (channel: FileChannel) =>
              channel.return === undefined ? "" : `${formats.statedPercent(channel.return)}${formats.THIN}%`,
          },
        ]
      : []),
  ];
}
