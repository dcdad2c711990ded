import type { LatentClass } from "../evaluation/document.ts";
import { nameOf } from "./answer-facts.ts";
import type { Report } from "./context.ts";
import * as formats from "./formats.ts";
import { type Cell, siteTitle, slug, worded } from "./names.ts";

/** A criterion by what it asks for: "HBsAg sensitivity ≥ 95 %". */
export function askedName(
  report: Report,
  asked: {
    readonly criterion: string;
    readonly direction: "at_least" | "at_most";
    readonly threshold: number;
  },
): string {
  const { words } = report;
  return `${criterionTitle(report, asked.criterion)} ${words.answer.criterion(asked.direction, asked.threshold)}${formats.THIN}%`;
}

/** A criterion by its measure: "HBsAg sensitivity". */
export function criterionTitle(report: Report, id: string): string {
  const answer = report.evaluation.answers.find(({ criterion }) => criterion === id);
  return answer === undefined ? id : nameOf(report, answer);
}

/** The name of a chart about one criterion in one cell. */
export function criterionFigure(kind: "tipping" | "verified", cell: Cell, criterion: string): string {
  return [kind, cell.analyte, cell.kit, cell.specimen, cell.reader, criterion].map(slug).join("-");
}

/** The name of a chart about one model. */
export function modelFigure(kind: "beliefs" | "traces" | "ranks", model: Pick<LatentClass, "id">): string {
  return [kind, slug(model.id)].join("-");
}

type Bayesian = NonNullable<LatentClass["bayesian"]>;
export type Posterior = Bayesian["populations"][number]["prevalence"];

/** One unknown of a model: its path in the document and its title. */
export interface Unknown {
  readonly path: string;
  readonly title: string;
  readonly kind: "share" | "number";
  readonly posterior: Posterior;
}

/** Every unknown of a model with beliefs: the tests, the populations, what the tests err in together. */
export function unknownsOf(report: Report, model: LatentClass): Unknown[] {
  const { bayesian } = model;
  if (bayesian === null) return [];
  const named = (path: string, kind: Unknown["kind"], posterior: Posterior): Unknown => ({
    path,
    title: parameterTitle(report, model, path),
    kind,
    posterior,
  });
  return [
    ...bayesian.tests.flatMap(({ sensitivity, specificity }, place) => [
      named(`tests.${place}.sensitivity`, "share", sensitivity),
      named(`tests.${place}.specificity`, "share", specificity),
    ]),
    ...bayesian.populations.map(({ prevalence }, place) =>
      named(`populations.${place}.prevalence`, "share", prevalence),
    ),
    ...bayesian.couplings.flatMap(({ diseased, nondiseased }, place) => [
      named(`couplings.${place}.diseased`, "number", diseased),
      named(`couplings.${place}.nondiseased`, "number", nondiseased),
    ]),
  ];
}

/** What a path of the document stands for: "tests.0.sensitivity" is "Kit Q by eye: sensitivity". */
export function parameterTitle(report: Report, model: LatentClass, path: string): string {
  return titled(report, model, path, "parameter");
}

/** The same within a sentence: "the sensitivity of Kit Q by eye". */
export function quantityTitle(report: Report, model: LatentClass, path: string): string {
  return titled(report, model, path, "quantity");
}

function titled(report: Report, model: LatentClass, path: string, style: "parameter" | "quantity"): string {
  const words = report.words.latent[style];
  const [group, place, part] = path.split(".");
  const at = Number(place);
  if (group === "tests" && (part === "sensitivity" || part === "specificity")) {
    return words[part](model.tests[at]?.title ?? path);
  }
  if (group === "populations") {
    const label = (model.bayesian ?? model.likelihood)?.populations[at]?.label;
    return words.prevalence(label === undefined ? path : populationTitle(report, model, label));
  }
  if (group === "couplings" && (part === "diseased" || part === "nondiseased")) {
    return words[part](model.pairs.length > 1 ? couplingTitle(model, at) : null);
  }
  return path;
}

/** A population by its title. */
export function populationTitle(report: Report, { populations }: LatentClass, label: string): string {
  const { latent: words } = report.words;
  if (populations === null) return words.everybody;
  const stratum = report.evaluation.study.strata.find(({ id }) => id === populations.stratum);
  const bySite = populations.stratum === "site" || stratum?.column.startsWith("site") === true;
  return bySite ? siteTitle(report, label) : label;
}

/** The tests of a coupling by their titles. */
export function couplingTitle(model: LatentClass, place: number): string {
  const pair = model.pairs[place];
  const titleOf = (id: string) => model.tests.find((test) => test.id === id)?.title ?? id;
  if (model.dependence === "pairs" && pair !== undefined) {
    return `${titleOf(pair.first)} / ${titleOf(pair.second)}`;
  }
  return model.tests.map(({ title }) => title).join(" / ");
}

/** A posterior as an estimate: its median and limits. */
export function medianOf({ median, lower, upper }: Posterior): formats.Limits {
  return { value: median, lower, upper };
}

/** What was believed before, likewise. */
export function priorOf({ prior }: Posterior): formats.Limits {
  return { value: prior.median, lower: prior.lower, upper: prior.upper };
}

/** A result by its word: the reference is positive where a kit is reactive. */
export function resultWord(
  report: Report,
  test: Pick<LatentClass["tests"][number], "reference"> | undefined,
  result: "reactive" | "nonreactive" | "not_done",
): string {
  const { codes } = report.words;
  if (test?.reference !== true) return codes.rapid[result];
  const status = { reactive: "positive", nonreactive: "negative", not_done: "not_done" } as const;
  return codes.reference[status[result]];
}

/** Other beliefs by what they do. */
export function alternativeTitle(report: Report, model: LatentClass, name: string): string {
  const { latent: words } = report.words;
  const one = /((?:tests|populations)\.\d+\.\w+)$/.exec(name)?.[1];
  if (one !== undefined) return words.flatOf(quantityTitle(report, model, one));
  return worded(words.alternatives, name);
}

/** So many traces are drawn: those of the quantities that mix worst. */
const MOST_TRACES = 4;

/** The quantities whose chains mix worst, worst first. */
export function slowest(unknowns: readonly Unknown[]): Unknown[] {
  const effective = ({ posterior }: Unknown) =>
    Math.min(posterior.bulkEffective ?? 0, posterior.tailEffective ?? 0);
  return unknowns.toSorted((one, other) => effective(one) - effective(other)).slice(0, MOST_TRACES);
}

export const rHatText = (value: number | null) => (value === null ? "" : formats.fixed(value, 3));

/** Covariances and correlations of errors are small: four decimals, with the limits. */
export function smallWithRange({ value, lower, upper }: formats.Limits): string | null {
  if (value === null) return null;
  const text = (number: number) => formats.fixed(number, 4);
  return lower === null || upper === null
    ? text(value)
    : `${text(value)} (${formats.range(text(lower), text(upper))})`;
}
