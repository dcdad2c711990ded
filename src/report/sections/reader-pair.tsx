import type { ComponentChildren } from "preact";
import type { Agreement } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { coefficientDomain, stripDomain } from "../figures/strip-scale.ts";
import { TwoByTwo } from "../figures/two-by-two.tsx";
import type * as formats from "../formats.ts";
import { Counts, IndexInterval, PercentInterval } from "../parts/numbers.tsx";
import { coefficientStrips, NARROW_STRIP, shareStrips } from "../parts/strip-column.tsx";
import { DataTable } from "../parts/table.tsx";
import { pairCell, pairTitle } from "../reader-names.ts";

interface PairProps {
  readonly report: Report;
  readonly pair: Agreement;
}

/** Both readers' results of the same devices, crossed. */
export function PairTable({ report, pair }: PairProps) {
  const { readers: words, general, page } = report.words;
  const { bothReactive, firstOnly, secondOnly, bothNonreactive } = pair.counts;
  const [first, second] = [general.reader(pair.first), general.reader(pair.second)];
  const caption = words.tableCaption(pairTitle(report, pair), pairCell(report, pair));
  const how = (place: 0 | 1) => {
    const code = pair.methods[place];
    return Object.hasOwn(words.how, code) ? words.how[code as keyof typeof words.how] : code;
  };
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={page.region(caption)}>
      <TwoByTwo
        caption={caption}
        row={words.readerHow(report.words.grammar.sentence(first), how(0))}
        column={words.readerHow(report.words.grammar.sentence(second), how(1))}
        answers={[words.results.reactive, words.results.nonreactive]}
        counts={[bothReactive, firstOnly, secondOnly, bothNonreactive]}
        notes={[
          words.cells.bothReactive,
          words.cells.firstOnly(first),
          words.cells.secondOnly(second),
          words.cells.bothNonreactive,
        ]}
        all={words.all}
      />
    </section>
  );
}

/** Shares on one scale, coefficients on another, each with its interval. */
export function PairMeasures({ report, pair }: PairProps) {
  return (
    <div>
      <Shares report={report} pair={pair} />
      <Coefficients report={report} pair={pair} />
    </div>
  );
}

interface ShareLine {
  readonly name: ComponentChildren;
  readonly of: formats.Limits & { readonly count?: number; readonly total?: number };
}

function Named({ name, note }: { name: string; note?: string }) {
  return (
    <>
      {name}
      {note === undefined ? null : <span class="place">{note}</span>}
    </>
  );
}

function Shares({ report, pair }: PairProps) {
  const { readers: words, general, page } = report.words;
  const second = general.reader(pair.second);
  const rows: ShareLine[] = [
    { name: words.rows.overall, of: pair.overall },
    { name: words.rows.positivePercent(second), of: pair.positivePercentAgreement },
    { name: words.rows.negativePercent(second), of: pair.negativePercentAgreement },
    { name: <Named name={words.rows.positive} note={words.rows.positiveNote} />, of: pair.positiveAgreement },
    { name: <Named name={words.rows.negative} note={words.rows.negativeNote} />, of: pair.negativeAgreement },
  ];
  const domain = stripDomain(rows.map((row) => row.of));
  return (
    <DataTable
      report={report}
      caption={words.measuresCaption(pairTitle(report, pair), pairCell(report, pair))}
      columns={[
        { head: words.columns.measure, heading: true, cell: (row) => row.name },
        {
          head: words.columns.counts,
          kind: "number",
          cell: ({ of }) =>
            of.count === undefined || of.total === undefined ? (
              ""
            ) : (
              <Counts of={{ count: of.count, total: of.total }} />
            ),
        },
        {
          head: (
            <>
              {words.columns.value}
              <span class="limits">{page.interval(report.evaluation.study.interval.level)}</span>
            </>
          ),
          kind: "number",
          cell: (row) => <PercentInterval report={report} of={row.of} />,
        },
        shareStrips(domain, (row: ShareLine) => row.of, NARROW_STRIP),
      ]}
      groups={[{ rows }]}
    />
  );
}

function Coefficients({ report, pair }: PairProps) {
  const { readers: words, page } = report.words;
  const rows = [
    { name: <Named name={words.rows.kappa} note={words.rows.kappaNote} />, of: pair.kappa },
    ...(pair.lineStrength === null
      ? []
      : [
          {
            name: <Named name={words.rows.weighted} note={words.rows.weightedNote} />,
            of: pair.lineStrength.weightedKappa,
          },
        ]),
    { name: <Named name={words.rows.pabak} note={words.rows.pabakNote} />, of: pair.pabak },
    { name: <Named name={words.rows.ac1} note={words.rows.ac1Note} />, of: pair.ac1 },
  ];
  const domain = coefficientDomain(rows.map((row) => row.of));
  return (
    <DataTable
      report={report}
      caption={words.coefficientsCaption(pairTitle(report, pair), pairCell(report, pair))}
      columns={[
        { head: words.columns.beyondChance, heading: true, cell: (row) => row.name },
        {
          head: (
            <>
              {words.columns.coefficient}
              <span class="limits">{page.interval(report.evaluation.study.interval.level)}</span>
            </>
          ),
          kind: "number",
          cell: (row) => <IndexInterval report={report} of={row.of} />,
        },
        coefficientStrips(domain, (row: (typeof rows)[number]) => row.of, NARROW_STRIP),
      ]}
      groups={[{ rows }]}
    />
  );
}
