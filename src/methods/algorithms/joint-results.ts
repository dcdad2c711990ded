import { InputError } from "../../core/input-error.ts";
import { type Note, note } from "../../core/note.ts";
import { dependenceBounds } from "./dependence-bounds.ts";
import type { TwoKitDependence } from "./two-kits-fields.ts";

/** Both results among people of one truth. */
export interface JointResults {
  readonly bothReactive: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly neither: number;
  readonly covariance: number;
  readonly lowestCovariance: number;
  readonly highestCovariance: number;
  /** `null`, as its bounds, where one of the results never varies. */
  readonly phi: number | null;
  readonly lowestPhi: number | null;
  readonly highestPhi: number | null;
}

/** The shares of reactive results among people of one truth. */
export interface ReactiveShares {
  readonly first: number;
  readonly second: number;
}

/** How far beyond a bound a stated number may be by rounding alone. */
const ROUNDING = 1e-12;

/**
 * The four probabilities of two results whose covariance or correlation is stated.
 *
 * @throws InputError at `input.dependence.<truth>`, with the bounds, where the two kits don't allow it
 * Source: vacek1985; bounds frechet1951
 */
export function jointResultsOf(
  shares: ReactiveShares,
  dependence: TwoKitDependence,
  truth: "diseased" | "nondiseased",
): JointResults {
  const { covariance: bounds, phi: phiBounds } = dependenceBounds(shares.first, shares.second);
  if (dependence.kind !== "independent") {
    const { least, most } = dependence.kind === "phi" ? phiBounds : bounds;
    const stated = dependence[truth];
    if (stated < least - ROUNDING || stated > most + ROUNDING) {
      const word = dependence.kind === "phi" ? "correlation" : "covariance";
      const expected = `a ${word} from ${shown(least)} to ${shown(most)}, as these two kits allow among the ${truth}`;
      throw new InputError(["input", "dependence", truth], expected, stated);
    }
  }
  const spread = spreadOf(shares);
  const stated = dependence.kind === "independent" ? 0 : dependence[truth];
  const covariance = within(dependence.kind === "phi" ? stated * spread : stated, bounds);
  const varies = spread > 0;
  return {
    ...cellsOf(shares, covariance),
    covariance,
    lowestCovariance: bounds.least,
    highestCovariance: bounds.most,
    phi: varies ? covariance / spread : null,
    lowestPhi: varies ? phiBounds.least : null,
    highestPhi: varies ? phiBounds.most : null,
  };
}

/** Both standard deviations multiplied: what turns a correlation into a covariance. */
export function spreadOf({ first, second }: ReactiveShares): number {
  return Math.sqrt(first * (1 - first) * second * (1 - second));
}

/** The four probabilities; a covariance within its bounds makes none of them negative, but for rounding. */
export function cellsOf({ first, second }: ReactiveShares, covariance: number) {
  return {
    bothReactive: Math.max(0, first * second + covariance),
    firstOnly: Math.max(0, first * (1 - second) - covariance),
    secondOnly: Math.max(0, (1 - first) * second - covariance),
    neither: Math.max(0, (1 - first) * (1 - second) + covariance),
  };
}

/** Says why phi is absent: a note on it and on its bounds. */
export function noPhiNotes(place: string): Note[] {
  const message = "one of the results never varies here: there is no correlation, the covariance is 0";
  return ["phi", "lowestPhi", "highestPhi"].map((name) => note("no_variation", `${place}.${name}`, message));
}

function within(value: number, { least, most }: { least: number; most: number }): number {
  return Math.min(most, Math.max(least, value));
}

/** Rounded towards 0, so that the bound shown is itself allowed. */
function shown(bound: number): string {
  return String(Math.trunc(bound * 1e6) / 1e6);
}
