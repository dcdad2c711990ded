import type { Answer, LatentClass, ReferenceErrors, Verification } from "../evaluation/document.ts";
import { type ChainRow, chainRanks, chainTraces } from "../figures/chain-panels.ts";
import { priorPosterior } from "../figures/prior-posterior.ts";
import type { Specification } from "../figures/specification.ts";
import { tippingMap } from "../figures/tipping-map.ts";
import { verificationCurve } from "../figures/verification-curve.ts";
import type { Report } from "./context.ts";
import {
  askedName,
  criterionFigure,
  medianOf,
  modelFigure,
  priorOf,
  slowest,
  type Unknown,
  unknownsOf,
} from "./reference-names.ts";

export interface NamedFigure {
  readonly name: string;
  readonly spec: Specification;
}

/** The charts on how much the reference matters, in the order of the page. */
export function referenceFigures(report: Report): NamedFigure[] {
  const { referenceErrors, verification, latentClass } = report.evaluation;
  return [
    ...referenceErrors.flatMap((errors) => errors.criteria.map((one) => tippingOf(report, errors, one))),
    ...verification.flatMap((partly) => partly.criteria.flatMap((one) => curveOf(report, partly, one))),
    ...latentClass.flatMap((model) => modelFigures(report, model)),
  ];
}

const VERDICTS: Readonly<Record<string, Answer["verdict"]>> = { m: "met", n: "not_met", u: "undecided" };

function tippingOf(
  report: Report,
  errors: ReferenceErrors,
  one: ReferenceErrors["criteria"][number],
): NamedFigure {
  const name = criterionFigure("tipping", errors, one.criterion);
  const { sensitivities, specificities, verdicts } = one.grid;
  const { sensitivity, specificity } = errors.believed;
  const letters = verdicts.flatMap((row) => [...row]);
  const spec = tippingMap({
    name,
    criterion: askedName(report, one),
    sensitivities,
    specificities,
    verdicts: letters.map((letter) => VERDICTS[letter] ?? "not_estimable"),
    believed: { sensitivity: sensitivity.believed, specificity: specificity.believed },
    ranges: { sensitivity, specificity },
  });
  return { name, spec };
}

function curveOf(report: Report, partly: Verification, one: Verification["criteria"][number]): NamedFigure[] {
  const name = criterionFigure("verified", partly, one.criterion);
  const { points, borders } = one.axes.both;
  const measured = points.flatMap(({ oddsRatio, estimate, verdict }) =>
    oddsRatio === null ? [] : [{ oddsRatio, ...estimate, verdict }],
  );
  if (measured.every(({ value }) => value === null)) return [];
  const { words } = report;
  const spec = verificationCurve({
    name,
    criterion: askedName(report, one),
    measure: words.grammar.sentence(words.reference.measures[one.measure]),
    points: measured,
    borders: borders.flatMap(({ oddsRatio, below, above }) =>
      oddsRatio === null ? [] : [{ oddsRatio, below, above }],
    ),
    threshold: one.threshold,
    naive: partly.naive[one.measure].value,
  });
  return [{ name, spec }];
}

/** Values drawn of each chain. */
const MOST_DRAWS = 100;

function modelFigures(report: Report, model: LatentClass): NamedFigure[] {
  const { words } = report;
  const unknowns = unknownsOf(report, model).map((one) => ({
    ...one,
    title: words.grammar.sentence(one.title),
  }));
  if (unknowns.length === 0) return [];
  const row = ({ title, kind }: Unknown, chains: ChainRow["chains"]): ChainRow => ({ title, kind, chains });
  const named = (kind: "beliefs" | "traces" | "ranks", draw: (name: string) => Specification) => {
    const name = modelFigure(kind, model);
    return { name, spec: draw(name) };
  };
  const common = { model: model.title };
  return [
    named("beliefs", (name) => priorPosterior({ ...common, name, panels: unknowns.map(panelOf) })),
    named("traces", (name) =>
      chainTraces({
        ...common,
        name,
        rows: slowest(unknowns).map((one) => row(one, one.posterior.trace.map(thinned))),
      }),
    ),
    named("ranks", (name) =>
      chainRanks({ ...common, name, rows: unknowns.map((one) => row(one, one.posterior.ranks)) }),
    ),
  ];
}

function panelOf({ title, kind, posterior }: Unknown) {
  const span = ({ value, lower, upper }: ReturnType<typeof medianOf>) => ({ median: value, lower, upper });
  return {
    title,
    kind,
    density: posterior.density,
    before: span(priorOf(posterior)),
    after: span(medianOf(posterior)),
  };
}

function thinned(draws: readonly number[]): number[] {
  const every = Math.max(1, Math.ceil(draws.length / MOST_DRAWS));
  return draws.filter((_, place) => place % every === 0);
}
