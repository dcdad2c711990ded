import { InputError } from "../../core/input-error.ts";
import { type Levels, pooledCounts, type Side } from "./bivariate-data.ts";
import type { BivariateInput, BivariateOptions, Likelihood } from "./bivariate-fields.ts";
import type { Fit } from "./bivariate-model.ts";
import { spreadOf } from "./loadings.ts";
import { corrected, requireLevels, requireStudies, type Study } from "./study-fields.ts";

/** @throws InputError for labels twice, levels that don't fit, or profile limits of a restricted likelihood */
export function requireBivariate(input: BivariateInput, options: BivariateOptions): void {
  requireStudies(input.studies);
  requireLevels(input.studies, input.covariate);
  if (options.interval === "profile" && input.likelihood.kind === "normal_reml") {
    const expected = '"wald" with "normal_reml": a restricted likelihood holds no mean to be profiled';
    throw new InputError(["options", "interval"], expected, options.interval);
  }
}

export interface Hindrance {
  readonly code: string;
  readonly message: string;
}

/** Studies in which anybody was seen. */
export const peopled = (studies: readonly Study[]): Study[] =>
  studies.filter(
    ({ truePositives, falsePositives, falseNegatives, trueNegatives }) =>
      truePositives + falsePositives + falseNegatives + trueNegatives > 0,
  );

/** Why these studies have no bivariate fit, or `null`. */
export function hindrance(
  studies: readonly Study[],
  likelihood: Likelihood,
  levels: Levels,
): Hindrance | null {
  const counts = pooledCounts(studies, levels, levels);
  const sides: [Side, string, string, string][] = [
    [counts.first, "sensitivity", "with the condition", "false negative"],
    [counts.second, "specificity", "without the condition", "false positive"],
  ];
  for (const [side, measure, people, wrong] of sides) {
    const seen = side.total.filter((all) => all > 0).length;
    if (seen < 2) {
      const message = `only ${seen} of the studies has people ${people}: ${measure} can't be pooled. One study is judged by its own interval`;
      return { code: "too_few_studies", message };
    }
    const fault =
      emptyLevel(side, levels, measure) ??
      (likelihood.kind === "binomial"
        ? uniform(side, levels, measure, wrong)
        : zeroCounts(studies, likelihood.correction, people, side));
    if (fault !== null) return fault;
  }
  return null;
}

const whereOf = (label: string) => (label === "" ? "any study" : `any study of level ${label}`);

/** Sums over the studies of each level. */
function perLevel(numbers: Float64Array, level: Uint16Array, levels: Levels): number[] {
  return levels.labels.map((_, place) =>
    numbers.reduce((sum, part, study) => (level[study] === place ? sum + part : sum), 0),
  );
}

function emptyLevel({ total, level }: Side, levels: Levels, measure: string): Hindrance | null {
  const empty = perLevel(total, level, levels).indexOf(0);
  if (empty < 0) return null;
  const message = `nobody tells of ${measure} in ${whereOf(levels.labels[empty] as string)}`;
  return { code: "no_observations", message };
}

/** A level in which all results, or none, are right: its logit is infinite. */
function uniform(
  { right, total, level }: Side,
  levels: Levels,
  measure: string,
  wrong: string,
): Hindrance | null {
  const people = perLevel(total, level, levels);
  const hits = perLevel(right, level, levels);
  const bad = people.findIndex((all, place) => hits[place] === 0 || hits[place] === all);
  if (bad < 0) return null;
  const where = whereOf(levels.labels[bad] as string);
  const what = hits[bad] === 0 ? `nothing but ${wrong}s in ${where}` : `no ${wrong} in ${where}`;
  const message = `${what}: the logit of ${measure} is infinite and has no fit. Pool each proportion by itself (pooling.univariate, or the exact interval of the sum)`;
  return { code: "no_variation", message };
}

function zeroCounts(
  studies: readonly Study[],
  how: Parameters<typeof corrected>[1],
  people: string,
  { total }: Side,
): Hindrance | null {
  const second = people === "without the condition";
  const bad = studies.find((study, place) => {
    const { truePositives, falsePositives, falseNegatives, trueNegatives } = corrected(study, how);
    const pair = second ? [trueNegatives, falsePositives] : [truePositives, falseNegatives];
    return (total[place] as number) > 0 && pair.includes(0);
  });
  if (bad === undefined) return null;
  const message = `${bad.label} has a count of 0 among people ${people}: its logit is infinite. Choose the binomial likelihood, or a correction`;
  return { code: "zero_counts", message };
}

/** A standard deviation above this, in logits, is on its way to no end. */
const ENDLESS = 6;

/** Why a search that found no maximum found none, where the studies are as far apart as can be; else `null`. */
export function endless({ converged, loadings }: Fit): Hindrance | null {
  const { first, second } = spreadOf(loadings);
  if (converged || Math.max(first, second) < ENDLESS) return null;
  const message = `studies lie so far apart, some nearly all right and others nearly all wrong, that the likelihood has no maximum that could be found: its spread is above ${ENDLESS} logits. Such studies have no common middle`;
  return { code: "no_maximum", message };
}
