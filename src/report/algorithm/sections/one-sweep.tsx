import type { DependenceSweep } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { algorithmOf, channelTitle } from "../names.ts";
import { Share } from "../parts.tsx";
import { type SweepGroup, sweepTitle } from "../sweeps.ts";

interface SweepProps {
  readonly report: AlgorithmReport;
  readonly group: SweepGroup;
  readonly place: number;
}

/** How far an answer moves with one pair's dependence, or that of all kits: in words, as a chart, as numbers. */
export function OneSweep({ report, group, place }: SweepProps) {
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
  const parts = sweeps.flatMap((sweep, at) => {
    const line = lines.find(
      ({ channel, algorithm }) => channel === sweep.channel && algorithm === sweep.algorithm,
    );
    const none = sweep.nondiseased[0];
    const last = sweep.nondiseased.at(-1);
    if (line === undefined || none === undefined || last === undefined) return [];
    return [
      words.sweepPart(
        report.words.grammar.inline(channelTitle(report, sweep.channel)),
        at === 0,
        formats.expectedFew(none.falsePositives),
        formats.expectedFew(line.per100000.falsePositives),
        formats.expectedFew(last.falsePositives),
      ),
    ];
  });
  return words.sweepSentence(parts);
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
