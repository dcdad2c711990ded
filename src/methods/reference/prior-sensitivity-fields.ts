import * as v from "valibot";
import { choice, level, quantity, seed, text } from "../../core/fields.ts";
import { whole } from "../planning/fields.ts";
import { ALTERNATIVES } from "./prior-sensitivity-alternatives.ts";

export const SensitivityOptions = v.strictObject({
  level: level(0.95),
  chains: v.optional(whole(1, 16, "chains, each begun elsewhere"), 4),
  draws: v.optional(whole(100, 100_000, "draws kept of each chain, for each set of priors"), 2000),
  warmup: v.optional(whole(100, 100_000, "draws of each chain thrown away at its beginning"), 1000),
  seed: seed(1),
});

const path = () => text("path of the unknown, e.g. tests.0.sensitivity");
const name = () => choice(ALTERNATIVES, "what was done to the priors stated");
const changed = () => v.pipe(v.array(path()), v.description("shares whose prior is another than stated"));
const shift = () =>
  quantity(
    "ratio",
    "median less the median under the priors stated, over the standard deviation under those",
  );

export const SensitivityValues = v.strictObject({
  alternatives: v.pipe(
    v.array(
      v.strictObject({
        name: name(),
        changed: changed(),
        parameters: v.pipe(
          v.array(
            v.strictObject({
              parameter: path(),
              median: quantity("proportion", "posterior median"),
              lower: quantity("proportion", "lower limit, equal tails"),
              upper: quantity("proportion", "upper limit, equal tails"),
              standardDeviation: quantity("proportion", "posterior standard deviation"),
              shift: shift(),
              shiftError: quantity("ratio", "standard error of the shift from drawing"),
            }),
          ),
          v.description("every unknown; couplings are covariances or latent correlations"),
        ),
        worstRHat: quantity("ratio", "largest R-hat of any unknown: 1 where the chains agree"),
        fewestEffective: quantity("count", "fewest effective draws of any unknown, bulk or tail"),
      }),
    ),
    v.description("the priors stated, then others; those that would change no prior are left out"),
  ),
  largest: v.pipe(
    v.array(
      v.strictObject({
        parameter: path(),
        alternative: name(),
        changed: changed(),
        shift: shift(),
      }),
    ),
    v.description("for every unknown the priors that move it most"),
  ),
});

export type SensitivityOptions = v.InferOutput<typeof SensitivityOptions>;
export type SensitivityValues = v.InferOutput<typeof SensitivityValues>;
