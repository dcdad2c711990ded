import type { LatentClass } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { pText } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { alternativeTitle, parameterTitle, populationTitle, resultWord } from "../reference-names.ts";

interface Props {
  readonly report: Report;
  readonly model: LatentClass;
}

/** Who was tested, how the model fits, and what other beliefs would say: folded, printed all the same. */
export function LatentChecks({ report, model }: Props) {
  const { latent: words } = report.words;
  return (
    <details class="printed long">
      <summary>{words.checks}</summary>
      <Patterns report={report} model={model} />
      <OtherBeliefs report={report} model={model} />
      <Tested report={report} model={model} />
    </details>
  );
}

interface Pattern {
  readonly population: string;
  readonly results: readonly ("reactive" | "nonreactive" | "not_done")[];
  readonly observed: number | null;
  readonly likelihood: number | null;
  readonly bayesian: {
    readonly expected: number | null;
    readonly lower: number | null;
    readonly upper: number | null;
  } | null;
  readonly p: number | null;
}

/** People seen and expected, pattern by pattern, population by population. */
function Patterns({ report, model }: Props) {
  const { latent: words } = report.words;
  const patterns = patternsOf(model).toSorted(inOrder);
  if (patterns.length === 0) return null;
  const { patternColumns: columns } = words;
  const believed: Column<Pattern>[] = [
    { head: columns.bayesian, kind: "number", cell: ({ bayesian }) => predictedText(report, bayesian) },
    { head: columns.p, kind: "number", cell: ({ p }) => pText(p) },
  ];
  const populations = [...new Set(patterns.map(({ population }) => population))];
  return (
    <DataTable
      report={report}
      long
      caption={words.patternsCaption(model.title)}
      columns={[
        ...model.tests.map(
          (test, place): Column<Pattern> => ({
            head: test.title,
            heading: place === 0,
            cell: ({ results }) => resultWord(report, test, results[place] ?? "not_done"),
          }),
        ),
        { head: columns.observed, kind: "number", cell: ({ observed }) => formats.count(observed ?? 0) },
        ...(model.likelihood === null || model.likelihood.patterns.length === 0
          ? []
          : [
              {
                head: columns.likelihood,
                kind: "number" as const,
                cell: ({ likelihood }: Pattern) =>
                  likelihood === null ? "" : formats.expectedFew(likelihood),
              },
            ]),
        ...(model.bayesian === null ? [] : believed),
      ]}
      groups={populations.map((population) => ({
        ...(populations.length === 1 ? {} : { heading: populationTitle(report, model, population) }),
        rows: patterns.filter((pattern) => pattern.population === population),
      }))}
      {...(model.bayesian === null ? {} : { note: words.patternHow(report.evaluation.study.interval.level) })}
    />
  );
}

function patternsOf({ likelihood, bayesian }: LatentClass): Pattern[] {
  const key = (population: string, results: readonly string[]) => [population, ...results].join(" ");
  const fitted = new Map(
    (likelihood?.patterns ?? []).map((one) => [key(one.population, one.results), one.expected]),
  );
  if (bayesian === null) {
    return (likelihood?.patterns ?? []).map(({ population, results, observed, expected }) => ({
      population,
      results,
      observed,
      likelihood: expected,
      bayesian: null,
      p: null,
    }));
  }
  return bayesian.check.patterns.map(({ population, results, observed, expected, lower, upper, p }) => ({
    population,
    results,
    observed,
    likelihood: fitted.get(key(population, results)) ?? null,
    bayesian: { expected, lower, upper },
    p,
  }));
}

const ORDER = ["reactive", "nonreactive", "not_done"];

/** Results of all tests first; reactive before non-reactive. */
function inOrder(one: Pattern, other: Pattern): number {
  const missing = ({ results }: Pattern) => results.filter((result) => result === "not_done").length;
  const rank = ({ results }: Pattern) => results.map((result) => ORDER.indexOf(result)).join("");
  return missing(one) - missing(other) || rank(one).localeCompare(rank(other));
}

function predictedText(report: Report, of: Pattern["bayesian"]): string {
  if (of === null || of.expected === null) return report.words.page.notEstimable;
  const { expected, lower, upper } = of;
  const mean = formats.expectedFew(expected);
  if (lower === null || upper === null) return mean;
  return `${mean} (${formats.range(formats.count(Math.round(lower)), formats.count(Math.round(upper)))})`;
}

/** Medians under other beliefs; the largest shift beside. */
function OtherBeliefs({ report, model }: Props) {
  const { latent: words, grammar } = report.words;
  const { priorSensitivity } = model;
  if (priorSensitivity === null) return null;
  const parameters = priorSensitivity.alternatives[0]?.shares.map(({ parameter }) => parameter) ?? [];
  const { otherColumns: columns } = words;
  return (
    <DataTable
      report={report}
      long
      caption={words.otherCaption(model.title)}
      columns={[
        {
          head: columns.beliefs,
          heading: true,
          cell: ({ name }) => grammar.sentence(alternativeTitle(report, model, name)),
        },
        ...parameters.map((parameter) => ({
          head: grammar.sentence(parameterTitle(report, model, parameter)),
          kind: "number" as const,
          cell: ({
            shares,
          }: {
            readonly shares: readonly { parameter: string; median: number | null }[];
          }) => {
            const median = shares.find((share) => share.parameter === parameter)?.median ?? null;
            if (median === null) return "";
            if (parameter.startsWith("couplings")) return formats.fixed(median, 4);
            return formats.percent(
              median,
              formats.percentDecimals({ value: median, lower: null, upper: null }),
            );
          },
        })),
        {
          head: columns.largest,
          kind: "number",
          cell: ({ largestShift }) => (largestShift === null ? "" : formats.fixed(Math.abs(largestShift), 1)),
        },
      ]}
      groups={[{ rows: priorSensitivity.alternatives }]}
      note={words.otherHow}
    />
  );
}

/** Where the people of the model stand with each test. */
function Tested({ report, model }: Props) {
  const { latent: words } = report.words;
  const { testedColumns: columns } = words;
  const kinds = ["reactive", "nonreactive", "invalid", "outsideWindow", "indeterminate", "notDone"] as const;
  const some = kinds.filter((kind, place) => place < 2 || model.tests.some(({ people }) => people[kind] > 0));
  return (
    <DataTable
      report={report}
      caption={words.testedCaption(model.title)}
      columns={[
        { head: columns.test, heading: true, cell: ({ title }) => report.words.grammar.sentence(title) },
        ...some.map((kind) => ({
          head: columns[kind],
          kind: "number" as const,
          cell: ({ people }: LatentClass["tests"][number]) => formats.count(people[kind]),
        })),
      ]}
      groups={[{ rows: model.tests }]}
      note={words.testedHow}
    />
  );
}
