import type { ReferenceErrors } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { BeforeAfterStrip } from "../figures/before-after-strip.tsx";
import { StripScale } from "../figures/strip.tsx";
import { stripDomain } from "../figures/strip-scale.ts";
import * as formats from "../formats.ts";
import { analyteTitle, cellTitle } from "../names.ts";
import { Facts } from "../parts/facts.tsx";
import { Notes } from "../parts/notes.tsx";
import { Counts, EstimateHead, PercentInterval } from "../parts/numbers.tsx";
import { Pieces } from "../parts/pieces.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { Verdict } from "../parts/verdict.tsx";
import { askedName } from "../reference-names.ts";
import { TippingFigures, tippingFacts } from "./tipping-figure.tsx";

type Criterion = ReferenceErrors["criteria"][number];

interface Props {
  readonly report: Report;
  readonly errors: ReferenceErrors;
  /** Whether to say how the tables are read: once on the page is enough. */
  readonly explained: boolean;
  /** Whether to say what is stated of the reference: once for each analyte. */
  readonly stated: boolean;
}

/** Accuracy behind the stated errors of the reference: what becomes of each verdict, and the table of measures. */
export function ReferenceErrs(props: Props) {
  const { report, errors } = props;
  const { reference: words } = report.words;
  const { criteria } = errors;
  return (
    <div class="part">
      <h3>{words.errorsHeading(cellTitle(report, errors))}</h3>
      {criteria.map((one) => (
        <p key={one.criterion} class="lead">
          <Pieces report={report} of={words.tipping(tippingFacts(report, errors, one))} />
        </p>
      ))}
      {criteria.length === 0 ? null : <VerdictsTable {...props} />}
      <MeasuresTable {...props} />
      <TippingFigures report={report} errors={errors} />
      {props.stated ? <Facts items={statedFacts(report, errors)} /> : null}
      <AllowedText report={report} errors={errors} />
      <Notes report={report} notes={errors.notes.filter(({ code }) => !SAID.has(code))} />
    </div>
  );
}

/** Said in the sentences above, or shown in the map. */
const SAID = new Set(["no_border", "incompatible_cells"]);

interface Line {
  readonly measure: "sensitivity" | "specificity" | "prevalence";
  readonly name: string;
}

const WIDTH = 180;

function MeasuresTable({ report, errors, explained }: Props) {
  const { reference: words, terms, grammar } = report.words;
  const { accuracy } = terms;
  const lines: Line[] = [
    { measure: "sensitivity", name: accuracy.sensitivity },
    { measure: "specificity", name: accuracy.specificity },
    { measure: "prevalence", name: words.prevalence },
  ];
  const named = lines.map((line) => ({ ...line, name: grammar.sentence(line.name) }));
  return (
    <DataTable
      report={report}
      caption={words.errorsCaption(cellTitle(report, errors))}
      columns={measureColumns(report, errors)}
      groups={[{ rows: named }]}
      {...(explained ? { note: words.errorsHow(errors.simulated !== null) } : {})}
    />
  );
}

function measureColumns(report: Report, errors: ReferenceErrors): Column<Line>[] {
  const { reference: words, page } = report.words;
  const { naive, corrected, simulated, criteria } = errors;
  const limits = page.interval(report.evaluation.study.interval.level);
  const shown = simulated ?? corrected;
  const accuracies = (["sensitivity", "specificity"] as const).flatMap((measure) => [
    naive[measure],
    shown[measure],
  ]);
  const domain = stripDomain(
    accuracies,
    criteria.map(({ threshold }) => threshold),
  );
  const criterionOf = ({ measure }: Line) => criteria.find((one) => one.measure === measure);
  const estimate = (sign: string, of: (line: Line) => formats.Limits): Column<Line> => ({
    head: <EstimateHead sign={sign} limits={limits} />,
    kind: "number",
    cell: (line) => <PercentInterval report={report} of={of(line)} />,
  });
  return [
    { head: words.columns.measure, heading: true, cell: ({ name }) => name },
    { head: words.columns.counts, kind: "number", cell: ({ measure }) => <Counts of={naive[measure]} /> },
    estimate(words.columns.naive, ({ measure }) => naive[measure]),
    estimate(words.columns.corrected, ({ measure }) => corrected[measure]),
    ...(simulated === null ? [] : [estimate(words.columns.ranged, ({ measure }) => simulated[measure])]),
    {
      head: (
        <>
          <span class="over-strips">{words.columns.strip}</span>
          <StripScale domain={domain} width={WIDTH} />
        </>
      ),
      kind: "figure",
      cell: (line) =>
        line.measure === "prevalence" ? (
          ""
        ) : (
          <BeforeAfterStrip
            before={naive[line.measure]}
            after={shown[line.measure]}
            domain={domain}
            width={WIDTH}
            criterion={criterionOf(line)}
          />
        ),
    },
  ];
}

/** Each verdict under what may be supposed, side by side. */
function VerdictsTable({ report, errors, explained }: Props) {
  const { reference: words, grammar } = report.words;
  const { verdictColumns: columns } = words;
  const verdict = (head: string, of: (one: Criterion) => Criterion["throughout"]): Column<Criterion> => ({
    head,
    cell: (one) => {
      const found = of(one);
      return found === null ? <i>{words.changes}</i> : <Verdict report={report} verdict={found} />;
    },
  });
  return (
    <DataTable
      report={report}
      caption={words.verdictsCaption(cellTitle(report, errors))}
      columns={[
        { head: columns.criterion, heading: true, cell: (one) => grammar.sentence(askedName(report, one)) },
        verdict(columns.naive, (one) => one.naive),
        verdict(columns.perfect, (one) => one.perfect),
        verdict(columns.believed, (one) => one.believed),
        verdict(columns.throughout, (one) => one.throughout),
      ]}
      groups={[{ rows: errors.criteria }]}
      {...(explained ? { note: words.verdictsHow } : {})}
    />
  );
}

function statedFacts(report: Report, errors: ReferenceErrors) {
  const { reference: words, page } = report.words;
  const { believed, covariance, composite, source, enteredOn } = errors;
  const analyte = analyteTitle(report, errors.analyte);
  const share = ({ believed: best, from, to }: typeof believed.sensitivity) => words.range(best, from, to);
  const together = (of: typeof covariance) =>
    of.diseased === 0 && of.nondiseased === 0
      ? null
      : words.covariances(words.covariance(of.diseased ?? 0), words.covariance(of.nondiseased ?? 0));
  return [
    [words.facts.finds, words.finds(share(believed.sensitivity), analyte)],
    [words.facts.clears, words.clears(share(believed.specificity), analyte)],
    [words.facts.together, together(covariance) ?? words.independent],
    [
      words.facts.made,
      composite === null
        ? null
        : words.composite(
            composite.rule,
            composite.tests.map((test) =>
              words.compositeTest(test.title, test.sensitivity, test.specificity),
            ),
            together(composite.covariance),
          ),
    ],
    [words.facts.source, words.source(source, enteredOn === null ? null : page.date(enteredOn))],
  ] as const;
}

function AllowedText({ report, errors }: { report: Report; errors: ReferenceErrors }) {
  const { sensitivity, specificity } = errors.admissible;
  if (sensitivity === null || specificity === null) return null;
  const text = (share: number) => `${formats.percentSigned(share, share > 0.99 ? 2 : 1)}`;
  return <p class="how">{report.words.reference.admissible(text(sensitivity), text(specificity))}</p>;
}
