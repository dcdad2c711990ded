import { binomialCdf, binomialMass } from "../../numeric/binomial.ts";
import { normalDensity, normalQuantile } from "../../numeric/normal.ts";
import { expit } from "./logit.ts";

/** How far out the normal is followed, in standard deviations. */
const REACH = 8.5;
const LEAST_STEP = 0.004;

/**
 * Where a count lies in its prediction, as a normal score: 0 is the middle, beyond 2 or 3 to either side is rare.
 * The count is binomial with a logit that is normal; half of the probability of the count itself is counted below.
 *
 * @param right     right results among `total`, above 0
 * @param mean      mean of the logit, with its standard `deviation`
 * Source: dunn1996, with the middle of the step in place of a random place on it
 */
export function predictedScore(right: number, total: number, mean: number, deviation: number): number {
  const below = (p: number, tail: "lower" | "upper") => {
    const beyond =
      tail === "lower" ? binomialCdf(right - 1, total, p) : binomialCdf(right, total, p, "upper");
    return beyond + binomialMass(right, total, p) / 2;
  };
  if (deviation === 0) return scoreOf(below(expit(mean), "lower"), below(expit(mean), "upper"));
  // The binomial tail is a step as wide as its own standard deviation on the logit scale.
  const share = (right + 0.5) / (total + 1);
  const steepness = deviation * Math.sqrt(total * share * (1 - share)) + 1;
  const step = Math.max(LEAST_STEP, 0.4 / steepness);
  const places = Math.ceil(REACH / step);
  let [lower, upper, weights] = [0, 0, 0];
  for (let place = -places; place <= places; place += 1) {
    const z = place * step;
    const weight = normalDensity(z);
    const p = expit(mean + deviation * z);
    lower += weight * below(p, "lower");
    upper += weight * below(p, "upper");
    weights += weight;
  }
  return scoreOf(lower / weights, upper / weights);
}

const TINY = 1e-300;

function scoreOf(lower: number, upper: number): number {
  return lower < upper
    ? normalQuantile(Math.max(TINY, lower))
    : normalQuantile(Math.max(TINY, upper), "upper");
}
