import type { AlgorithmLine, AlgorithmOutcome } from "../../../evaluation/algorithm/document.ts";
import { PeopleArray } from "../../figures/people-array.tsx";
import { FATES, type Fate } from "../../figures/person-marks.ts";
import * as formats from "../../formats.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import {
  algorithmTitle,
  channelTitle,
  hasPrices,
  kitName,
  leadingLine,
  severalAnalytes,
  testedTitle,
  unitOf,
} from "../names.ts";
import { lineGroups } from "./answer-table.tsx";

/** What it does to people: ten thousand of them as marks, then every line in numbers of people and money. */
export function People({ report }: AlgorithmSectionProps) {
  const { people: words } = report.words.algorithm;
  const line = leadingLine(report);
  return (
    <section id="people" aria-labelledby="people-heading">
      <h2 id="people-heading">{words.heading}</h2>
      {line === undefined ? null : <Array10000 report={report} line={line} />}
      <DataTable
        report={report}
        caption={words.caption}
        lead={words.lead}
        columns={columnsOf(report)}
        groups={lineGroups(report).map((group) => ({
          heading: groupHeading(report, group.channel, group.analyte),
          rows: group.lines,
        }))}
        note={words.note(
          hasPrices(report),
          report.algorithms.answer.lines.some(({ per100000 }) => per100000.lost > 0),
        )}
        long
      />
    </section>
  );
}

export function groupHeading(report: AlgorithmReport, channel: string, analyte: string): string {
  const title = channelTitle(report, channel);
  return severalAnalytes(report)
    ? report.words.algorithm.channelAnalyte(title, testedTitle(report, analyte))
    : title;
}

function Array10000({ report, line }: { report: AlgorithmReport; line: AlgorithmLine }) {
  const { people: words } = report.words.algorithm;
  const found = report.algorithms.outcomes.find(
    ({ channel, algorithm }) => channel === line.channel && algorithm === line.algorithm,
  );
  if (found === undefined) return null;
  const { diseased, nondiseased } = found.outcome.values.byTruth;
  const of = (share: number | null, truth: number) => (share ?? 0) * truth * 10_000;
  const [positive, negative] = [line.prevalence, 1 - line.prevalence];
  const expected = {
    found: of(diseased.positive, positive),
    unclearPositive: of(diseased.inconclusive, positive) + of(diseased.lost, positive),
    missed: of(diseased.negative, positive),
    falseAlarm: of(nondiseased.positive, negative),
    unclearNegative: of(nondiseased.inconclusive, negative) + of(nondiseased.lost, negative),
    rest: of(nondiseased.negative, negative),
  };
  const title = words.array(
    algorithmTitle(report, line.algorithm),
    report.words.grammar.inline(channelTitle(report, line.channel)),
  );
  const called = expected.found + expected.falseAlarm;
  return (
    <figure class="chart">
      <figcaption class="lead">
        {title} {words.called(formats.expectedFew(called), formats.expectedFew(expected.falseAlarm))}{" "}
        {firstAlone(report, found)}
      </figcaption>
      <Drawing label={title}>
        <PeopleArray title={title} expected={expected} />
      </Drawing>
      <details class="aside">
        <summary>{report.words.page.data}</summary>
        <ArrayTable report={report} expected={expected} />
      </details>
    </figure>
  );
}

/** Truth, and what it is called, of every mark of the array. */
const MEANING: Record<Fate, readonly ["positive" | "negative", "positive" | "negative" | "inconclusive"]> = {
  found: ["positive", "positive"],
  unclearPositive: ["positive", "inconclusive"],
  missed: ["positive", "negative"],
  falseAlarm: ["negative", "positive"],
  unclearNegative: ["negative", "inconclusive"],
  rest: ["negative", "negative"],
};

function ArrayTable(props: { report: AlgorithmReport; expected: Readonly<Record<Fate, number>> }) {
  const { report, expected } = props;
  const { people: words, tree } = report.words.algorithm;
  return (
    <DataTable
      report={report}
      caption={words.arrayCaption}
      columns={[
        {
          head: words.arrayColumns.truth,
          heading: true,
          cell: (fate: Fate) => words.truth[MEANING[fate][0]],
        },
        { head: words.arrayColumns.called, cell: (fate) => tree.statuses[MEANING[fate][1]] },
        {
          head: words.arrayColumns.people,
          kind: "number",
          cell: (fate) => formats.expectedFew(expected[fate]),
        },
      ]}
      groups={[{ rows: FATES }]}
    />
  );
}

/** What the first kit alone would have called wrongly, where it isn't the whole algorithm. */
function firstAlone(report: AlgorithmReport, { flow }: AlgorithmOutcome): string {
  const [first] = flow.steps;
  if (first === undefined || flow.steps.length < 2) return "";
  const reactive = first.leads.find(({ result }) => result === "reactive");
  if (reactive === undefined) return "";
  return report.words.algorithm.people.firstAlone(
    kitName(report, first.kit),
    formats.expectedFew(reactive.nondiseased),
  );
}

function columnsOf(report: AlgorithmReport): Column<AlgorithmLine>[] {
  const { columns, best } = report.words.algorithm.people;
  const { lines } = report.algorithms.answer;
  const people = (head: string, of: (line: AlgorithmLine) => number): Column<AlgorithmLine> => ({
    head,
    kind: "number",
    cell: (line) => formats.expectedFew(of(line)),
  });
  const lost = lines.some(({ per100000 }) => per100000.lost > 0);
  const prices = hasPrices(report);
  const amount = (head: string, of: (line: AlgorithmLine) => number | null): Column<AlgorithmLine> => ({
    head,
    kind: "number",
    cell: (line) => {
      const value = of(line);
      return value === null ? "" : formats.ratio(value);
    },
  });
  const unit = unitOf(report);
  return [
    {
      head: columns.algorithm,
      heading: true,
      cell: ({ algorithm, channel, analyte }) => {
        const chosen = report.algorithms.answer.best.find(
          (one) => one.channel === channel && one.analyte === analyte,
        );
        return (
          <>
            {algorithmTitle(report, algorithm)}
            {chosen?.cheapest === algorithm ? <span class="place">{best}</span> : null}
          </>
        );
      },
    },
    people(columns.found, ({ per100000 }) => per100000.truePositives),
    people(columns.falsePositives, ({ per100000 }) => per100000.falsePositives),
    people(columns.missed, ({ per100000 }) => per100000.missed),
    people(columns.inconclusive, ({ per100000 }) => per100000.inconclusive + per100000.lost),
    ...(lost ? [people(columns.lost, ({ per100000 }) => per100000.lost)] : []),
    ...(prices
      ? [
          amount(columns.perClient(unit), ({ cost }) => cost.perClient.value),
          amount(columns.perCase(unit), ({ cost }) => cost.perCaseFound),
        ]
      : []),
  ];
}
