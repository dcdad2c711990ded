import type { Intensity } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { cutoffLines, instrumentFigure, instrumentTitle, readingText } from "../instrument-names.ts";
import { termsOf, worded } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { MainOrFolded } from "../parts/main-or-folded.tsx";
import { Notes } from "../parts/notes.tsx";
import { PercentInterval } from "../parts/numbers.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { InstrumentCalibration } from "./instrument-calibration.tsx";
import { InstrumentComparisons } from "./instrument-comparisons.tsx";
import { InstrumentCutoffs } from "./instrument-cutoffs.tsx";
import { InstrumentEyes } from "./instrument-eyes.tsx";
import { InstrumentMinutes } from "./instrument-minutes.tsx";

export interface InstrumentProps {
  readonly report: Report;
  readonly measured: Intensity;
  /** Whether to say how tables are read: once on the page is enough. */
  readonly explained: boolean;
}

/** What an instrument's numbers say: cutoffs and readers on its curve, readings by truth and by minute. */
export function InstrumentReadings({ report }: SectionProps) {
  const { instrument: words } = report.words;
  const { intensities, intensityComparisons } = report.evaluation;
  return (
    <Section report={report} id="intensity">
      <p>{words.lead}</p>
      {intensities.map((measured, place) => (
        <AnalytePart key={place} analyte={measured.analyte}>
          <MainOrFolded
            report={report}
            cell={measured}
            cells={intensities}
            title={() => words.heading(instrumentTitle(report, measured))}
          >
            <InstrumentPart report={report} measured={measured} explained={place === 0} />
          </MainOrFolded>
        </AnalytePart>
      ))}
      <InstrumentComparisons report={report} comparisons={intensityComparisons} />
    </Section>
  );
}

/** Said by the tables themselves. */
const SAID = new Set(["thinned", "one_cutoff", "chosen_here"]);

function InstrumentPart(props: InstrumentProps) {
  const { report, measured } = props;
  return (
    <>
      <AnswerText {...props} />
      <InstrumentCutoffs {...props} />
      <p class="how">{peopleText(report, measured)}</p>
      <CurveChart {...props} />
      <TruthChart {...props} />
      <InstrumentEyes {...props} />
      <InstrumentMinutes {...props} />
      <InstrumentCalibration {...props} />
      <Notes report={report} notes={measured.notes.filter(({ code }) => !SAID.has(code))} />
    </>
  );
}

function AnswerText({ report, measured }: InstrumentProps) {
  const { instrument: words } = report.words;
  const { curve, chosen, direction, analyte } = measured;
  const terms = termsOf(report, analyte);
  const area = curve.area.logit.value === null ? curve.area.score : curve.area.logit;
  if (curve.area.value === null) return <p class="lead">{words.noArea}</p>;
  const decimals = formats.percentDecimals({ ...area, value: curve.area.value });
  const span =
    area.lower === null || area.upper === null
      ? null
      : words.span(formats.percent(area.lower, decimals), formats.percent(area.upper, decimals));
  return (
    <p class="lead">
      {words.area(
        { value: formats.percentSigned(curve.area.value, decimals), span, direction },
        terms.positive,
      )}{" "}
      {chosen === null ? "" : flatterText(report, measured)}
    </p>
  );
}

function flatterText(report: Report, { chosen, analyte, unit }: Intensity): string {
  if (chosen === null || chosen.values.cutoff.value === null) return "";
  const { values, rule } = chosen;
  const cutoff = readingText(chosen.values.cutoff.value);
  const share = (value: number | null) =>
    value === null ? report.words.page.notEstimable : formats.percentSigned(value);
  return report.words.instrument.flatter({
    cutoff: `${cutoff} ${unit}`,
    rule: report.words.instrument.rule(rule),
    sensitivity: share(values.sensitivity.value),
    specificity: share(values.specificity.value),
    expectedSensitivity: share(values.corrected.sensitivity),
    expectedSpecificity: share(values.corrected.specificity),
    names: termsOf(report, analyte),
  });
}

function peopleText(report: Report, { people }: Intensity): string {
  const setAside = people.setAside.map((one) => ({
    ...one,
    reason: worded(report.words.reasons, one.reason),
  }));
  return report.words.instrument.people({ ...people, setAside });
}

type Point = Intensity["curve"]["points"][number];
/** Rows of the table behind the curve. */
const MOST_ROWS = 25;

function CurveChart({ report, measured }: InstrumentProps) {
  const { instrument: words, grammar } = report.words;
  const caption = words.curveCaption(instrumentTitle(report, measured));
  const terms = termsOf(report, measured.analyte);
  const { points, band } = measured.curve;
  const every = Math.max(1, Math.ceil(points.length / MOST_ROWS));
  const columns: Column<Point>[] = [
    {
      head: words.curveColumns.cutoff,
      heading: true,
      kind: "number",
      cell: ({ cutoff }) => words.atLeast(readingText(cutoff), measured.direction),
    },
    ...(["sensitivity", "specificity"] as const).map(
      (measure): Column<Point> => ({
        head: `${grammar.sentence(terms[measure])}, %`,
        kind: "number",
        cell: (point) => <PercentInterval report={report} of={point[measure]} />,
      }),
    ),
  ];
  return (
    <>
      <Chart report={report} name={instrumentFigure("curve", measured)} label={caption}>
        <DataTable
          report={report}
          caption={caption}
          columns={columns}
          groups={[{ rows: points.filter((_, place) => place % every === 0) }]}
          note={words.curveNote}
          long
        />
      </Chart>
      <p class="how">
        {words.curveHow({
          marked: cutoffLines(measured).length > 0,
          half:
            band.sensitivity === null || band.specificity === null
              ? null
              : [`±${formats.percent(band.sensitivity)}`, `±${formats.percent(band.specificity)}`],
          level: formats.statedPercent(report.evaluation.study.interval.level),
        })}
      </p>
    </>
  );
}

type Group = Intensity["distribution"]["groups"][number];
const QUANTILES = ["p05", "p25", "median", "p75", "p95"] as const;

function TruthChart({ report, measured }: InstrumentProps) {
  const { instrument: words, grammar } = report.words;
  const caption = words.truthCaption(instrumentTitle(report, measured));
  const terms = termsOf(report, measured.analyte);
  const heads = words.truthColumns;
  const columns: Column<Group>[] = [
    {
      head: heads.truth,
      heading: true,
      cell: ({ truth }) => grammar.sentence(truth === "positive" ? terms.positive : terms.negative),
    },
    { head: heads.readings, kind: "number", cell: ({ readings }) => formats.count(readings) },
    ...QUANTILES.map(
      (name): Column<Group> => ({
        head: heads[name],
        kind: "number",
        cell: (group) => {
          const value = group[name];
          return value === null ? "" : readingText(value);
        },
      }),
    ),
  ];
  return (
    <Chart report={report} name={instrumentFigure("truth", measured)} label={caption}>
      <DataTable
        report={report}
        caption={caption}
        columns={columns}
        groups={[{ rows: measured.distribution.groups }]}
      />
    </Chart>
  );
}
