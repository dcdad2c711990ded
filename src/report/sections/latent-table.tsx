import type { LatentClass } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { BeforeAfterStrip } from "../figures/before-after-strip.tsx";
import { Strip, StripScale } from "../figures/strip.tsx";
import { stripDomain } from "../figures/strip-scale.ts";
import type * as formats from "../formats.ts";
import { CountsAndPercent, EstimateHead, PercentInterval } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { medianOf, populationTitle, priorOf } from "../reference-names.ts";

type Naive = LatentClass["naive"][number]["sensitivity"];

interface Line {
  readonly name: string;
  readonly naive: Naive | null;
  readonly likelihood: formats.Limits | null;
  readonly bayesian: formats.Limits | null;
  readonly prior: formats.Limits | null;
  /** Shares of another kind than the tests' accuracies: not on their scale. */
  readonly striped: boolean;
}

interface Props {
  readonly report: Report;
  readonly model: LatentClass;
}

/** Each test against the reference, by likelihood and with beliefs; then how common the condition is. */
export function LatentTable({ report, model }: Props) {
  const { latent: words, grammar } = report.words;
  const groups = [
    ...model.tests.map(({ title }, place) => ({
      heading: grammar.sentence(title),
      rows: testLines(report, model, place),
    })),
    { heading: words.prevalence, rows: prevalenceLines(report, model) },
  ];
  const { level } = report.evaluation.study.interval;
  const note = words.how(model.bayesian !== null, model.naive.length > 0, level);
  return (
    <DataTable
      report={report}
      caption={words.caption(model.title)}
      columns={columnsOf(
        report,
        model,
        groups.flatMap(({ rows }) => rows),
      )}
      groups={groups}
      {...(note === "" ? {} : { note })}
    />
  );
}

function testLines(report: Report, model: LatentClass, place: number): Line[] {
  const { latent: words } = report.words;
  const naive = model.naive.find(({ test }) => test === model.tests[place]?.id);
  const likelihood = model.likelihood?.tests[place];
  const bayesian = model.bayesian?.tests[place];
  return (["sensitivity", "specificity"] as const).map((measure) => ({
    name: words.rows[measure],
    naive: naive?.[measure] ?? null,
    likelihood: likelihood?.[measure].estimate ?? null,
    bayesian: bayesian === undefined ? null : medianOf(bayesian[measure]),
    prior: bayesian === undefined ? null : priorOf(bayesian[measure]),
    striped: true,
  }));
}

function prevalenceLines(report: Report, model: LatentClass): Line[] {
  const populations = (model.bayesian ?? model.likelihood)?.populations ?? [];
  return populations.map(({ label }, place) => {
    const bayesian = model.bayesian?.populations[place]?.prevalence;
    return {
      name: populationTitle(report, model, label),
      naive: null,
      likelihood: model.likelihood?.populations[place]?.prevalence.estimate ?? null,
      bayesian: bayesian === undefined ? null : medianOf(bayesian),
      prior: bayesian === undefined ? null : priorOf(bayesian),
      striped: false,
    };
  });
}

const WIDTH = 150;

function columnsOf(report: Report, model: LatentClass, lines: readonly Line[]): Column<Line>[] {
  const { latent: words, page } = report.words;
  const { columns } = words;
  const limits = page.interval(report.evaluation.study.interval.level);
  const domain = stripDomain(
    lines
      .filter(({ striped }) => striped)
      .flatMap(({ likelihood, bayesian }) => [bayesian ?? likelihood].filter((one) => one !== null)),
  );
  const estimate = (sign: string, of: (line: Line) => formats.Limits | null): Column<Line> => ({
    head: <EstimateHead sign={sign} limits={limits} />,
    kind: "number",
    cell: (line) => {
      const found = of(line);
      return found === null ? "" : <PercentInterval report={report} of={found} />;
    },
  });
  const naive: Column<Line> = {
    head: <EstimateHead sign={columns.naive} limits={limits} />,
    kind: "number",
    cell: (line) => (line.naive === null ? "" : <CountsAndPercent report={report} of={line.naive} />),
  };
  return [
    { head: columns.what, heading: true, cell: ({ name }) => name },
    ...(model.naive.length === 0 ? [] : [naive]),
    ...(model.likelihood === null ? [] : [estimate(columns.likelihood, (line) => line.likelihood)]),
    ...(model.bayesian === null ? [] : [estimate(columns.bayesian, (line) => line.bayesian)]),
    {
      head: (
        <>
          <span class="over-strips">{model.bayesian === null ? columns.stripLikelihood : columns.strip}</span>
          <StripScale domain={domain} width={WIDTH} />
        </>
      ),
      kind: "figure",
      cell: (line) => {
        const after = line.bayesian ?? line.likelihood;
        if (after === null || !line.striped) return "";
        return line.prior === null ? (
          <Strip estimate={after} domain={domain} width={WIDTH} />
        ) : (
          <BeforeAfterStrip before={line.prior} after={after} domain={domain} width={WIDTH} />
        );
      },
    },
  ];
}
