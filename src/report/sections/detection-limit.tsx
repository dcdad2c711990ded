import type { Panel } from "../../evaluation/document.ts";
import { concentrationText } from "../../figures/reading-scale.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { panelFigure } from "../instrument-names.ts";
import { toldKit } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { Facts } from "../parts/facts.tsx";
import { Notes } from "../parts/notes.tsx";
import { Counts, NumberInterval, PercentInterval, pText } from "../parts/numbers.tsx";
import { Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

type Values = NonNullable<Panel["values"]>;

/** Dilution panels: the concentration found with the chance asked for, by lot too, and the line it comes from. */
export function DetectionLimit({ report }: SectionProps) {
  const { detection: words } = report.words;
  const { panels } = report.evaluation;
  return (
    <Section report={report} id="detection">
      <p>{words.lead}</p>
      {panels.map((panel, place) => (
        <div key={panel.id} class="part" data-analyte={panel.analyte}>
          <h3>{panel.title}</h3>
          <AnswerText report={report} panel={panel} />
          {panel.values === null ? null : (
            <>
              <LimitsTable report={report} panel={panel} values={panel.values} explained={place === 0} />
              <DoseChart report={report} panel={panel} values={panel.values} />
              <MoreText report={report} panel={panel} values={panel.values} />
            </>
          )}
          <Facts
            items={[
              [words.kit, toldKit(report, panel.kit)],
              [words.source, panel.source],
            ]}
          />
          <Notes report={report} notes={panel.notes.filter(({ path }) => !path.startsWith("lots."))} />
        </div>
      ))}
    </Section>
  );
}

const chanceText = (chance: number) => `${formats.statedPercent(chance)}${formats.THIN}%`;

type FitName = "probit" | "logit";

/** The concentration that belongs to a chance, by one of the two lines. */
function concentrationOf(values: Values, chance: number, fit: FitName = "probit") {
  const found = values[fit].concentrations.find(({ probability }) => probability === chance);
  return found?.concentration ?? { value: null, lower: null, upper: null };
}

function spanOf(report: Report, { lower, upper }: formats.Limits): string | null {
  if (lower === null || upper === null) return null;
  return report.words.detection.span(concentrationText(lower), concentrationText(upper));
}

function AnswerText({ report, panel }: { report: Report; panel: Panel }) {
  const { detection: words } = report.words;
  const { values, chance, unit, lots } = panel;
  const limit = values === null ? null : concentrationOf(values, chance);
  const byLot = lots.flatMap((lot) => concentrationOf(lot.values, chance).value ?? []);
  const text = (value: number | null) => (value === null ? null : concentrationText(value));
  return (
    <p class="lead">
      {limit === null || limit.value === null
        ? words.none(chanceText(chance))
        : words.found({
            chance: chanceText(chance),
            concentration: concentrationText(limit.value),
            unit,
            span: spanOf(report, limit),
          })}{" "}
      {byLot.length < 2
        ? ""
        : words.lots({
            lowest: concentrationText(Math.min(...byLot)),
            highest: concentrationText(Math.max(...byLot)),
            unit,
          })}{" "}
      {values === null
        ? ""
        : words.seen({ allFrom: text(values.allFrom), noneUpTo: text(values.noneUpTo), unit })}
    </p>
  );
}

interface Line {
  readonly name: string;
  readonly values: Values;
}

function LimitsTable(props: { report: Report; panel: Panel; values: Values; explained: boolean }) {
  const { report, panel, values, explained } = props;
  const { detection: words, grammar } = report.words;
  const all: Line[] = [{ name: words.allLots, values }];
  const lots = panel.lots.map((lot): Line => ({ name: words.lot(lot.lot), values: lot.values }));
  const chances = [...new Set([0.5, panel.chance])];
  const widened = [...all, ...lots].some((line) => (line.values.probit.fit.factor ?? 1) > 1);
  const columns: Column<Line>[] = [
    { head: words.columns.lot, heading: true, cell: ({ name }) => grammar.sentence(name) },
    { head: words.columns.devices, kind: "number", cell: (line) => <Counts of={sumOf(line.values)} /> },
    ...chances.map(
      (chance): Column<Line> => ({
        head: words.columns.at(chanceText(chance)),
        kind: "number",
        cell: (line) => (
          <NumberInterval
            report={report}
            of={concentrationOf(line.values, chance)}
            format={concentrationText}
          />
        ),
      }),
    ),
    { head: words.columns.fit, kind: "number", cell: (line) => pText(line.values.probit.fit.p) },
    ...(widened
      ? [
          {
            head: words.columns.widened,
            kind: "number" as const,
            cell: ({ values: { probit } }: Line) =>
              probit.fit.factor === null || probit.fit.factor <= 1
                ? ""
                : words.times(formats.statistic(probit.fit.factor)),
          },
        ]
      : []),
  ];
  return (
    <DataTable
      report={report}
      caption={words.caption(panel.title)}
      columns={columns}
      groups={[{ rows: all }, ...(lots.length > 1 ? [{ rows: lots }] : [])]}
      {...(explained ? { note: words.how(panel.unit, widened) } : {})}
    />
  );
}

function sumOf({ rows }: Values) {
  return rows.reduce(
    (sum, { reactive }) => ({ count: sum.count + reactive.count, total: sum.total + reactive.total }),
    { count: 0, total: 0 },
  );
}

type Row = Values["rows"][number];

function DoseChart({ report, panel, values }: { report: Report; panel: Panel; values: Values }) {
  const { detection: words } = report.words;
  const heads = words.rowColumns;
  const share = (value: number | null) => (value === null ? "" : formats.percent(value));
  const columns: Column<Row>[] = [
    {
      head: `${heads.concentration}, ${panel.unit}`,
      heading: true,
      kind: "number",
      cell: ({ concentration }) => (concentration === null ? "" : formats.stated(concentration)),
    },
    { head: heads.reactive, kind: "number", cell: ({ reactive }) => <Counts of={reactive} /> },
    {
      head: heads.share,
      kind: "number",
      cell: ({ reactive }) => <PercentInterval report={report} of={reactive} />,
    },
    { head: heads.probit, kind: "number", cell: ({ byProbit }) => share(byProbit) },
    { head: heads.logit, kind: "number", cell: ({ byLogit }) => share(byLogit) },
  ];
  return (
    <>
      <Chart report={report} name={panelFigure(panel)} label={words.chart(panel.title)}>
        <DataTable
          report={report}
          caption={words.rowsCaption(panel.title)}
          columns={columns}
          groups={[{ rows: values.rows }]}
          long
        />
      </Chart>
      <p class="how">{words.chartHow}</p>
    </>
  );
}

function MoreText({ report, panel, values }: { report: Report; panel: Panel; values: Values }) {
  const { detection: words } = report.words;
  const logit = concentrationOf(values, panel.chance, "logit");
  const { blank } = values;
  const told = [
    ...(logit.value === null
      ? []
      : [
          words.logit({
            concentration: concentrationText(logit.value),
            unit: panel.unit,
            span: spanOf(report, logit),
          }),
        ]),
    ...(blank === null || blank.value === null
      ? []
      : [
          words.blanks(
            formats.count(blank.count),
            formats.count(blank.total),
            formats.percentWithRange(blank) ?? "",
          ),
        ]),
  ];
  return told.length === 0 ? null : <p class="how">{told.join(" ")}</p>;
}
