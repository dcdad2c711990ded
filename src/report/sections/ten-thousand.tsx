import type { Predictive } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { mostReactive, ReactiveBar } from "../figures/reactive-bar.tsx";
import * as formats from "../formats.ts";
import { analyteTitle, mainCell, speaksOfAgreement, specimenTitle } from "../names.ts";
import { EstimateHead, PercentInterval } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

type Programme = Predictive["programmes"][number];

/** The predictive part of each analyte's main cell, where the report may speak of it. */
function mainPredictive(report: Report): Predictive[] {
  return report.evaluation.study.analytes.flatMap((analyte) => {
    if (speaksOfAgreement(report, analyte.id)) return [];
    const found = mainCell(report.evaluation.predictive, analyte.id);
    return found === undefined || found.programmes.length === 0 ? [] : [found];
  });
}

/** What the estimates mean for people, at each prevalence of the programmes. */
export function TenThousand({ report }: SectionProps) {
  const parts = mainPredictive(report);
  if (parts.length === 0) return null;
  const { tenThousand: words } = report.words;
  const specimens = [...new Set(parts.map((part) => specimenTitle(report, part.specimen)))];
  const several = report.evaluation.study.specimens.length > 1;
  return (
    <section id="people" aria-labelledby="people-heading">
      <h2 id="people-heading">{words.heading}</h2>
      <DataTable
        report={report}
        caption={words.caption}
        lead={words.lead(several ? report.words.grammar.listed(specimens) : null)}
        columns={columnsOf(report)}
        groups={parts.map((part) => ({
          heading: analyteTitle(report, part.analyte),
          analyte: part.analyte,
          rows: linesOf(part),
        }))}
        note={words.howToRead(parts.length > 1)}
      />
    </section>
  );
}

/** One programme, and the end of the scale that all bars of its analyte share. */
interface Line extends Programme {
  readonly most: number;
}

function linesOf({ programmes }: Predictive): Line[] {
  const most = mostReactive(programmes.map(expectedReactive));
  return programmes.map((programme) => ({ ...programme, most }));
}

const expectedReactive = ({ per10000 }: Programme) => ({
  truePositives: per10000.truePositives.value,
  falsePositives: per10000.falsePositives.value,
});

function columnsOf(report: Report): Column<Line>[] {
  const { columns } = report.words.tenThousand;
  const expected = (of: formats.Limits) =>
    of.value === null ? report.words.page.notEstimable : formats.expectedPeople(of.value);
  return [
    { head: columns.programme, heading: true, cell: (programme) => programme.title },
    {
      head: columns.prevalence,
      kind: "number",
      cell: (programme) => formats.statedPercent(programme.prevalence),
    },
    {
      head: <BarHead report={report} />,
      kind: "figure",
      cell: ({ per10000, most }) => (
        <ReactiveBar
          truePositives={per10000.truePositives.value}
          falsePositives={per10000.falsePositives.value}
          most={most}
          width={190}
        />
      ),
    },
    { head: columns.reactive, kind: "number", cell: ({ per10000 }) => expected(per10000.reactive) },
    { head: columns.true, kind: "number", cell: ({ per10000 }) => expected(per10000.truePositives) },
    { head: columns.false, kind: "number", cell: ({ per10000 }) => expected(per10000.falsePositives) },
    { head: columns.missed, kind: "number", cell: ({ per10000 }) => expected(per10000.falseNegatives) },
    {
      head: (
        <EstimateHead
          sign={columns.ppv}
          limits={report.words.page.interval(report.evaluation.study.interval.level)}
        />
      ),
      kind: "number",
      cell: (programme) => <PercentInterval report={report} of={programme.ppv} />,
    },
  ];
}

/** What the two parts of a bar are, in their order and their inks. */
function BarHead({ report }: SectionProps) {
  const { columns } = report.words.tenThousand;
  return (
    <>
      {columns.bar} <span class="key true" />
      {columns.keyTrue}
      <span class="key false" />
      {columns.keyFalse}
    </>
  );
}
