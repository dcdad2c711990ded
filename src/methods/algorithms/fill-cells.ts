import type { CompiledAlgorithms } from "./compiled-paths.ts";
import { jointTable } from "./dependence.ts";
import { dependenceBounds } from "./dependence-bounds.ts";
import type { FillCells } from "./path-evaluator.ts";
import type { PreparedDependence, PreparedPairs } from "./prepared-dependence.ts";

/** Fills the tables of all algorithms under one dependence. */
export function cellFiller({ tables }: CompiledAlgorithms, model: PreparedDependence): FillCells {
  let windows: Float64Array[] | null = null;
  return (cells, reactive) => {
    windows ??= tables.map(({ kits, offset }) => cells.subarray(offset, offset + Math.pow(2, kits.length)));
    for (let at = 0; at < tables.length; at += 1) {
      jointTable(tables[at]?.kits ?? [], reactive, model, windows[at]);
    }
  };
}

/** Pairs of kits that are run in one path, each once, first kit first. */
export function pairsRun({ tables }: CompiledAlgorithms): [number, number][] {
  const found = new Map<string, [number, number]>();
  for (const { kits } of tables) {
    for (const [at, first] of kits.entries()) {
      for (const second of kits.slice(at + 1)) found.set(`${first} ${second}`, [first, second]);
    }
  }
  return [...found.values()];
}

/** How far beyond its bound a phi may be by rounding alone. */
const ROUNDING = 1e-12;

/**
 * Whether the shares drawn allow every phi stated: where they don't, the tables hold the largest dependence
 * that they allow, in the direction stated.
 */
export function phiAllowed(
  { phi }: PreparedPairs,
  pairs: readonly (readonly [number, number])[],
  reactive: ArrayLike<number>,
): boolean {
  return pairs.every(([first, second]) => {
    const stated = phi[first]?.[second] ?? 0;
    if (stated === 0) return true;
    const { least, most } = dependenceBounds(reactive[first] as number, reactive[second] as number).phi;
    return stated >= least - ROUNDING && stated <= most + ROUNDING;
  });
}
