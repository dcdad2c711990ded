import { InputError } from "../../core/input-error.ts";
import type { Dependence } from "./fields.ts";

/**
 * A dependence made weaker or stronger: error correlations, or spreads of shared effects, times a number.
 * @param strength 0 for independence, 1 for as stated
 * @throws InputError where a correlation would pass 1
 */
export function scaledDependence(dependence: Dependence, strength: number): Dependence {
  if (dependence.kind === "independent" || strength === 1) return dependence;
  if (dependence.kind === "pairs") {
    const pairs = dependence.pairs.map((pair) => ({
      ...pair,
      diseased: pair.diseased * strength,
      nondiseased: pair.nondiseased * strength,
    }));
    const far = pairs.find((pair) => Math.max(Math.abs(pair.diseased), Math.abs(pair.nondiseased)) > 1);
    if (far === undefined) return { ...dependence, pairs };
    throw new InputError(
      ["input", "dependence"],
      `correlations of at most 1 when ${strength} times as strong`,
      far,
    );
  }
  const { diseased, nondiseased, sameKit } = dependence;
  const scaled = (effect: { readonly spread: number }) => ({ spread: effect.spread * strength });
  const own =
    sameKit === undefined
      ? {}
      : { sameKit: { diseased: sameKit.diseased * strength, nondiseased: sameKit.nondiseased * strength } };
  return { ...dependence, diseased: scaled(diseased), nondiseased: scaled(nondiseased), ...own };
}
