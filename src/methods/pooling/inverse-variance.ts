import { defineMethod, type Finding } from "../../core/method.ts";
import { requireDifferent } from "../algorithms/quantities.ts";
import { inverseVarianceExamples } from "./inverse-variance-examples.ts";
import {
  Input,
  type InverseVarianceInput,
  type InverseVarianceOptions,
  Options,
  Values,
} from "./inverse-variance-fields.ts";
import { pooledEffects } from "./random-effects.ts";
import type { RandomEffectsValues } from "./random-effects-fields.ts";

export type { InverseVarianceInput, InverseVarianceOptions };

/**
 * Pools effects that come with a standard error: as if there were one true effect, and with true effects that
 * scatter around a mean, the variance between them by four estimators side by side.
 *
 * The scatter is the first thing to read: the standard deviation between studies and the prediction interval
 * say how far apart true effects lie; I² does not.
 *
 * @param input   effects with standard errors, and on what scale they are (log odds, log ratio, plain)
 * @param options level of all limits
 * @returns random effects are `null` with the note `one_study` for one study; prediction limits with
 *   `two_studies` for two
 * @throws InputError where two studies bear one label
 * Behaves badly with few studies (the scatter is hardly known) and where effect and standard error hang
 * together, as log odds of small studies do: see pooling.univariate for proportions
 * Sources: dersimonian1986, paule1982, viechtbauer2005, viechtbauer2007, knapp2003, higgins2009, higgins2002
 */
export function pooledByInverseVariance(
  input: InverseVarianceInput,
  options: InverseVarianceOptions,
): Finding<RandomEffectsValues> {
  requireDifferent(
    input.effects.map(({ label }) => label),
    ["input", "effects"],
    "label",
  );
  const effects = input.effects.map(({ label, effect, standardError }) => ({
    label,
    effect,
    variance: Math.pow(standardError, 2),
  }));
  return pooledEffects({ effects, scale: input.scale, level: options.level });
}

export const inverseVariance = defineMethod({
  id: "pooling.inverse_variance",
  version: 1,
  title: "Effects pooled by inverse variance",
  question: "What is the mean effect over studies, and how far apart do true effects lie?",
  formula:
    "weights w = 1 / (variance + tau²); mean = sum w y / sum w, error 1 / sqrt(sum w); Q = sum (y - fixed)² / variance; I² = (Q - df) / Q. tau²: DerSimonian–Laird (Q - df) / (sum w - sum w² / sum w) with w = 1 / variance; Paule–Mandel: weighted sum of squares = df; ML and REML: likeliest. Limits of tau: weighted sum of squares = chi-square quantiles. Hartung–Knapp: error² times sum w (y - mean)² / df, t with df. Prediction: mean ± t(df - 1) sqrt(tau² + error²)",
  caution:
    "with fewer than five studies the scatter is hardly known and normal limits are too narrow. I² grows with the size of the studies and is no measure of scatter. Prediction limits take true effects as normal. Errors are taken as known and unrelated to the effects, which log odds of small studies are not",
  sources: [
    "dersimonian1986",
    "paule1982",
    "viechtbauer2005",
    "viechtbauer2007",
    "knapp2003",
    "higgins2002",
    "higgins2009",
  ],
  input: Input,
  options: Options,
  values: Values,
  run: pooledByInverseVariance,
  examples: inverseVarianceExamples,
});
