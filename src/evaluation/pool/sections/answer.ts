import type { Estimate } from "../../../core/estimate.ts";
import type { PoolMeasure } from "../../../records/pool/pool-schema.ts";
import type { JudgedCriterion, PoolAnswer, PooledLevel, PooledMeasure, Pooling } from "../document.ts";
import { chanceAtLeast, predictionAt } from "../new-place.ts";
import type { PoolWorktop } from "../worktop.ts";
import { basisOf, middleOf } from "./middles.ts";
import { warningsOf } from "./warnings.ts";

type Models = Pick<Pooling, "bivariate" | "univariate" | "influence" | "covariate" | "leftOut">;
const NONE: Estimate = { value: null, lower: null, upper: null };

/** What the page leads with: both measures at the middle, in a new place and by level; criteria; warnings. */
export function answerSection(worktop: PoolWorktop, models: Models): PoolAnswer {
  const basis = basisOf(models);
  const measures = {
    sensitivity: measureOf(models, basis, "sensitivity"),
    specificity: measureOf(models, basis, "specificity"),
  };
  const criteria = worktop.file.criteria.map(({ measure, at_least, source }): JudgedCriterion => {
    const { summary, prediction, together } = measures[measure];
    const middle = middleOf(models, basis, measure);
    const verdict = verdictOf(summary, at_least);
    return {
      measure,
      atLeast: at_least,
      source,
      together: verdictOf(together, at_least),
      summary: verdict,
      newPlace: verdictOf(prediction, at_least),
      chance: middle === null ? null : chanceAtLeast(middle, at_least),
      changedBy: changedBy(models, basis, measure, at_least, verdict),
    };
  });
  const answer = {
    basis,
    ...measures,
    correlation: basis === "bivariate" ? models.bivariate.values.betweenStudies.correlation : NONE,
    levels: levelsOf(models, worktop.file.level),
    criteria,
  };
  return { ...answer, warnings: warningsOf(worktop, models, answer) };
}

function measureOf(models: Models, basis: PoolAnswer["basis"], measure: PoolMeasure): PooledMeasure {
  const { bivariate, univariate } = models;
  const { binomial, equality, common } = univariate[measure].values;
  const shared = { alikeP: equality.p, together: common.proportion };
  if (basis === "bivariate") {
    const { summary, prediction, betweenStudies } = bivariate.values;
    return {
      summary: summary[measure].proportion,
      prediction: prediction[measure],
      betweenSd: betweenStudies[measure],
      ...shared,
    };
  }
  const { lower, upper } = binomial.prediction;
  return {
    summary: binomial.proportion,
    prediction: { value: binomial.proportion.value, lower, upper },
    betweenSd: binomial.betweenSd,
    ...shared,
  };
}

function verdictOf({ value, lower, upper }: Estimate, atLeast: number): JudgedCriterion["summary"] {
  if (value === null || (lower === null && upper === null)) return "not_estimable";
  if (lower !== null && lower >= atLeast) return "met";
  return upper !== null && upper < atLeast ? "not_met" : "undecided";
}

function changedBy(
  { influence }: Models,
  basis: PoolAnswer["basis"],
  measure: PoolMeasure,
  atLeast: number,
  verdict: JudgedCriterion["summary"],
): string[] {
  if (influence === null || basis !== "bivariate") return [];
  return influence.values.without
    .filter((row) => row[measure].value !== null && verdictOf(row[measure], atLeast) !== verdict)
    .map(({ label }) => label);
}

function levelsOf({ covariate }: Models, level: number): PooledLevel[] {
  const parts = covariate?.values.covariate ?? null;
  if (covariate === null || parts === null || parts.logLikelihood === null) return [];
  const { betweenStudies } = parts;
  const studies = covariate.values.studies ?? 0;
  const degreesOfFreedom = studies - parts.levels.length - 1;
  return parts.levels.map((one) => {
    const at = (measure: PoolMeasure) => {
      const { logit, standardError, proportion } = one[measure];
      const betweenSd = betweenStudies[measure];
      const known = logit.value !== null && standardError !== null && betweenSd !== null;
      const prediction = known
        ? predictionAt({ logit: logit.value ?? 0, standardError, betweenSd, degreesOfFreedom }, level)
        : NONE;
      return { summary: proportion, prediction };
    };
    return {
      level: one.label,
      studies: one.studies,
      sensitivity: at("sensitivity"),
      specificity: at("specificity"),
    };
  });
}
