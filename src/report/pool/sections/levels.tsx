import type { PooledCovariate, PooledLevel } from "../../../evaluation/pool/document.ts";
import * as formats from "../../formats.ts";
import { PercentInterval, PercentLimits, pText } from "../../parts/numbers.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { MEASURES, measureName } from "../names.ts";
import { PoolNotes } from "../parts.tsx";

type Test = readonly [title: string, found: PooledCovariate["both"]];

/** A summary for each kind of study, and whether the kinds differ by more than chance. */
export function Levels({ report }: PoolSectionProps) {
  const { levels: words } = report.words.pool;
  const { covariate, answer, file } = report.pooling;
  const parts = covariate?.values.covariate ?? null;
  const notes = (covariate?.notes ?? []).filter(({ path }) => path.startsWith("covariate"));
  if (parts === null || answer.levels.length === 0) {
    return (
      <Section report={report} id="levels">
        <p>{words.onlyOne}</p>
        <PoolNotes report={report} notes={covariate?.notes ?? []} all />
      </Section>
    );
  }
  return (
    <Section report={report} id="levels">
      <p>{words.lead(file.covariate ?? "")}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={levelColumns(report)}
        groups={[{ rows: answer.levels }]}
      />
      <p>{words.testsLead}</p>
      <DataTable
        report={report}
        caption={words.testsCaption}
        columns={testColumns(report)}
        groups={[{ rows: testsOf(report, parts) }]}
      />
      <p>{explained(report, parts)}</p>
      <p class="how">{words.note}</p>
      <PoolNotes report={report} notes={notes} all />
    </Section>
  );
}

function levelColumns(report: PoolReport): Column<PooledLevel>[] {
  const { columns } = report.words.pool.levels;
  const two = (measure: (typeof MEASURES)[number], head: string, place: string): Column<PooledLevel>[] => [
    {
      head,
      kind: "number",
      cell: (level) => <PercentInterval report={report} of={level[measure].summary} />,
    },
    {
      head: place,
      kind: "number",
      cell: (level) => <PercentLimits report={report} of={level[measure].prediction} />,
    },
  ];
  return [
    { head: columns.level, heading: true, cell: ({ level }) => level },
    { head: columns.studies, kind: "number", cell: ({ studies }) => formats.count(studies) },
    ...two("sensitivity", columns.sensitivity, columns.newSensitivity),
    ...two("specificity", columns.specificity, columns.newSpecificity),
  ];
}

function testsOf(report: PoolReport, parts: PooledCovariate): Test[] {
  const { tests } = report.words.pool.levels;
  return (["both", "sensitivityAlone", "specificityAlone"] as const).map((name) => [
    tests[name],
    parts[name],
  ]);
}

function testColumns(report: PoolReport): Column<Test>[] {
  const { testColumns: columns } = report.words.pool.levels;
  return [
    { head: columns.question, heading: true, cell: ([title]) => title },
    {
      head: columns.chiSquare,
      kind: "number",
      cell: ([, { chiSquare }]) => (chiSquare === null ? "" : formats.statistic(chiSquare)),
    },
    {
      head: columns.degrees,
      kind: "number",
      cell: ([, { degreesOfFreedom }]) => (degreesOfFreedom === null ? "" : formats.count(degreesOfFreedom)),
    },
    { head: columns.p, kind: "number", cell: ([, { p }]) => pText(p) },
  ];
}

/** How much of the spread is gone once the kind is known; studies that say no level are in the first figure alone. */
function explained(report: PoolReport, { betweenStudies }: PooledCovariate): string {
  const { levels: words } = report.words.pool;
  const before = report.pooling.covariate?.values.betweenStudies;
  const parts = MEASURES.flatMap((measure) => {
    const [from, to] = [before?.[measure].value ?? null, betweenStudies[measure]];
    if (from === null || to === null) return [];
    return [
      words.explainedPart(measureName(report, measure), formats.statistic(from), formats.statistic(to)),
    ];
  });
  return parts.length === 0 ? "" : words.explained(parts);
}
