import { InputError } from "../../core/input-error.ts";
import { dependenceBounds } from "./dependence-bounds.ts";
import type { DependentPairs } from "./fields.ts";
import { holdTogether, latentCorrelations, latentPairs } from "./latent-pairs.ts";
import type { Truth } from "./model.ts";
import type { PreparedPairs, ReactiveShare } from "./prepared-dependence.ts";

/** How far beyond a bound a phi may be by rounding alone. */
const ROUNDING = 1e-12;

/**
 * Holds every stated phi against what the two kits' shares allow.
 *
 * @throws InputError at `dependence.pairs.<place>.<truth>`, with the bounds
 */
export function pairCheck(kits: readonly ReactiveShare[], { pairs }: DependentPairs, truth: Truth): void {
  for (const [at, pair] of pairs.entries()) {
    const { least, most } = dependenceBounds(shareOf(kits, pair.first), shareOf(kits, pair.second)).phi;
    const phi = pair[truth];
    if (phi < least - ROUNDING || phi > most + ROUNDING) {
      throw new InputError(
        ["input", "dependence", "pairs", at, truth],
        `a phi from ${shown(least)} to ${shown(most)}, as the shares of ${pair.first} and ${pair.second} allow`,
        phi,
      );
    }
  }
}

function shareOf(kits: readonly ReactiveShare[], id: string): number {
  return kits.find((kit) => kit.id === id)?.reactive ?? 0;
}

/** Rounded towards 0, so that the bound shown is itself allowed. */
function shown(bound: number): string {
  return String(Math.trunc(bound * 1e4) / 1e4);
}

/**
 * Holds the pairs of three runs or more against each other.
 *
 * @param places the kit of each run, as its place in the list of kits
 * @throws InputError at `dependence.pairs`, naming the kits
 */
export function requireTogether(
  places: readonly number[],
  reactive: readonly number[],
  model: PreparedPairs,
): void {
  if (places.length < 3) return;
  const correlations = latentCorrelations(places, latentPairs(places, reactive, model), model);
  if (holdTogether(correlations)) return;
  const names = places.map((place) => model.ids[place]).join(", ");
  const behind = correlations.flatMap((row, run) => row.slice(run + 1)).map((entry) => entry.toFixed(3));
  throw new InputError(
    ["input", "dependence", "pairs"],
    `error correlations that can hold together in runs of ${names} (correlations of the variables behind them: positive definite)`,
    behind.join(", "),
  );
}
