import type { DependenceSweep, DependentPair, TwoWayMap } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { algorithmTitle, channelTitle, pairTitle, severalAnalytes, testedTitle } from "../names.ts";
import { AlgorithmNotes, Share } from "../parts.tsx";
import { type SweepGroup, sweepGroups, sweepTitle } from "../sweeps.ts";

/** Each pair's error correlation with where it comes from and its bounds, and how much hangs on it. */
export function DependencePart({ report }: AlgorithmSectionProps) {
  const { dependence: words } = report.words.algorithm;
  const { kind, pairs, twoWay } = report.algorithms.dependence;
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
      {sweepGroups(report).map((group, place) => (
        <OneSweep key={place} report={report} group={group} place={place} />
      ))}
      {twoWay.map((map, place) => (
        <OneMap key={place} report={report} map={map} place={place} />
      ))}
    </Section>
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
      <h3>{words.sweepHeading(algorithmTitle(report, group.algorithm), title)}</h3>
      <p>{sweepSentence(report, group)}</p>
      <Chart
        report={report}
        name={algorithmFigureName("sweep", place, group.algorithm)}
        label={words.sweepChart(algorithmTitle(report, group.algorithm), title)}
      >
        <SweepTable report={report} group={group} place={place} />
      </Chart>
      <MissedTable report={report} group={group} place={place} />
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

function SweepTable({ report, group, place }: SweepProps) {
  const { dependence: words } = report.words.algorithm;
  type Point = DependenceSweep["nondiseased"][number];
  return (
    <DataTable
      report={report}
      caption={words.sweepCaption(
        algorithmTitle(report, group.algorithm),
        sweepTitle(report, group),
        place + 1,
      )}
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

/** What dependence among the truly positive does: fewer are missed by a chain, more by tests in parallel. */
function MissedTable({ report, group, place }: SweepProps) {
  const { dependence: words } = report.words.algorithm;
  type Point = DependenceSweep["diseased"][number];
  const [sweep] = group.sweeps;
  if (sweep === undefined || sweep.diseased.length < 2) return null;
  const points = sweep.diseased;
  const picked = [0, 0.25, 0.5, 0.75, 1]
    .map((part) => points[Math.round(part * (points.length - 1))])
    .filter((point): point is Point => point !== undefined);
  return (
    <DataTable
      report={report}
      caption={words.missedCaption(
        algorithmTitle(report, group.algorithm),
        sweepTitle(report, group),
        place + 1,
      )}
      lead={words.missedLead(report.words.grammar.inline(channelTitle(report, sweep.channel)))}
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
          head: words.missedColumns.missed,
          kind: "number",
          cell: ({ missed }) => formats.expectedFew(missed),
        },
      ]}
      groups={[{ rows: picked }]}
    />
  );
}

function OneMap({ report, map, place }: { report: AlgorithmReport; map: TwoWayMap; place: number }) {
  const { dependence: words } = report.words.algorithm;
  const pair = pairTitle(report, map.first, map.second);
  const title = algorithmTitle(report, map.algorithm);
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
    <>
      <h3>{words.mapHeading(title, pair)}</h3>
      <p>{words.mapLead}</p>
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
    </>
  );
}
