import type { DrawnUncertainty } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmTitle, hasPrices, unitOf } from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";
import { groupHeading } from "./people.tsx";

/** What the kits' and channels' uncertain numbers leave open. */
export function Uncertainty({ report }: AlgorithmSectionProps) {
  const { uncertainty: words } = report.words.algorithm;
  const { uncertainty, file } = report.algorithms;
  const rows = uncertainty.flatMap((drawn) => rowsOf(drawn));
  const keys = [...new Set(rows.map(({ channel, analyte }) => `${channel} ${analyte}`))];
  return (
    <Section report={report} id="uncertainty">
      <p>{words.lead(formats.count(file.draws))}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report)}
        groups={keys.map((key) => {
          const mine = rows.filter(({ channel, analyte }) => `${channel} ${analyte}` === key);
          return {
            heading: groupHeading(report, mine[0]?.channel ?? "", mine[0]?.analyte ?? ""),
            rows: mine,
          };
        })}
        note={words.note(file.level)}
        long
      />
      <AlgorithmNotes report={report} notes={uncertainty.flatMap(({ drawn }) => drawn.notes)} />
    </Section>
  );
}

type Drawn = DrawnUncertainty["drawn"]["values"]["algorithms"][number];
interface DrawnRow {
  readonly channel: string;
  readonly analyte: string;
  readonly of: Drawn;
  readonly at: Drawn["at"][number];
}

function rowsOf({ analyte, channels, drawn }: DrawnUncertainty): DrawnRow[] {
  return channels.flatMap((channel, place) =>
    drawn.values.algorithms.flatMap((of) => {
      const at = of.at[place];
      return at === undefined ? [] : [{ channel, analyte, of, at }];
    }),
  );
}

interface Interval {
  readonly median: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

function columnsOf(report: AlgorithmReport): Column<DrawnRow>[] {
  const { columns } = report.words.algorithm.uncertainty;
  const limited = (
    head: string,
    of: (row: DrawnRow) => Interval,
    format: (value: number, all: formats.Limits) => string,
  ): Column<DrawnRow> => ({
    head,
    kind: "number",
    cell: (row) => {
      const { median: value, lower, upper } = of(row);
      if (value === null) return <span class="absent">{report.words.page.notEstimable}</span>;
      const all = { value, lower, upper };
      return (
        <>
          <b>{format(value, all)}</b>
          <span class="limits">
            {lower === null || upper === null ? "" : formats.range(format(lower, all), format(upper, all))}
          </span>
        </>
      );
    },
  });
  const percent = (value: number, all: formats.Limits) =>
    formats.percent(value, formats.percentDecimals(all));
  const prices = hasPrices(report);
  return [
    { head: columns.algorithm, heading: true, cell: ({ of }) => algorithmTitle(report, of.id) },
    limited(columns.ppv, ({ at }) => at.ppv, percent),
    limited(columns.npv, ({ at }) => at.npv, percent),
    limited(columns.falsePositives, ({ at }) => at.falsePositives, formats.expectedFew),
    limited(columns.missed, ({ at }) => at.missed, formats.expectedFew),
    limited(columns.inconclusive, ({ at }) => at.inconclusive, formats.expectedFew),
    ...(prices ? [limited(columns.cost(unitOf(report)), ({ at }) => at.cost, formats.ratio)] : []),
    {
      head: columns.all,
      kind: "number",
      cell: ({ at }) => formats.probability(at.reaches.all.value ?? 0),
    },
    { head: columns.best, kind: "number", cell: ({ at }) => formats.probability(at.best.value ?? 0) },
  ];
}
