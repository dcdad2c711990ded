import { InputError } from "../../core/input-error.ts";
import { dependenceBounds } from "./dependence-bounds.ts";
import type { PreparedPairs } from "./prepared-dependence.ts";

/**
 * The table of one or two runs by the covariance alone: both reactive in p q + phi sqrt(p (1 - p) q (1 - q)).
 */
export function pairsTable(
  kits: readonly number[],
  reactive: ArrayLike<number>,
  model: PreparedPairs,
  into: Float64Array,
): Float64Array {
  if (kits.length > 2) throw new InputError(["runs"], "at most 2 runs", kits.length);
  const [first, second] = kits.map((kit) => reactive[kit] as number);
  if (first === undefined) {
    into[0] = 1;
    return into;
  }
  if (second === undefined) {
    into[0] = 1 - first;
    into[1] = first;
    return into;
  }
  const covariance = covarianceOf(kits[0] as number, kits[1] as number, first, second, model);
  into[0] = Math.max(0, (1 - first) * (1 - second) + covariance);
  into[1] = Math.max(0, first * (1 - second) - covariance);
  into[2] = Math.max(0, (1 - first) * second - covariance);
  into[3] = Math.max(0, first * second + covariance);
  return into;
}

/** The covariance of two runs, held within what the shares allow. */
function covarianceOf(
  first: number,
  second: number,
  shareFirst: number,
  shareSecond: number,
  model: PreparedPairs,
): number {
  const phi = statedPhi(first, second, model);
  const { least, most } = dependenceBounds(shareFirst, shareSecond).covariance;
  const scale = Math.sqrt(shareFirst * (1 - shareFirst) * shareSecond * (1 - shareSecond));
  return Math.min(Math.max(phi * scale, least), most);
}

function statedPhi(first: number, second: number, { ids, phi }: PreparedPairs): number {
  const stated = phi[first]?.[second];
  if (typeof stated === "number") return stated;
  const id = ids[first] ?? String(first);
  throw new InputError(
    ["input", "dependence", "pairs"],
    `a pair of its own for ${id}, which is run twice: first and second both ${id}`,
    "none",
  );
}
