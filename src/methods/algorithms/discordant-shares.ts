import { dependenceBounds } from "./dependence-bounds.ts";
import { cellsOf, spreadOf } from "./joint-results.ts";
import type { TwoKitDependence } from "./two-kits-fields.ts";

/** Two kits, accuracies known. */
export interface TwoKits {
  readonly first: { readonly sensitivity: number; readonly specificity: number };
  readonly second: { readonly sensitivity: number; readonly specificity: number };
}

/** What the second kit makes of those reactive with the first. */
export interface DiscordantShares {
  /** Reactive with the first, of all tested. */
  readonly firstReactive: number;
  /** Non-reactive with the second, of those; `null` where nobody is reactive with the first. */
  readonly discordant: number | null;
  /** With the condition, of the discordant; `null` where there are none. */
  readonly diseasedAmongDiscordant: number | null;
  /** The kits don't allow the stated dependence: the nearest that they allow was taken. */
  readonly moved: boolean;
}

/** Shares at a prevalence in (0, 1). A dependence beyond its bounds is moved to the bound. */
export function discordantShares(
  { first, second }: TwoKits,
  dependence: TwoKitDependence,
  prevalence: number,
): DiscordantShares {
  const diseased = firstOnlyOf(
    { first: first.sensitivity, second: second.sensitivity },
    dependence,
    "diseased",
  );
  const falsely = { first: 1 - first.specificity, second: 1 - second.specificity };
  const nondiseased = firstOnlyOf(falsely, dependence, "nondiseased");
  const firstReactive = prevalence * first.sensitivity + (1 - prevalence) * falsely.first;
  const missed = prevalence * diseased.firstOnly;
  const discordant = missed + (1 - prevalence) * nondiseased.firstOnly;
  return {
    firstReactive,
    discordant: firstReactive > 0 ? Math.min(1, discordant / firstReactive) : null,
    diseasedAmongDiscordant: discordant > 0 ? missed / discordant : null,
    moved: diseased.moved || nondiseased.moved,
  };
}

/** How far beyond a bound a covariance may be by rounding alone. */
const ROUNDING = 1e-12;

function firstOnlyOf(
  shares: { readonly first: number; readonly second: number },
  dependence: TwoKitDependence,
  truth: "diseased" | "nondiseased",
): { readonly firstOnly: number; readonly moved: boolean } {
  const { least, most } = dependenceBounds(shares.first, shares.second).covariance;
  const stated = dependence.kind === "independent" ? 0 : dependence[truth];
  const covariance = dependence.kind === "phi" ? stated * spreadOf(shares) : stated;
  const allowed = Math.min(most, Math.max(least, covariance));
  return {
    firstOnly: cellsOf(shares, allowed).firstOnly,
    moved: Math.abs(allowed - covariance) > ROUNDING,
  };
}
