import type { Pooling } from "../../../evaluation/pool/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { SMALL_STUDY_FUNNEL } from "../figure-names.ts";
import { pInWords } from "../names.ts";
import { PoolNotes } from "../parts.tsx";

type Row = Pooling["smallStudy"]["values"]["list"][number];

/** Whether small studies look better than large ones, and what that can and can't mean. */
export function SmallStudies({ report }: PoolSectionProps) {
  const { small: words } = report.words.pool;
  const { smallStudy } = report.pooling;
  return (
    <Section report={report} id="small">
      <p>
        {words.lead} {seen(report)} {kindsDiffer(report) ? words.kinds : ""}
      </p>
      <p class="how">{words.caution}</p>
      <Chart report={report} name={SMALL_STUDY_FUNNEL} label={words.chart}>
        <DataTable
          report={report}
          caption={words.caption}
          columns={columnsOf(report)}
          groups={[{ rows: smallStudy.values.list }]}
        />
      </Chart>
      <PoolNotes report={report} notes={smallStudy.notes.filter(({ code }) => code !== "low_power")} />
    </Section>
  );
}

const kindsDiffer = ({ pooling }: PoolReport): boolean =>
  pooling.answer.warnings.some(({ code }) => code === "levels_differ");

/** The slope in a sentence: by the level of the file it is there, or it is not seen. */
function seen(report: PoolReport): string {
  const { small: words } = report.words.pool;
  const { slope, slopeP } = report.pooling.smallStudy.values.line;
  if (slope.value === null || slopeP === null) return "";
  const p = pInWords(slopeP);
  if (slopeP >= 1 - report.pooling.file.level) return words.noSlope(p);
  return words.slope(p, slope.value > 0 ? "better" : "worse");
}

function columnsOf(report: PoolReport): Column<Row>[] {
  const { columns } = report.words.pool.small;
  const number = (head: string, of: (row: Row) => number | null, format: (value: number) => string) => ({
    head,
    kind: "number" as const,
    cell: (row: Row) => {
      const value = of(row);
      return value === null ? "" : format(value);
    },
  });
  return [
    { head: columns.study, heading: true, cell: ({ label }) => label },
    number(columns.effective, ({ effectivePeople }) => effectivePeople, formats.count),
    number(columns.odds, ({ logOddsRatio }) => logOddsRatio, formats.statistic),
    number(columns.error, ({ standardError }) => standardError, formats.statistic),
  ];
}
