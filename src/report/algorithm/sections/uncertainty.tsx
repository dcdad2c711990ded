import type { DrawnUncertainty } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { drawsMade, drawsText } from "../draws.ts";
import { algorithmTitle, hasPrices, unitOf } from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";
import { groupHeading } from "./people.tsx";
import { Tornadoes } from "./tornadoes.tsx";

/** What the kits' and channels' uncertain numbers leave open. */
export function Uncertainty({ report }: AlgorithmSectionProps) {
  const { uncertainty: words } = report.words.algorithm;
  const { uncertainty, file } = report.algorithms;
  const rows = uncertainty.flatMap((drawn) => rowsOf(drawn));
  const keys = [...new Set(rows.map(({ channel, analyte }) => `${channel} ${analyte}`))];
  const groups = keys.map((key) => {
    const mine = rows.filter(({ channel, analyte }) => `${channel} ${analyte}` === key);
    return { heading: groupHeading(report, mine[0]?.channel ?? "", mine[0]?.analyte ?? ""), rows: mine };
  });
  return (
    <Section report={report} id="uncertainty">
      <p>{words.lead(drawsText(report))}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={shareColumns(report)}
        groups={groups}
        note={words.note(file.level)}
        long
      />
      <DataTable
        report={report}
        caption={words.peopleCaption}
        columns={peopleColumns(report)}
        groups={groups}
        long
      />
      <AlgorithmNotes report={report} notes={uncertainty.flatMap(({ drawn }) => drawn.notes)} />
      {drawsMade(report).some((draws) => draws < file.draws) ? (
        <p class="how">{words.fewer(formats.count(file.draws))}</p>
      ) : null}
      <Tornadoes report={report} />
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

/** A column of medians with their limits. */
function limited(
  report: AlgorithmReport,
  head: string,
  of: (row: DrawnRow) => Interval,
  format: (value: number, all: formats.Limits) => string,
): Column<DrawnRow> {
  return {
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
  };
}

function nameColumn(report: AlgorithmReport): Column<DrawnRow> {
  const { columns } = report.words.algorithm.uncertainty;
  return { head: columns.algorithm, heading: true, cell: ({ of }) => algorithmTitle(report, of.id) };
}

function shareColumns(report: AlgorithmReport): Column<DrawnRow>[] {
  const { columns } = report.words.algorithm.uncertainty;
  const percent = (head: string, of: (row: DrawnRow) => Interval) =>
    limited(report, head, of, (value, all) => formats.percent(value, formats.percentDecimals(all)));
  const chance = (head: string, of: (row: DrawnRow) => number | null): Column<DrawnRow> => ({
    head,
    kind: "number",
    cell: (row) => formats.probability(of(row) ?? 0),
  });
  return [
    nameColumn(report),
    percent(columns.sensitivity, ({ of }) => of.sensitivity),
    percent(columns.specificity, ({ of }) => of.specificity),
    percent(columns.ppv, ({ at }) => at.ppv),
    percent(columns.npv, ({ at }) => at.npv),
    chance(columns.all, ({ at }) => at.reaches.all.value),
    chance(columns.best, ({ at }) => at.best.value),
  ];
}

function peopleColumns(report: AlgorithmReport): Column<DrawnRow>[] {
  const { columns } = report.words.algorithm.uncertainty;
  return [
    nameColumn(report),
    limited(report, columns.falsePositives, ({ at }) => at.falsePositives, formats.expectedFew),
    limited(report, columns.missed, ({ at }) => at.missed, formats.expectedFew),
    limited(report, columns.inconclusive, ({ at }) => at.inconclusive, formats.expectedFew),
    ...(hasPrices(report)
      ? [limited(report, columns.cost(unitOf(report)), ({ at }) => at.cost, formats.ratio)]
      : []),
  ];
}
