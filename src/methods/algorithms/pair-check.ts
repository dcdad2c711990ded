import { InputError } from "../../core/input-error.ts";
import { dependenceBounds } from "./dependence-bounds.ts";
import type { DependentPairs } from "./fields.ts";
import type { Truth } from "./model.ts";
import type { ReactiveShare } from "./prepared-dependence.ts";

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
