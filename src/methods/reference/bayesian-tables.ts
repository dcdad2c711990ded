import { gaussHermite } from "../../numeric/gauss-hermite.ts";
import { normalCdf, normalQuantile } from "../../numeric/normal.ts";
import type { BayesianModel } from "./bayesian-model.ts";
import { MOST_SHARED } from "./latent-tables.ts";

const RULE = gaussHermite(48);
/** Nodes with a weight below this say nothing within rounding. */
const NODES = RULE.nodes.flatMap((z, node) => {
  const weight = RULE.weights[node] as number;
  return weight > 1e-18 ? [{ z, weight }] : [];
});
const PLACES = Float64Array.from(NODES, ({ z }) => z);
const WEIGHTS = Float64Array.from(NODES, ({ weight }) => weight);

/** P(both reactive) least and most, where the two tests alone are reactive with these probabilities. */
export function bothLimits(first: number, second: number): { least: number; most: number } {
  return { least: Math.max(0, first + second - 1), most: Math.min(first, second) };
}

/**
 * P(complete pattern | class) for all patterns, in the order of the model's tests; as `classTables`, without the
 * slopes and some ten times as fast.
 *
 * @param shares every unknown as a share
 * @param table  2^tests numbers, overwritten
 * @param node   as many, overwritten (used by the random effect)
 */
export function fillTable(
  { data, layout, reactive }: BayesianModel,
  shares: Float64Array,
  condition: 0 | 1,
  table: Float64Array,
  node: Float64Array,
): void {
  const unknowns = reactive[condition];
  if (data.randomEffect) {
    const rho = MOST_SHARED * (shares[layout.dependence(condition, 0)] as number);
    fillShared(rho, shares, unknowns, table, node);
    return;
  }
  table[0] = 1;
  let size = 1;
  for (let pair = 0; pair < data.pairs.length; pair += 1) {
    const p = shares[unknowns[2 * pair] as number] as number;
    const q = shares[unknowns[2 * pair + 1] as number] as number;
    const { least, most } = bothLimits(p, q);
    const both = least + (most - least) * (shares[layout.dependence(condition, pair)] as number);
    const neither = Math.max(0, 1 - p - q + both);
    for (let x = 0; x < size; x += 1) {
      const before = table[x] as number;
      table[x] = before * neither;
      table[x + size] = before * (p - both);
      table[x + 2 * size] = before * (q - both);
      table[x + 3 * size] = before * both;
    }
    size *= 4;
  }
  for (let test = 2 * data.pairs.length; test < unknowns.length; test += 1) {
    append(table, size, shares[unknowns[test] as number] as number);
    size *= 2;
  }
}

function fillShared(
  rho: number,
  shares: Float64Array,
  unknowns: Int32Array,
  table: Float64Array,
  atNode: Float64Array,
): void {
  const slope = Math.sqrt(rho / (1 - rho));
  const steep = 1 / Math.sqrt(1 - rho);
  const scores = new Float64Array(unknowns.length);
  for (let test = 0; test < scores.length; test += 1) {
    scores[test] = steep * normalQuantile(shares[unknowns[test] as number] as number);
  }
  const length = 2 ** scores.length;
  table.fill(0, 0, length);
  for (let node = 0; node < PLACES.length; node += 1) {
    const moved = slope * (PLACES[node] as number);
    atNode[0] = WEIGHTS[node] as number;
    let size = 1;
    for (let test = 0; test < scores.length; test += 1) {
      append(atNode, size, normalCdf((scores[test] as number) + moved));
      size *= 2;
    }
    for (let x = 0; x < length; x += 1) table[x] = (table[x] as number) + (atNode[x] as number);
  }
}

/** One more test, independent of those in the table. */
function append(table: Float64Array, size: number, reactive: number): void {
  for (let x = 0; x < size; x += 1) {
    const before = table[x] as number;
    table[x + size] = before * reactive;
    table[x] = before * (1 - reactive);
  }
}
