import type { Clustered as ClusteredOf } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { stripDomain } from "../figures/strip-scale.ts";
import * as formats from "../formats.ts";
import { type Cell, cellTitle, sameCell, termsOf } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { EstimateHead, PercentInterval } from "../parts/numbers.tsx";
import { shareStrips } from "../parts/strip-column.tsx";
import { DataTable } from "../parts/table.tsx";

interface ClusteredProps {
  readonly report: Report;
  readonly cell: Cell;
  /** Whether to say how the table is read: once on the page is enough. */
  readonly explained: boolean;
}

/** The plain interval beside those that allow for people being alike within a cluster. */
export function Clustered({ report, cell, explained }: ClusteredProps) {
  const { clusters: words, page } = report.words;
  const found = report.evaluation.clustered.filter((one) => sameCell(one, cell));
  const [first] = found;
  if (first === undefined) return null;
  const domain = stripDomain(found.flatMap((one) => linesOf(report, one).map((line) => line.of)));
  return (
    <>
      <h4>{words.heading(first.cluster)}</h4>
      {explained ? <p class="lead">{words.lead(first.cluster, first.clusters)}</p> : null}
      <DataTable
        report={report}
        caption={words.caption(cellTitle(report, cell))}
        columns={[
          { head: words.columns.interval, heading: true, cell: (line) => line.name },
          {
            head: (
              <EstimateHead
                sign={words.columns.estimate}
                limits={page.interval(report.evaluation.study.interval.level)}
              />
            ),
            kind: "number",
            cell: (line) => <PercentInterval report={report} of={line.of} />,
          },
          shareStrips(domain, (line: Line) => line.of),
        ]}
        groups={found.map((one) => ({ heading: groupTitle(report, one), rows: linesOf(report, one) }))}
      />
      <p>{effectsText(report, found)}</p>
      <Notes report={report} notes={found.flatMap(({ notes }) => notes)} />
    </>
  );
}

interface Line {
  readonly name: string;
  readonly of: formats.Limits;
}

/** The plain interval, and each of the others that exists. */
function linesOf(report: Report, one: ClusteredOf): Line[] {
  const { clusters: words, codes } = report.words;
  const { method } = report.evaluation.study.interval;
  const lines = [
    { name: words.rows.plain(codes.intervalsShort[method]), of: one.plain },
    { name: words.rows.effective, of: one.effective },
    { name: words.rows.ratioEstimator, of: one.ratioEstimator },
    { name: words.rows.bootstrap, of: one.bootstrap },
  ];
  return lines.filter(({ of }, place) => place === 0 || of.lower !== null || of.upper !== null);
}

function groupTitle(report: Report, one: ClusteredOf): string {
  const { clusters: words, grammar } = report.words;
  const { intraclusterCorrelation: alike } = one;
  const measure = grammar.sentence(termsOf(report, one.analyte)[one.measure]);
  return words.group(measure, alike === null ? null : formats.correlation(alike));
}

/** What the design effects mean: how many independent people these are worth. */
function effectsText(report: Report, found: readonly ClusteredOf[]): string {
  const { clusters: words } = report.words;
  const name = (one: ClusteredOf) => termsOf(report, one.analyte)[one.measure];
  const text = (effect: number | null) => (effect === null ? "" : formats.statistic(effect));
  const known = found.filter(({ designEffect }) => designEffect !== null);
  const worse = known.filter(({ designEffect }) => (designEffect ?? 0) > 1);
  const alike = known.filter((one) => !worse.includes(one));
  return [
    ...worse.map((one) =>
      words.effect(
        name(one),
        text(one.designEffect),
        one.plain.total,
        formats.expectedPeople(one.effectiveTotal ?? one.plain.total / (one.designEffect ?? 1)),
      ),
    ),
    ...(alike.length === 0
      ? []
      : [
          words.noEffect(
            alike.map(name),
            alike.map(({ designEffect }) => text(designEffect)),
          ),
        ]),
    ...found.filter((one) => !known.includes(one)).map((one) => words.noDesignEffect(name(one))),
  ].join(" ");
}
