import type { AlgorithmSearch } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { channelTitle, hasPrices, kitName, severalAnalytes, testedTitle, unitOf } from "../names.ts";
import { AlgorithmNotes, Share } from "../parts.tsx";
import { chancesOf, type Standing, searchedTitle, standingsAt, stretchesOf } from "../search-names.ts";
import { Frontiers } from "./frontiers.tsx";

/** Every usual algorithm of the kits: which is best where, and which no other beats. */
export function Search({ report }: AlgorithmSectionProps) {
  const { search: words } = report.words.algorithm;
  const { frontier } = report.algorithms;
  return (
    <Section report={report} id="search">
      <p>{words.lead(Object.keys(report.algorithms.file.targets).length > 0)}</p>
      {frontier.map((found, place) => (
        <OneSearch key={found.analyte} report={report} found={found} place={place} />
      ))}
    </Section>
  );
}

/** Said by the strip, the tables and the best in each channel. */
const NONE_BEST = "no_algorithm";

type Search = NonNullable<AlgorithmSearch["search"]>;
interface Props {
  readonly report: AlgorithmReport;
  readonly found: AlgorithmSearch;
  readonly place: number;
}

function OneSearch({ report, found, place }: Props) {
  const { search: words } = report.words.algorithm;
  const { search } = found;
  const kits = [...new Set(search?.values.algorithms.flatMap((one) => one.kits) ?? [])];
  const named = report.words.grammar.listed(kits.map((kit) => kitName(report, kit)));
  return (
    <>
      {severalAnalytes(report) ? <h3>{testedTitle(report, found.analyte)}</h3> : null}
      {search === null ? null : (
        <>
          <p>{words.searched(formats.count(search.values.algorithms.length), named)}</p>
          <BestTable report={report} found={found} search={search} />
          <Chart
            report={report}
            name={algorithmFigureName("best", place, found.analyte)}
            label={words.bestChart(testedTitle(report, found.analyte))}
          >
            <StretchTable report={report} found={found} search={search} />
            <ChanceTable report={report} found={found} search={search} />
          </Chart>
          <Frontiers report={report} found={found} search={search} />
        </>
      )}
      <AlgorithmNotes
        report={report}
        notes={[...found.notes, ...(search?.notes ?? []).filter(({ code }) => code !== NONE_BEST)]}
      />
    </>
  );
}

interface Known {
  readonly report: AlgorithmReport;
  readonly found: AlgorithmSearch;
  readonly search: Search;
}

type Best = AlgorithmSearch["channels"][number];

/** The best in each channel. */
function BestTable({ report, found, search }: Known) {
  const { search: words } = report.words.algorithm;
  const { bestColumns: columns } = words;
  const standing = ({ best, prevalence }: Best) =>
    standingsAt(search, prevalence)?.notBeaten.find(({ algorithm }) => algorithm === best);
  const number = (
    head: string,
    of: (one: Standing) => number | null,
    format: (value: number) => string,
  ): Column<Best> => ({
    head,
    kind: "number",
    cell: (line) => {
      const one = standing(line);
      const value = one === undefined ? null : of(one);
      return value === null ? "" : format(value);
    },
  });
  return (
    <DataTable
      report={report}
      caption={words.bestCaption(testedTitle(report, found.analyte))}
      columns={[
        {
          head: columns.channel,
          heading: true,
          cell: ({ channel, prevalence }) => (
            <>
              {channelTitle(report, channel)}
              <span class="place">
                {formats.significantPercent(prevalence)}
                {formats.THIN}%
              </span>
            </>
          ),
        },
        {
          head: columns.best,
          kind: "short",
          cell: ({ best }) =>
            best === null ? <span class="absent">{words.none}</span> : searchedTitle(report, search, best),
        },
        {
          head: columns.chance,
          kind: "number",
          cell: ({ chance }) => (chance === null ? "" : formats.probability(chance)),
        },
        {
          head: columns.ppv,
          kind: "number",
          cell: (line) => {
            const one = standing(line);
            return one === undefined ? "" : <Share report={report} of={one.ppv} />;
          },
        },
        number(columns.falsePositives, (one) => one.falsePositives, formats.expectedFew),
        number(columns.missed, (one) => one.missed, formats.expectedFew),
        number(columns.inconclusive, (one) => one.inconclusive, formats.expectedFew),
        ...(hasPrices(report)
          ? [number(columns.cost(unitOf(report)), (one) => one.cost, formats.ratio)]
          : []),
      ]}
      groups={[{ rows: found.channels }]}
      note={words.bestNote}
    />
  );
}

type Stretch = ReturnType<typeof stretchesOf>[number];

function StretchTable({ report, found, search }: Known) {
  const { search: words } = report.words.algorithm;
  const { stretchColumns: columns } = words;
  return (
    <DataTable
      report={report}
      caption={words.stretchCaption(testedTitle(report, found.analyte))}
      columns={[
        {
          head: columns.from,
          heading: true,
          kind: "number",
          cell: ({ from }: Stretch) => formats.ratio(from * 100),
        },
        { head: columns.to, kind: "number", cell: ({ to }) => formats.ratio(to * 100) },
        { head: columns.best, cell: ({ best }) => searchedTitle(report, search, best) ?? words.none },
      ]}
      groups={[{ rows: stretchesOf(search) }]}
    />
  );
}

function ChanceTable({ report, found, search }: Known) {
  const { search: words } = report.words.algorithm;
  const lines = chancesOf(search);
  const rows = search.values.drawn?.at ?? [];
  if (lines.length === 0) return null;
  type Row = (typeof rows)[number];
  return (
    <DataTable
      report={report}
      caption={words.chanceCaption(testedTitle(report, found.analyte))}
      columns={[
        {
          head: words.prevalence,
          heading: true,
          kind: "number",
          cell: ({ prevalence }: Row) => formats.ratio(prevalence * 100),
        },
        ...lines.map(
          ({ id }): Column<Row> => ({
            head: searchedTitle(report, search, id) ?? id,
            kind: "number",
            cell: ({ algorithms }) =>
              formats.probability(algorithms.find(({ algorithm }) => algorithm === id)?.best ?? 0),
          }),
        ),
        {
          head: words.none,
          kind: "number",
          cell: ({ none }) => (none === null ? "" : formats.probability(none)),
        },
      ]}
      groups={[{ rows }]}
    />
  );
}
