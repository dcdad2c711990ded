import type { ReferenceErrors } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { analyteTitle } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { DataTable } from "../parts/table.tsx";
import { Verdict } from "../parts/verdict.tsx";
import { askedName, criterionFigure } from "../reference-names.ts";
import type { TippingFacts } from "../words/en/reference.ts";

type Criterion = ReferenceErrors["criteria"][number];
type Border = Criterion["borders"]["referenceSensitivity"]["below"];
type Axis = keyof Criterion["borders"];

/** What the sentence on a criterion needs. */
export function tippingFacts(report: Report, errors: ReferenceErrors, one: Criterion): TippingFacts {
  const { borders } = one;
  const told = ({ at, verdict }: Border) => (at === null || verdict === null ? null : { at, verdict });
  const both = (axis: Axis) => ({ below: told(borders[axis].below), above: told(borders[axis].above) });
  const { sensitivity, specificity } = errors.believed;
  return {
    name: askedName(report, one),
    analyte: analyteTitle(report, errors.analyte),
    perfect: one.perfect,
    believed: one.believed,
    throughout: one.throughout,
    ranged: sensitivity.from < sensitivity.to || specificity.from < specificity.to,
    referenceSensitivity: both("referenceSensitivity"),
    referenceSpecificity: both("referenceSpecificity"),
    covarianceDiseased: both("covarianceDiseased"),
    covarianceNondiseased: both("covarianceNondiseased"),
  };
}

interface Props {
  readonly report: Report;
  readonly errors: ReferenceErrors;
  readonly one: Criterion;
}

/** The maps: open where a verdict hangs on the reference, folded where it does not. */
export function TippingFigures({ report, errors }: Omit<Props, "one">) {
  const { reference: words } = report.words;
  const hangs = ({ perfect, believed, throughout }: Criterion) =>
    perfect !== believed || throughout !== believed;
  const drawn = errors.criteria.filter(({ criterion }) =>
    report.figures.has(criterionFigure("tipping", errors, criterion)),
  );
  const open = drawn.filter(hangs);
  const folded = drawn.filter((one) => !hangs(one));
  const [first] = drawn;
  if (first === undefined) return null;
  const how = <p class="how">{mapText(report, first)}</p>;
  return (
    <>
      {open.map((one) => (
        <TippingFigure key={one.criterion} report={report} errors={errors} one={one} />
      ))}
      {open.length === 0 ? null : how}
      {folded.length === 0 ? null : (
        <details class="aside">
          <summary>{words.otherMaps(folded.map((one) => askedName(report, one)))}</summary>
          {folded.map((one) => (
            <TippingFigure key={one.criterion} report={report} errors={errors} one={one} />
          ))}
          {open.length === 0 ? how : null}
        </details>
      )}
    </>
  );
}

/** The map of verdicts over what may be true of the reference, with the borders as its data. */
function TippingFigure({ report, errors, one }: Props) {
  const name = askedName(report, one);
  return (
    <>
      <p class="map-title">{report.words.grammar.sentence(name)}</p>
      <Chart
        report={report}
        name={criterionFigure("tipping", errors, one.criterion)}
        label={report.words.reference.mapCaption(name)}
      >
        <BordersTable report={report} errors={errors} one={one} />
      </Chart>
    </>
  );
}

function mapText(report: Report, { grid }: Criterion): string {
  const from = (values: readonly number[]) => `${formats.statedPercent(values[0] ?? 0)}${formats.THIN}%`;
  return report.words.reference.mapHow(from(grid.sensitivities), from(grid.specificities));
}

interface Line {
  readonly axis: Axis;
  readonly stated: number;
}

function BordersTable({ report, errors, one }: Props) {
  const { reference: words } = report.words;
  const { borderColumns: columns } = words;
  const { believed, covariance } = errors;
  const lines: Line[] = [
    { axis: "referenceSensitivity", stated: believed.sensitivity.believed },
    { axis: "referenceSpecificity", stated: believed.specificity.believed },
    { axis: "covarianceDiseased", stated: covariance.diseased ?? 0 },
    { axis: "covarianceNondiseased", stated: covariance.nondiseased ?? 0 },
  ];
  const border = (side: "below" | "above") => ({
    head: columns[side],
    cell: ({ axis }: Line) => {
      const { at, verdict } = one.borders[axis][side];
      if (at === null || verdict === null) return words.nowhere;
      return (
        <>
          {numberOf(report, axis, at)}: <Verdict report={report} verdict={verdict} />
        </>
      );
    },
  });
  return (
    <DataTable
      report={report}
      caption={words.bordersCaption(askedName(report, one))}
      columns={[
        {
          head: columns.what,
          heading: true,
          cell: ({ axis }) => report.words.grammar.sentence(words.borderRows[axis]),
        },
        { head: columns.stated, kind: "number", cell: ({ axis, stated }) => statedOf(report, axis, stated) },
        border("below"),
        border("above"),
      ]}
      groups={[{ rows: lines }]}
    />
  );
}

const isShare = (axis: Axis) => axis === "referenceSensitivity" || axis === "referenceSpecificity";

function numberOf(report: Report, axis: Axis, at: number): string {
  if (!isShare(axis)) return report.words.reference.covariance(at);
  return formats.percent(at, at > 0.99 ? 3 : 2);
}

function statedOf(report: Report, axis: Axis, value: number): string {
  return isShare(axis) ? formats.statedPercent(value) : report.words.reference.covariance(value);
}
