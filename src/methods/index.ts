import type { Method } from "../core/method.ts";
import { fourfold } from "./accuracy/fourfold.ts";
import { invalidTreatments } from "./accuracy/invalid-treatments.ts";
import { jointAnalytes } from "./accuracy/joint-analytes.ts";
import { levelLikelihoodRatios } from "./accuracy/level-likelihood-ratios.ts";
import { chanceCorrected } from "./agreement/chance-corrected.ts";
import { kappa } from "./agreement/kappa.ts";
import { manyReaders } from "./agreement/many-readers.ts";
import { percent } from "./agreement/percent.ts";
import { expectedDiscordance } from "./algorithms/expected-discordance.ts";
import { algorithmsFrontier } from "./algorithms/frontier.ts";
import { observedDependence } from "./algorithms/observed-dependence.ts";
import { algorithmsOutcomes } from "./algorithms/outcomes.ts";
import { patternFit } from "./algorithms/pattern-fit.ts";
import { postTest } from "./algorithms/post-test.ts";
import { stock } from "./algorithms/stock.ts";
import { algorithmsTornado } from "./algorithms/tornado.ts";
import { twoTests } from "./algorithms/two-tests.ts";
import { algorithmsTwoWay } from "./algorithms/two-way.ts";
import { algorithmsUncertain } from "./algorithms/uncertain.ts";
import { clustersBootstrap } from "./clusters/bootstrap.ts";
import { clustersCompare } from "./clusters/compare.ts";
import { clustersDesignEffect } from "./clusters/design-effect.ts";
import { clustersIdealBootstrap } from "./clusters/ideal-bootstrap.ts";
import { clustersProportion } from "./clusters/proportion.ts";
import { exactUnconditional } from "./comparison/exact-unconditional.ts";
import { noninferiority } from "./comparison/noninferiority.ts";
import { paired } from "./comparison/paired.ts";
import { pairedPredictiveValues } from "./comparison/paired-predictive-values.ts";
import { unpaired } from "./comparison/unpaired.ts";
import { decisionAssurance } from "./decision/assurance.ts";
import { decisionFamily } from "./decision/family.ts";
import { decisionJoint } from "./decision/joint.ts";
import { planningAtLeastOne } from "./planning/at-least-one.ts";
import { planningClusteredSize } from "./planning/clustered-size.ts";
import { planningCriterionPower } from "./planning/criterion-power.ts";
import { planningCriterionSize } from "./planning/criterion-size.ts";
import { planningEffort } from "./planning/effort.ts";
import { planningEnrolment } from "./planning/enrolment.ts";
import { planningGroupSequential } from "./planning/group-sequential.ts";
import { jointPower } from "./planning/joint-power.ts";
import { jointSize } from "./planning/joint-size.ts";
import { planningKappa } from "./planning/kappa.ts";
import { planningNoFailures } from "./planning/no-failures.ts";
import { planningPairedDifference } from "./planning/paired-difference.ts";
import { planningPairedNoninferiority } from "./planning/paired-noninferiority.ts";
import { planningPrecision } from "./planning/precision.ts";
import { planningPrecisionNormal } from "./planning/precision-normal.ts";
import { planningStoppingRule } from "./planning/stopping-rule.ts";
import { planningTwoStage } from "./planning/two-stage.ts";
import { planningUnpairedDifference } from "./planning/unpaired-difference.ts";
import { planningUnpairedNoninferiority } from "./planning/unpaired-noninferiority.ts";
import { whatIf } from "./planning/what-if.ts";
import { planningZeroEvents } from "./planning/zero-events.ts";
import { bivariate } from "./pooling/bivariate.ts";
import { curveRegression } from "./pooling/curve-regression.ts";
import { influence } from "./pooling/influence.ts";
import { inverseVariance } from "./pooling/inverse-variance.ts";
import { smallStudy } from "./pooling/small-study.ts";
import { univariate } from "./pooling/univariate.ts";
import { atPrevalence } from "./predictive/at-prevalence.ts";
import { expectedCounts } from "./predictive/expected-counts.ts";
import { lowestPrevalence } from "./predictive/lowest-prevalence.ts";
import { overPrevalences } from "./predictive/over-prevalences.ts";
import { uncertainPrevalence } from "./predictive/uncertain-prevalence.ts";
import { prevalenceTrue } from "./prevalence/true.ts";
import { coverage } from "./proportion/coverage.ts";
import { criterion } from "./proportion/criterion.ts";
import { exactTest } from "./proportion/exact-test.ts";
import { interval } from "./proportion/interval.ts";
import { referenceApparent } from "./reference/apparent.ts";
import { referenceBayesian } from "./reference/bayesian.ts";
import { referenceComposite } from "./reference/composite.ts";
import { referenceCorrected } from "./reference/corrected.ts";
import { referenceDiscrepant } from "./reference/discrepant.ts";
import { elicitedBetaMethod } from "./reference/elicited-beta.ts";
import { exactPosteriorMethod } from "./reference/exact-posterior.ts";
import { latentClass } from "./reference/latent-class.ts";
import { priorSensitivityMethod } from "./reference/prior-sensitivity.ts";
import { referenceTipping } from "./reference/tipping.ts";
import { rocCalibration } from "./roc/calibration.ts";
import { rocCompare } from "./roc/compare.ts";
import { rocCurve } from "./roc/curve.ts";
import { rocCutoff } from "./roc/cutoff.ts";
import { rocDetectionLimit } from "./roc/detection-limit.ts";
import { rocEyeAgainstInstrument } from "./roc/eye-against-instrument.ts";
import { rocIntensity } from "./roc/intensity.ts";
import { rocOrdinal } from "./roc/ordinal.ts";
import { commonOddsRatio } from "./strata/common-odds-ratio.ts";
import { fisher } from "./strata/fisher.ts";
import { funnelLimits } from "./strata/funnel-limits.ts";
import { homogeneity } from "./strata/homogeneity.ts";
import { trend } from "./strata/trend.ts";
import { beggGreenes } from "./verification/begg-greenes.ts";
import { verificationBounds } from "./verification/bounds.ts";
import { imputed } from "./verification/imputed.ts";
import { sensitivity } from "./verification/sensitivity.ts";
import { weighted } from "./verification/weighted.ts";

/** Every method of Fourfold, by area. A new method is one more line here. */
export const catalogue: readonly Method[] = [
  interval,
  criterion,
  exactTest,
  coverage,
  fourfold,
  invalidTreatments,
  levelLikelihoodRatios,
  jointAnalytes,
  atPrevalence,
  overPrevalences,
  uncertainPrevalence,
  expectedCounts,
  lowestPrevalence,
  homogeneity,
  trend,
  fisher,
  commonOddsRatio,
  funnelLimits,
  paired,
  pairedPredictiveValues,
  unpaired,
  exactUnconditional,
  noninferiority,
  clustersProportion,
  clustersCompare,
  clustersDesignEffect,
  clustersBootstrap,
  clustersIdealBootstrap,
  percent,
  kappa,
  chanceCorrected,
  manyReaders,
  decisionFamily,
  decisionAssurance,
  decisionJoint,
  prevalenceTrue,
  planningCriterionSize,
  planningCriterionPower,
  planningNoFailures,
  planningZeroEvents,
  planningAtLeastOne,
  jointPower,
  planningKappa,
  planningPairedDifference,
  planningPairedNoninferiority,
  planningUnpairedDifference,
  planningUnpairedNoninferiority,
  planningTwoStage,
  planningGroupSequential,
  planningStoppingRule,
  jointSize,
  whatIf,
  planningPrecision,
  planningPrecisionNormal,
  planningEnrolment,
  planningClusteredSize,
  planningEffort,
  algorithmsOutcomes,
  algorithmsUncertain,
  twoTests,
  postTest,
  patternFit,
  observedDependence,
  expectedDiscordance,
  stock,
  algorithmsFrontier,
  algorithmsTornado,
  algorithmsTwoWay,
  referenceApparent,
  referenceBayesian,
  referenceComposite,
  referenceCorrected,
  referenceDiscrepant,
  latentClass,
  referenceTipping,
  elicitedBetaMethod,
  exactPosteriorMethod,
  priorSensitivityMethod,
  beggGreenes,
  verificationBounds,
  weighted,
  imputed,
  sensitivity,
  bivariate,
  influence,
  rocCurve,
  rocCompare,
  rocCutoff,
  rocOrdinal,
  rocEyeAgainstInstrument,
  rocIntensity,
  univariate,
  inverseVariance,
  curveRegression,
  smallStudy,
  rocDetectionLimit,
  rocCalibration,
];

/** The method with this id, e.g. `proportion.interval`. */
export function findMethod(id: string): Method | undefined {
  return catalogue.find((method) => method.id === id);
}
