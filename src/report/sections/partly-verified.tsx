import type { Verification } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { BeforeAfterStrip } from "../figures/before-after-strip.tsx";
import { StripScale } from "../figures/strip.tsx";
import { stripDomain } from "../figures/strip-scale.ts";
import * as formats from "../formats.ts";
import { type Cell, cellTitle, worded } from "../names.ts";
import { MainOrFolded } from "../parts/main-or-folded.tsx";
import { Notes } from "../parts/notes.tsx";
import { CountsAndPercent, EstimateHead, PercentInterval, proportionText } from "../parts/numbers.tsx";
import { Pieces } from "../parts/pieces.tsx";
import { DataTable } from "../parts/table.tsx";
import { askedName, criterionFigure } from "../reference-names.ts";
import type { VerificationFacts } from "../words/en/reference-verified.ts";
import { oddsText, VerifiedFigure } from "./verified-figure.tsx";
import { VerifiedOtherWays } from "./verified-other-ways.tsx";

interface Props {
  readonly report: Report;
  readonly partly: Verification;
  /** Whether to say how the table is read: once on the page is enough. */
  readonly explained: boolean;
}

/** Accuracy where some people with a result never had the reference. */
export function PartlyVerified({
  report,
  partly,
  cells,
  explained,
}: Props & { readonly cells: readonly Cell[] }) {
  const { reference: words, grammar } = report.words;
  const { reactive, nonreactive } = partly.shareUnverified;
  const lead = words.unverified(proportionText(report, reactive), proportionText(report, nonreactive));
  const body = (
    <>
      <p class="lead">
        {lead} {words.strata(partly.strataNamed.map(grammar.inline))}
      </p>
      {partly.criteria.map((one) => (
        <p key={one.criterion} class="lead">
          <Pieces report={report} of={words.verified(factsOf(report, partly, one))} />
        </p>
      ))}
      <MeasuresTable report={report} partly={partly} explained={explained} />
      {partly.criteria.filter(hangs).map((one) => (
        <VerifiedFigure key={one.criterion} report={report} partly={partly} one={one} />
      ))}
      <details class="printed">
        <summary>{words.otherWays}</summary>
        <PeopleTable report={report} partly={partly} />
        <VerifiedOtherWays report={report} partly={partly} />
      </details>
      <FoldedCurves report={report} partly={partly} />
      <Notes report={report} notes={partly.notes.filter(({ code }) => !SAID.has(code))} />
    </>
  );
  return (
    <div class="part">
      <MainOrFolded report={report} cell={partly} cells={cells} title={words.verificationHeading}>
        {body}
      </MainOrFolded>
    </div>
  );
}

/** Whether a verdict hangs on who was verified: its figure is open then. */
const hangs = ({ naive, corrected, verdictHolds }: Verification["criteria"][number]) =>
  naive !== corrected || verdictHolds === false;

/** The curves of criteria whose verdict stays: not printed. */
function FoldedCurves({ report, partly }: Omit<Props, "explained">) {
  const { reference: words } = report.words;
  const folded = partly.criteria.filter(
    (one) => !hangs(one) && report.figures.has(criterionFigure("verified", partly, one.criterion)),
  );
  if (folded.length === 0) return null;
  return (
    <details class="aside">
      <summary>{words.otherCurves(folded.map((one) => askedName(report, one)))}</summary>
      {folded.map((one) => (
        <VerifiedFigure key={one.criterion} report={report} partly={partly} one={one} />
      ))}
    </details>
  );
}

/** Said in the sentences and figures above. */
const SAID = new Set(["no_border", "verdict_holds"]);

function factsOf(
  report: Report,
  partly: Verification,
  one: Verification["criteria"][number],
): VerificationFacts {
  const { from, to } = one.axes.both.holds;
  return {
    name: askedName(report, one),
    naive: one.naive,
    corrected: one.corrected,
    lowest: one.lowest,
    highest: one.highest,
    holds: one.verdictHolds === true,
    from: from === null ? null : oddsText(from),
    to: to === null ? null : oddsText(to),
    lookedFrom: oddsText(partly.oddsRatio.from),
    lookedTo: oddsText(partly.oddsRatio.to),
  };
}

const WIDTH = 180;

function MeasuresTable({ report, partly, explained }: Props) {
  const { reference: words, page, grammar } = report.words;
  const { measuresColumns: columns } = words;
  const rows = ["sensitivity", "specificity"] as const;
  const domain = stripDomain(
    rows.flatMap((measure) => [partly.naive[measure], partly.corrected[measure]]),
    partly.criteria.map(({ threshold }) => threshold),
  );
  const limits = page.interval(report.evaluation.study.interval.level);
  return (
    <DataTable
      report={report}
      caption={words.measuresCaption(cellTitle(report, partly))}
      columns={[
        {
          head: columns.measure,
          heading: true,
          cell: (measure) => grammar.sentence(words.measures[measure]),
        },
        {
          head: <EstimateHead sign={columns.naive} limits={limits} />,
          kind: "number",
          cell: (measure) => <CountsAndPercent report={report} of={partly.naive[measure]} />,
        },
        {
          head: <EstimateHead sign={columns.corrected} limits={limits} />,
          kind: "number",
          cell: (measure) => <PercentInterval report={report} of={partly.corrected[measure]} />,
        },
        { head: columns.bounds, kind: "number", cell: (measure) => boundsText(report, partly, measure) },
        {
          head: (
            <>
              <span class="over-strips">{columns.strip}</span>
              <StripScale domain={domain} width={WIDTH} />
            </>
          ),
          kind: "figure",
          cell: (measure) => (
            <BeforeAfterStrip
              before={partly.naive[measure]}
              after={partly.corrected[measure]}
              domain={domain}
              width={WIDTH}
              criterion={partly.criteria.find((one) => one.measure === measure)}
            />
          ),
        },
      ]}
      groups={[{ rows }]}
      {...(explained ? { note: words.measuresHow } : {})}
    />
  );
}

function boundsText(
  report: Report,
  { bounds }: Verification,
  measure: "sensitivity" | "specificity",
): string {
  const { lowest, highest } = bounds[measure];
  if (lowest.value === null || highest.value === null) return report.words.page.notEstimable;
  const limits = { value: lowest.value, lower: lowest.value, upper: highest.value };
  return formats.percentRange(limits) ?? "";
}

function PeopleTable({ report, partly }: Omit<Props, "explained">) {
  const { reference: words, codes, grammar, reasons } = report.words;
  const { peopleColumns: columns } = words;
  const rows = (["reactive", "nonreactive"] as const).map((result) => ({
    result,
    ...partly.counted[result],
    share: partly.shareUnverified[result],
  }));
  const aside = partly.setAside
    .filter(({ people }) => people > 0)
    .map(({ reason, people }) => `${worded(reasons, reason)} ${formats.count(people)}`);
  return (
    <DataTable
      report={report}
      caption={words.peopleCaption(cellTitle(report, partly))}
      columns={[
        { head: columns.result, heading: true, cell: ({ result }) => grammar.sentence(codes.rapid[result]) },
        { head: columns.diseased, kind: "number", cell: ({ diseased }) => formats.count(diseased) },
        { head: columns.nondiseased, kind: "number", cell: ({ nondiseased }) => formats.count(nondiseased) },
        { head: columns.unverified, kind: "number", cell: ({ unverified }) => formats.count(unverified) },
        {
          head: columns.share,
          kind: "number",
          cell: ({ share }) => <PercentInterval report={report} of={share} />,
        },
      ]}
      groups={[{ rows }]}
      {...(aside.length === 0 ? {} : { note: words.setAside(grammar.listed(aside)) })}
    />
  );
}
