import { benchAlgorithmsDependence } from "./algorithms-dependence.ts";
import { benchAlgorithmsOutcomes } from "./algorithms-outcomes.ts";
import { benchAlgorithmsPairs } from "./algorithms-pairs.ts";
import { benchAlgorithmsSearch } from "./algorithms-search.ts";
import { benchClusters } from "./clusters.ts";
import { benchComparison } from "./comparison.ts";
import { benchMethods } from "./methods.ts";
import { benchNumeric } from "./numeric.ts";
import { benchPlanningComparing } from "./planning-comparing.ts";
import { benchPlanningCriterion } from "./planning-criterion.ts";
import { benchPlanningPrecision } from "./planning-precision.ts";
import { benchPlanningStopping } from "./planning-stopping.ts";
import { benchPlanningTogether } from "./planning-together.ts";
import { benchPooling } from "./pooling.ts";
import { benchPoolingUnivariate } from "./pooling-univariate.ts";
import { benchReferenceBayesian } from "./reference-bayesian.ts";
import { benchReferenceErrors } from "./reference-errors.ts";
import { benchReferenceLatent } from "./reference-latent.ts";
import { benchReport } from "./report.ts";
import { benchRoc } from "./roc.ts";
import { benchVerification } from "./verification.ts";

/**
 * `npm run bench`: speed as ratios measured in one run on one machine, against R and SciPy where they are
 * installed and against the stated limits. Prints to the console; nothing is committed.
 */
export interface BenchRow {
  readonly name: string;
  /** Ours divided by the other's (or by the limit): at most `bar` is wanted. */
  readonly ratio: number;
  readonly bar: number;
  readonly detail: string;
}

const benches: readonly [string, () => Promise<readonly BenchRow[]>][] = [
  ["numeric", benchNumeric],
  ["methods", benchMethods],
  ["comparison", benchComparison],
  ["clusters", benchClusters],
  ["planning: criteria", benchPlanningCriterion],
  ["planning: precision, enrolment", benchPlanningPrecision],
  ["planning: two kits, readers", benchPlanningComparing],
  ["planning: stopping early", benchPlanningStopping],
  ["planning: together, what if", benchPlanningTogether],
  ["algorithms: dependence", benchAlgorithmsDependence],
  ["algorithms: outcomes", benchAlgorithmsOutcomes],
  ["algorithms: two kits, stock", benchAlgorithmsPairs],
  ["algorithms: search", benchAlgorithmsSearch],
  ["reference: known errors", benchReferenceErrors],
  ["reference: latent classes", benchReferenceLatent],
  ["reference: priors", benchReferenceBayesian],
  ["verification", benchVerification],
  ["pooling: sensitivity and specificity together", benchPooling],
  ["pooling one proportion, limits of detection", benchPoolingUnivariate],
  ["curves, cutoffs", benchRoc],
  ["report", benchReport],
];

for (const [title, bench] of benches) {
  console.log(`\n${title}`);
  for (const { name, ratio, bar, detail } of await bench()) {
    const verdict = ratio <= bar ? "within" : "OVER";
    console.log(`  ${ratio.toFixed(2).padStart(6)} (${verdict} ${bar})  ${name}: ${detail}`);
  }
}
