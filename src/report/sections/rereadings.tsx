import type { Reread } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { differenceDomain } from "../figures/strip-scale.ts";
import * as formats from "../formats.ts";
import { type Cell, cellTitle, termsOf } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { EstimateHead, PointsInterval, proportionText } from "../parts/numbers.tsx";
import { AnalytePart } from "../parts/section.tsx";
import { differenceStrips } from "../parts/strip-column.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

const RESULTS = ["reactive", "nonreactive", "invalid"] as const;
type Result = (typeof RESULTS)[number];

/** The same devices read twice by the same reader: what the second reading changed. */
export function Rereadings({ report }: SectionProps) {
  const { time: words } = report.words;
  const { rereadings } = report.evaluation;
  if (rereadings.length === 0) return null;
  return (
    <>
      <h3>{words.rereadHeading}</h3>
      <p>{words.rereadLead}</p>
      {rereadings.map((reread, place) => (
        <AnalytePart key={place} analyte={reread.analyte}>
          <OneReread report={report} reread={reread} explained={place === 0} />
        </AnalytePart>
      ))}
    </>
  );
}

interface RereadProps {
  readonly report: Report;
  readonly reread: Reread;
}

/** The reader is always named: it is this reader who read twice. */
function titleOf(report: Report, reread: Cell): string {
  const { general } = report.words;
  return `${cellTitle(report, { ...reread, reader: "" })}, ${general.reader(reread.reader)}`;
}

function OneReread({ report, reread, explained }: RereadProps & { explained: boolean }) {
  const { time: words, page } = report.words;
  const moved = (first: Result, second: Result) =>
    reread.transitions
      .filter((one) => one.first === first && one.second === second)
      .reduce((all, { devices }) => all + devices, 0);
  const became = moved("nonreactive", "reactive");
  const lost = moved("reactive", "nonreactive");
  const p = reread.mcnemarPValue === null ? page.notEstimable : formats.pValue(reread.mcnemarPValue);
  return (
    <>
      <h4>{titleOf(report, reread)}</h4>
      <p class="lead">
        {words.rereadPlain(reread.flipped.count, reread.flipped.total, became, lost)}{" "}
        {words.rereadFigures(proportionText(report, reread.flipped), p)}
      </p>
      <div class="beside">
        <Transitions report={report} reread={reread} moved={moved} />
        <MeasureDifferences report={report} reread={reread} explained={explained} />
      </div>
      <Notes report={report} notes={reread.notes} />
    </>
  );
}

function Transitions(props: RereadProps & { moved: (first: Result, second: Result) => number }) {
  const { report, reread, moved } = props;
  const { time: words, codes, grammar } = report.words;
  const firsts = RESULTS.filter((one) => one !== "invalid" || RESULTS.some((other) => moved(one, other) > 0));
  const seconds = RESULTS.filter(
    (one) => one !== "invalid" || RESULTS.some((other) => moved(other, one) > 0),
  );
  const columns: Column<Result>[] = [
    {
      head: words.rereadHead,
      heading: true,
      cell: (first) => grammar.sentence(codes.rapid[first]),
    },
    ...seconds.map(
      (second): Column<Result> => ({
        head: grammar.sentence(codes.rapid[second]),
        kind: "number",
        cell: (first) => {
          const text = formats.count(moved(first, second));
          return first === second ? <b>{text}</b> : text;
        },
      }),
    ),
  ];
  return (
    <DataTable
      report={report}
      caption={words.rereadCaption(titleOf(report, reread))}
      columns={columns}
      groups={[{ rows: firsts }]}
    />
  );
}

function MeasureDifferences({ report, reread, explained }: RereadProps & { explained: boolean }) {
  const { time: words, grammar, page } = report.words;
  const terms = termsOf(report, reread.analyte);
  const rows = [
    { name: terms.sensitivity, of: reread.sensitivityDifference },
    { name: terms.specificity, of: reread.specificityDifference },
  ];
  return (
    <DataTable
      report={report}
      caption={words.rereadDifferences(titleOf(report, reread))}
      columns={[
        { head: words.differencesColumns.measure, heading: true, cell: (row) => grammar.sentence(row.name) },
        {
          head: (
            <EstimateHead
              sign={words.differencesColumns.difference}
              limits={page.interval(report.evaluation.study.interval.level)}
            />
          ),
          kind: "number",
          cell: (row) => <PointsInterval report={report} of={row.of} />,
        },
        differenceStrips(differenceDomain(rows.map((row) => row.of)), (row: (typeof rows)[number]) => row.of),
      ]}
      groups={[{ rows, analyte: reread.analyte }]}
      {...(explained ? { note: words.rereadHowToRead } : {})}
    />
  );
}
