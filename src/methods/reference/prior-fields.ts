import * as v from "valibot";
import { InputError } from "../../core/input-error.ts";

const shape = (meaning: string) =>
  v.pipe(
    v.number(),
    v.gtValue(0, "expected a number above 0"),
    v.maxValue(1e9, "expected at most 1,000,000,000"),
    v.description(meaning),
  );

/**
 * What is believed of a share before these data, as a beta distribution. Beta(1, 1) is flat; Beta(a, b) weighs as
 * a + b people would, a of them in favour.
 */
export function betaPrior(meaning: string) {
  return v.pipe(
    v.strictObject({
      alpha: shape("first shape of the beta distribution: the people in favour it weighs as"),
      beta: shape("second shape: the people against it weighs as"),
    }),
    v.description(meaning),
  );
}

/** Priors of a latent class model: one for every share, none of them silent. */
export const LatentPriors = v.pipe(
  v.strictObject({
    tests: v.pipe(
      v.array(
        v.strictObject({
          sensitivity: betaPrior("P(reactive | condition present), as believed before"),
          specificity: betaPrior("P(non-reactive | condition absent), as believed before"),
        }),
      ),
      v.description("one entry per test, same order as `tests`"),
    ),
    populations: v.pipe(
      v.array(betaPrior("P(condition present), as believed before")),
      v.description("one entry per population, same order as `populations`"),
    ),
  }),
  v.description("what is believed before these data"),
);

export type BetaPrior = v.InferOutput<ReturnType<typeof betaPrior>>;
export type LatentPriors = v.InferOutput<typeof LatentPriors>;

export const FLAT: BetaPrior = { alpha: 1, beta: 1 };

/** @throws InputError where there are not as many priors as tests and populations */
export function requirePriors(priors: LatentPriors, tests: number, populations: number): void {
  if (priors.tests.length !== tests) {
    throw new InputError(["input", "priors", "tests"], `${tests} entries, one per test`, priors.tests);
  }
  if (priors.populations.length !== populations) {
    const expected = `${populations} entries, one per population`;
    throw new InputError(["input", "priors", "populations"], expected, priors.populations);
  }
}
