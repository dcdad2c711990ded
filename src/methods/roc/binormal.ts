import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { normalCdf, normalDensity, normalQuantile } from "../../numeric/normal.ts";
import { type BinormalFit, binormalFit } from "./binormal-fit.ts";
import { binormalShares, type Categories } from "./binormal-likelihood.ts";
import type { OrdinalInput, OrdinalValues } from "./ordinal-fields.ts";

type Binormal = NonNullable<OrdinalValues["binormal"]>;

/** Specificities at which the fitted curve is given. */
const SPECIFICITIES = [
  0.999,
  0.995,
  ...Array.from({ length: 99 }, (_, place) => (99 - place) / 100),
  0.005,
  0.001,
];

/** The fitted model as values; `null` where fewer than three categories are in use or the likelihood has no top. */
export function binormalValues(categories: OrdinalInput["categories"], level: number): Binormal | null {
  const used = categories.filter(({ positives, negatives }) => positives + negatives > 0);
  if (used.length < 3) return null;
  const counts: Categories = {
    positives: used.map(({ positives }) => positives),
    negatives: used.map(({ negatives }) => negatives),
  };
  const fit = binormalFit(counts);
  if (fit === null) return null;
  const quantile = normalQuantile((1 + level) / 2);
  const parameter = (place: number) => {
    const value = fit.unknowns[place] as number;
    const standardError = Math.sqrt(covarianceOf(fit, place, place));
    const estimate = {
      value,
      lower: value - quantile * standardError,
      upper: value + quantile * standardError,
    };
    return { estimate, standardError };
  };
  return {
    a: parameter(0),
    b: positive(parameter(1), quantile),
    covariance: covarianceOf(fit, 0, 1),
    ...areaOf(fit, quantile),
    borders: used.slice(1).map(({ label }, place) => {
      const { estimate, standardError } = parameter(place + 2);
      return { from: label, place: estimate, standardError };
    }),
    curve: curveOf(fit, quantile),
    fit: distanceOf(fit, counts),
    converged: true,
    iterations: fit.iterations,
  };
}

/** Limits on the log scale, for what can't be below 0. */
function positive({ estimate, standardError }: Binormal["b"], quantile: number): Binormal["b"] {
  const value = estimate.value as number;
  const reach = Math.exp((quantile * (standardError as number)) / value);
  return { estimate: { value, lower: value / reach, upper: value * reach }, standardError };
}

function covarianceOf({ covariance, unknowns }: BinormalFit, one: number, other: number): number {
  return covariance[one * unknowns.length + other] as number;
}

/** Area = Phi(a / sqrt(1 + b²)); its standard error by the delta method. */
function areaOf(fit: BinormalFit, quantile: number): Pick<Binormal, "area" | "standardError"> {
  const [a, b] = [fit.unknowns[0] as number, fit.unknowns[1] as number];
  const root = Math.sqrt(1 + b * b);
  const middle = a / root;
  const [byA, byB] = [1 / root, (-a * b) / Math.pow(root, 3)];
  const variance =
    Math.pow(byA, 2) * covarianceOf(fit, 0, 0) +
    2 * byA * byB * covarianceOf(fit, 0, 1) +
    Math.pow(byB, 2) * covarianceOf(fit, 1, 1);
  const error = Math.sqrt(variance);
  return {
    area: {
      value: normalCdf(middle),
      lower: normalCdf(middle - quantile * error),
      upper: normalCdf(middle + quantile * error),
    },
    standardError: normalDensity(middle) * error,
  };
}

/** Sensitivity = Phi(a + b z), z being the normal quantile of 1 - specificity. */
function curveOf(fit: BinormalFit, quantile: number): Binormal["curve"] {
  const [a, b] = [fit.unknowns[0] as number, fit.unknowns[1] as number];
  return SPECIFICITIES.map((specificity) => {
    const z = normalQuantile(specificity, "upper");
    const middle = a + b * z;
    const variance =
      covarianceOf(fit, 0, 0) + 2 * z * covarianceOf(fit, 0, 1) + z * z * covarianceOf(fit, 1, 1);
    const reach = quantile * Math.sqrt(Math.max(0, variance));
    return {
      specificity,
      sensitivity: {
        value: normalCdf(middle),
        lower: normalCdf(middle - reach),
        upper: normalCdf(middle + reach),
      },
    };
  });
}

function distanceOf({ unknowns, logLikelihood }: BinormalFit, counts: Categories): Binormal["fit"] {
  const shares = binormalShares(unknowns);
  let [deviance, pearson] = [0, 0];
  for (const group of ["positives", "negatives"] as const) {
    const total = counts[group].reduce((sum, people) => sum + people, 0);
    counts[group].forEach((people, category) => {
      const expected = total * (shares[group][category] as number);
      if (people > 0) deviance += 2 * people * Math.log(people / expected);
      pearson += Math.pow(people - expected, 2) / expected;
    });
  }
  const degreesOfFreedom = counts.positives.length - 3;
  const distance = Math.max(0, deviance);
  const p = degreesOfFreedom > 0 ? chiSquareCdf(distance, degreesOfFreedom, "upper") : null;
  return { logLikelihood, deviance: distance, pearson, degreesOfFreedom, p };
}
