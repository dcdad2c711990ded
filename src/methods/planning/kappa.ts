import * as v from "valibot";
import { draws, level, openProportion, quantity, seed } from "../../core/fields.ts";

const Input = v.strictObject({
  kappa: v.pipe(
    v.number(),
    v.gtValue(-1, "expected a kappa above -1 and below 1"),
    v.ltValue(1, "expected a kappa above -1 and below 1"),
    v.description("kappa expected of the two readers"),
  ),
  reactiveFirst: openProportion("share of items that the first reader calls reactive"),
  reactiveSecond: openProportion("share of items that the second reader calls reactive"),
  halfWidth: openProportion("half the length wanted of the interval of kappa"),
});
const Options = v.strictObject({
  level: level(),
  draws: draws("simulated studies of the size found", 2_000, 100_000),
  seed: seed(1),
});
const Values = v.strictObject({
  total: quantity("count", "items to be read by both, by the large-sample standard error, rounded up"),
  unrounded: quantity("count", "the same, not rounded"),
  standardError: quantity("statistic", "standard error of kappa with so many items"),
  feasible: v.pipe(
    v.strictObject({
      least: quantity("statistic", "least kappa of two readers with these shares"),
      most: quantity("statistic", "largest kappa of two readers with these shares"),
    }),
    v.description("what the shares called reactive allow"),
  ),
  observedAgreement: quantity("proportion", "share of items on which the readers then agree"),
  expectedAgreement: quantity("proportion", "share on which they would agree by chance"),
  expectedDisagreements: quantity("count", "items on which they will disagree, on average"),
  simulated: v.pipe(
    v.strictObject({
      halfWidth: quantity("statistic", "mean half-width of the intervals that exist"),
      asPrecise: quantity("probability", "share of studies whose half-width is at most the wanted one"),
      coverage: quantity("probability", "share of studies whose interval contains the expected kappa"),
      withoutInterval: quantity("probability", "share of studies that give no interval at all"),
    }),
    v.description("studies of this size drawn at random, evaluated as agreement.kappa does"),
  ),
});
export type PlanKappaInput = v.InferOutput<typeof Input>;
export type PlanKappaOptions = v.InferOutput<typeof Options>;
export type PlanKappaValues = v.InferOutput<typeof Values>;
