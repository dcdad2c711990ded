import type { ComponentChildren } from "preact";
import type { DependenceSweep, DependentPair, TwoWayMap } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { OpenOrFolded } from "../../parts/open-or-folded.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { algorithmOf, channelTitle, pairTitle, severalAnalytes, testedTitle } from "../names.ts";
import { AlgorithmNotes, Share } from "../parts.tsx";
import { type SweepGroup, sweepGroups, sweepTitle } from "../sweeps.ts";

/** Each pair's error correlation with where it comes from and its bounds, and how much hangs on it. */
export function DependencePart({ report }: AlgorithmSectionProps) {
  const { dependence: words } = report.words.algorithm;
  const { kind, pairs, twoWay } = report.algorithms.dependence;
  const groups = sweepGroups(report);
  return (
    <Section report={report} id="dependence">
      <p>{words.lead}</p>
      <p>{words.kinds[kind]}</p>
      {pairs.length === 0 ? null : (
        <DataTable
          report={report}
          caption={words.caption}
          columns={pairColumns(report)}
          groups={[{ rows: pairs }]}
          note={words.note}
        />
      )}
      <AlgorithmNotes
        report={report}
        notes={pairs.flatMap(({ notes, estimated }) => [...notes, ...(estimated?.notes ?? [])])}
      />
      {groups.length === 0 ? null : <h3>{words.sweepsHeading}</h3>}
      {groups.map((group, place) => (
        <FirstOpen
          key={place}
          report={report}
          title={words.inAlgorithm(sweepTitle(report, group), algorithmOf(report, group.algorithm))}
          place={place}
        >
          <OneSweep report={report} group={group} place={place} />
        </FirstOpen>
      ))}
      {twoWay.length === 0 ? null : (
        <>
          <h3>{words.mapsHeading}</h3>
          <p>{words.mapLead}</p>
        </>
      )}
      {twoWay.map((map, place) => (
        <FirstOpen
          key={place}
          report={report}
          title={words.inAlgorithm(
            pairTitle(report, map.first, map.second),
            algorithmOf(report, map.algorithm),
          )}
          place={place}
        >
          <OneMap report={report} map={map} place={place} />
        </FirstOpen>
      ))}
    </Section>
  );
}

/** The first open under its name, the others folded. */
function FirstOpen(props: {
  report: AlgorithmReport;
  title: string;
  place: number;
  children: ComponentChildren;
}) {
  const { report, title, place, children } = props;
  if (place > 0) {
    return (
      <OpenOrFolded report={report} title={title} open={false}>
        {children}
      </OpenOrFolded>
    );
  }
  return (
    <>
      <p class="lead">
        <b>{report.words.grammar.closed(title)}</b>
      </p>
      {children}
    </>
  );
}

type Truth = "diseased" | "nondiseased";

function pairColumns(report: AlgorithmReport): Column<DependentPair>[] {
  const { columns, sources } = report.words.algorithm.dependence;
  const phi = (head: string, truth: Truth): Column<DependentPair> => ({
    head,
    kind: "number",
    cell: (pair) => (
      <>
        <b>{formats.correlation(pair[truth])}</b>
        <span class="limits">{limitsOf(pair, truth)}</span>
      </>
    ),
  });
  const allowed = (head: string, truth: Truth): Column<DependentPair> => ({
    head,
    kind: "number",
    cell: (pair) => boundsText(pair, truth),
  });
  return [
    {
      head: columns.pair,
      heading: true,
      cell: (pair) => (
        <>
          {pairTitle(report, pair.first, pair.second)}
          {severalAnalytes(report) ? <span class="place">{testedTitle(report, pair.analyte)}</span> : null}
        </>
      ),
    },
    { head: columns.source, cell: ({ source }) => sources[source] },
    phi(columns.nondiseased, "nondiseased"),
    allowed(columns.allowed, "nondiseased"),
    phi(columns.diseased, "diseased"),
    allowed(columns.allowed, "diseased"),
  ];
}

/** Limits of an estimate; nothing where the correlation was stated. */
function limitsOf({ estimated }: DependentPair, truth: Truth): string {
  const phi = estimated?.values[truth].phi;
  if (phi === undefined || phi.lower === null || phi.upper === null) return "";
  return formats.range(formats.correlation(phi.lower), formats.correlation(phi.upper));
}

function boundsText({ table }: DependentPair, truth: Truth): string {
  const { lowestPhi, highestPhi } = table.values[truth];
  if (lowestPhi === null || highestPhi === null) return "";
  return formats.range(formats.index(lowestPhi), formats.index(highestPhi));
}

interface SweepProps {
  readonly report: AlgorithmReport;
  readonly group: SweepGroup;
  readonly place: number;
}

function OneSweep({ report, group, place }: SweepProps) {
  const { dependence: words } = report.words.algorithm;
  const title = sweepTitle(report, group);
  const [first] = group.sweeps;
  if (first === undefined) return null;
  return (
    <>
      <p>
        {sweepSentence(report, group)} {missedSentence(report, group)}
      </p>
      <Chart
        report={report}
        name={algorithmFigureName("sweep", place, group.algorithm)}
        label={words.sweepChart(algorithmOf(report, group.algorithm), title)}
      >
        <SweepTable report={report} group={group} />
        <MissedTable report={report} group={group} />
      </Chart>
    </>
  );
}

/** What dependence takes away where the page leads, from none to what is stated. */
function sweepSentence(report: AlgorithmReport, { sweeps }: SweepGroup): string {
  const { dependence: words } = report.words.algorithm;
  const { lines } = report.algorithms.answer;
  const parts = sweeps.flatMap((sweep) => {
    const line = lines.find(
      ({ channel, algorithm }) => channel === sweep.channel && algorithm === sweep.algorithm,
    );
    const none = sweep.nondiseased[0];
    const last = sweep.nondiseased.at(-1);
    if (line === undefined || none === undefined || last === undefined) return [];
    return [
      words.sweepPart(
        report.words.grammar.inline(channelTitle(report, sweep.channel)),
        formats.expectedFew(none.falsePositives),
        formats.expectedFew(line.per100000.falsePositives),
        formats.expectedFew(last.falsePositives),
      ),
    ];
  });
  return words.sweepSentence(report.words.grammar.listed(parts));
}

/** Rows of the folded tables. */
const ROWS = 20;

function some<Row>(rows: readonly Row[]): Row[] {
  const step = Math.max(1, Math.ceil(rows.length / ROWS));
  return rows.filter((_, at) => at % step === 0 || at === rows.length - 1);
}

function SweepTable({ report, group }: Omit<SweepProps, "place">) {
  const { dependence: words } = report.words.algorithm;
  type Point = DependenceSweep["nondiseased"][number];
  return (
    <DataTable
      report={report}
      caption={words.sweepCaption(algorithmOf(report, group.algorithm), sweepTitle(report, group))}
      columns={[
        {
          head: words.sweepColumns[group.over],
          heading: true,
          kind: "number",
          cell: ({ value }: Point) => formats.correlation(value),
        },
        {
          head: words.sweepColumns.ppv,
          kind: "number",
          cell: ({ ppv }) => <Share report={report} of={ppv} />,
        },
        {
          head: words.sweepColumns.falsePositives,
          kind: "number",
          cell: ({ falsePositives }) => formats.expectedFew(falsePositives),
        },
      ]}
      groups={group.sweeps.map((sweep) => ({
        heading: channelTitle(report, sweep.channel),
        rows: some(sweep.nondiseased),
      }))}
      long
    />
  );
}

/** What dependence among the truly positive does to the net sensitivity. */
function missedSentence(report: AlgorithmReport, { sweeps }: SweepGroup): string {
  const [sweep] = sweeps;
  const [none, last] = [sweep?.diseased[0], sweep?.diseased.at(-1)];
  if (sweep === undefined || none === undefined || last === undefined) return "";
  if (none.sensitivity === null || last.sensitivity === null || none === last) return "";
  const { dependence: words } = report.words.algorithm;
  return words.missedSentence(
    formats.percentSigned(none.sensitivity),
    formats.percentSigned(last.sensitivity),
  );
}

/** The same as numbers, of the first channel: the others have the same net sensitivity. */
function MissedTable({ report, group }: Omit<SweepProps, "place">) {
  const { dependence: words } = report.words.algorithm;
  type Point = DependenceSweep["diseased"][number];
  const [sweep] = group.sweeps;
  if (sweep === undefined || sweep.diseased.length < 2) return null;
  return (
    <DataTable
      report={report}
      caption={words.missedCaption(
        algorithmOf(report, group.algorithm),
        sweepTitle(report, group),
        channelTitle(report, sweep.channel),
      )}
      columns={[
        {
          head: words.missedColumns[group.over],
          heading: true,
          kind: "number",
          cell: ({ value }: Point) => formats.correlation(value),
        },
        {
          head: words.missedColumns.sensitivity,
          kind: "number",
          cell: ({ sensitivity }) => <Share report={report} of={sensitivity} />,
        },
        {
          head: words.missedColumns.missed(channelTitle(report, sweep.channel)),
          kind: "number",
          cell: ({ missed }) => formats.expectedFew(missed),
        },
      ]}
      groups={[{ rows: some(sweep.diseased) }]}
    />
  );
}

function OneMap({ report, map, place }: { report: AlgorithmReport; map: TwoWayMap; place: number }) {
  const { dependence: words } = report.words.algorithm;
  const pair = pairTitle(report, map.first, map.second);
  const title = algorithmOf(report, map.algorithm);
  const prevalences = [...new Set(map.cells.map(({ prevalence }) => prevalence))];
  const phis = [...new Set(map.cells.map(({ phi }) => phi))];
  const columns: Column<number>[] = [
    { head: words.mapPhi, heading: true, kind: "number", cell: (phi) => formats.correlation(phi) },
    ...prevalences.map(
      (prevalence): Column<number> => ({
        head: words.mapPrevalence(formats.significantPercent(prevalence)),
        kind: "number",
        cell: (phi) => (
          <Share
            report={report}
            of={map.cells.find((cell) => cell.phi === phi && cell.prevalence === prevalence)?.ppv ?? null}
          />
        ),
      }),
    ),
  ];
  return (
    <Chart
      report={report}
      name={algorithmFigureName("map", place, map.algorithm)}
      label={words.mapChart(title, pair)}
    >
      <DataTable
        report={report}
        caption={words.mapCaption(title, pair)}
        columns={columns}
        groups={[{ rows: phis }]}
      />
    </Chart>
  );
}
