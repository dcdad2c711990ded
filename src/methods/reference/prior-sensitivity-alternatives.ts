import { type BetaPrior, FLAT, type LatentPriors } from "./prior-fields.ts";

export const ALTERNATIVES = [
  "as_stated",
  "half_weight",
  "double_weight",
  "flat_accuracy",
  "flat_prevalence",
  "flat_alone",
] as const;

/** Other priors, named by what was done to those stated. */
export interface Alternative {
  readonly name: (typeof ALTERNATIVES)[number];
  /** Paths of the shares whose prior is another. */
  readonly changed: readonly string[];
  readonly priors: LatentPriors;
}

type Change = (prior: BetaPrior, path: string) => BetaPrior;

/**
 * The priors stated, then others. A prior that is flat stays flat whatever its weight, since it states nothing; what
 * changes no prior, or the same as another before it, is left out.
 */
export function alternativesTo(stated: LatentPriors): Alternative[] {
  const made = (name: Alternative["name"], change: Change): Alternative => {
    const changed: string[] = [];
    const priors = mapped(stated, (prior, path) => {
      const next = isFlat(prior) ? prior : change(prior, path);
      if (next !== prior) changed.push(path);
      return next;
    });
    return { name, changed, priors };
  };
  const weighing =
    (by: number): Change =>
    ({ alpha, beta }) => ({ alpha: alpha * by, beta: beta * by });
  const flatWhere =
    (chosen: (path: string) => boolean): Change =>
    (prior, path) =>
      chosen(path) ? FLAT : prior;
  const every = made(
    "as_stated",
    flatWhere(() => true),
  ).changed;
  const others = [
    made("half_weight", weighing(0.5)),
    made("double_weight", weighing(2)),
    made(
      "flat_accuracy",
      flatWhere((path) => path.startsWith("tests.")),
    ),
    made(
      "flat_prevalence",
      flatWhere((path) => path.startsWith("populations.")),
    ),
    ...every.map((one) =>
      made(
        "flat_alone",
        flatWhere((path) => path === one),
      ),
    ),
  ];
  const flatTogether = others.filter(({ name }) => name === "flat_accuracy" || name === "flat_prevalence");
  const said = (changed: readonly string[]) =>
    flatTogether.some((other) => other.changed.join() === changed.join());
  return [
    { name: "as_stated", changed: [], priors: stated },
    ...others.filter(({ name, changed }) => changed.length > 0 && !(name === "flat_alone" && said(changed))),
  ];
}

function isFlat({ alpha, beta }: BetaPrior): boolean {
  return alpha === 1 && beta === 1;
}

function mapped({ tests, populations }: LatentPriors, change: Change): LatentPriors {
  return {
    tests: tests.map(({ sensitivity, specificity }, test) => ({
      sensitivity: change(sensitivity, `tests.${test}.sensitivity`),
      specificity: change(specificity, `tests.${test}.specificity`),
    })),
    populations: populations.map((prior, place) => change(prior, `populations.${place}.prevalence`)),
  };
}
