import { InputError } from "../../core/input-error.ts";
import type { GaussRule } from "../../numeric/gauss-legendre.ts";
import type { Dependence, DependentPairs, SharedEffect } from "./fields.ts";
import type { Truth } from "./model.ts";

/** A kit as seen within one truth. */
export interface ReactiveShare {
  readonly id: string;
  /** Share of reactive results among valid runs: sensitivity, or 1 - specificity. */
  readonly reactive: number;
}

/** Independent results: a table is a product. */
export interface PreparedIndependence {
  readonly kind: "independent";
}

/** Error correlations by kit index; `null` for two runs of one kit when no pair was stated for it. */
export interface PreparedPairs {
  readonly kind: "pairs";
  readonly ids: readonly string[];
  readonly phi: readonly (readonly (number | null)[])[];
  /** A memory of the last correlation found for each pair of kits; it changes speed, never a result. */
  readonly latest: Float64Array;
}

/** Spreads on the probit scale by kit index. */
export interface PreparedShared {
  readonly kind: "shared";
  /** Loading times spread of the effect shared by all. */
  readonly common: readonly number[];
  /** Spread of the effect shared by the runs of one kit. */
  readonly own: number;
  /** As of the pairs: a memory that changes speed alone, by kit and number of its runs. */
  readonly latest: Map<string, RememberedChances>;
}

/** What the runs of one kit show, place by place of a rule over the shared effect. */
export interface RememberedChances {
  readonly share: number;
  readonly rule: GaussRule;
  readonly chances: Float64Array;
}

export type PreparedDependence = PreparedIndependence | PreparedPairs | PreparedShared;

/**
 * A stated dependence made ready for one truth and a list of kits.
 *
 * @param ids kit ids; runs are named by their place in this list
 * @throws InputError (path below `dependence`) for a kit not in the list or a pair stated twice
 */
export function prepareDependence(
  ids: readonly string[],
  dependence: Dependence,
  truth: Truth,
): PreparedDependence {
  if (dependence.kind === "independent") return { kind: "independent" };
  return dependence.kind === "pairs"
    ? preparePairs(ids, dependence, truth)
    : prepareShared(ids, dependence, truth);
}

function preparePairs(ids: readonly string[], { pairs }: DependentPairs, truth: Truth): PreparedPairs {
  const phi: (number | null)[][] = ids.map((_, row) => ids.map((_, column) => (row === column ? null : 0)));
  const stated = new Set<string>();
  for (const [at, pair] of pairs.entries()) {
    const path = ["input", "dependence", "pairs", at];
    const first = placeOf(ids, pair.first, [...path, "first"]);
    const second = placeOf(ids, pair.second, [...path, "second"]);
    const key = `${Math.min(first, second)} ${Math.max(first, second)}`;
    if (stated.has(key)) {
      throw new InputError(path, "each pair of kits once", `${pair.first} and ${pair.second} again`);
    }
    stated.add(key);
    (phi[first] as (number | null)[])[second] = pair[truth];
    (phi[second] as (number | null)[])[first] = pair[truth];
  }
  return { kind: "pairs", ids, phi, latest: new Float64Array(4 * ids.length * ids.length) };
}

function prepareShared(ids: readonly string[], effect: SharedEffect, truth: Truth): PreparedShared {
  const loadings = effect.loadings ?? {};
  for (const id of Object.keys(loadings)) placeOf(ids, id, ["input", "dependence", "loadings", id]);
  const loadingOf = (id: string) => (Object.hasOwn(loadings, id) ? (loadings[id] as number) : 1);
  return {
    kind: "shared",
    common: ids.map((id) => loadingOf(id) * effect[truth].spread),
    own: effect.sameKit?.[truth] ?? 0,
    latest: new Map(),
  };
}

function placeOf(ids: readonly string[], id: string, path: readonly (string | number)[]): number {
  const place = ids.indexOf(id);
  if (place < 0) throw new InputError(path, `one of the kits: ${ids.join(", ")}`, id);
  return place;
}
