import { gaussHermite } from "../../numeric/gauss-hermite.ts";
import { normalCdf, normalDensity, normalQuantile } from "../../numeric/normal.ts";
import type { LatentData } from "./latent-data.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import { pairCells } from "./latent-pair.ts";

/** P(complete pattern | class) for all 2^tests patterns, and its slope by each unknown of that class. */
export interface ClassTable {
  readonly cells: Float64Array;
  readonly slopes: readonly { readonly place: number; readonly by: Float64Array }[];
}

/** The tables of people with the condition (first) and without. */
export function classTables(
  theta: Float64Array,
  data: LatentData,
  layout: LatentLayout,
): readonly [ClassTable, ClassTable] {
  const one = (condition: number) =>
    data.randomEffect
      ? sharedTable(theta, data, layout, condition)
      : productTable(theta, data, layout, condition);
  return [one(0), one(1)];
}

/** Tests that stand together: their places, the P of each of their results, and slopes by unknown. */
interface Block {
  readonly tests: readonly number[];
  readonly cells: readonly number[];
  readonly slopes: readonly { readonly place: number; readonly by: readonly number[] }[];
}

function productTable(
  theta: Float64Array,
  data: LatentData,
  layout: LatentLayout,
  condition: number,
): ClassTable {
  const blocks = blocksOf(theta, data, layout, condition);
  const places = blocks.map(({ tests }) => placesOf(tests, data.tests));
  const size = Math.pow(2, data.tests);
  const without = (left: number) => {
    const product = new Float64Array(size).fill(1);
    blocks.forEach(({ cells }, block) => {
      if (block === left) return;
      const place = places[block] as Int32Array;
      for (let x = 0; x < size; x += 1) {
        product[x] = (product[x] as number) * (cells[place[x] as number] as number);
      }
    });
    return product;
  };
  const slopes = blocks.flatMap((block, number) => {
    const others = without(number);
    const place = places[number] as Int32Array;
    return block.slopes.map(({ place: unknown, by }) => ({
      place: unknown,
      by: others.map((rest, x) => rest * (by[place[x] as number] as number)),
    }));
  });
  return { cells: without(-1), slopes };
}

function blocksOf(theta: Float64Array, data: LatentData, layout: LatentLayout, condition: number): Block[] {
  const value = (place: number) => theta[place] as number;
  const paired = new Set(data.pairs.flat());
  const single = Array.from({ length: data.tests }, (_, test) => test).filter((test) => !paired.has(test));
  const singles = single.map((test): Block => {
    const place = layout.reactive(condition, test);
    const reactive = fromLogit(value(place));
    const nonreactive = fromLogit(-value(place));
    const slope = reactive * nonreactive;
    return { tests: [test], cells: [nonreactive, reactive], slopes: [{ place, by: [-slope, slope] }] };
  });
  const pairs = data.pairs.map(([first, second], pair): Block => {
    const unknowns = [
      layout.reactive(condition, first),
      layout.reactive(condition, second),
      layout.dependence(condition, pair),
    ] as const;
    const { cells, slopes } = pairCells(value(unknowns[0]), value(unknowns[1]), value(unknowns[2]));
    return {
      tests: [first, second],
      cells,
      slopes: unknowns.map((place, part) => ({ place, by: slopes[part] as readonly number[] })),
    };
  });
  return [...singles, ...pairs];
}

/** The result of a block's tests within each complete pattern. */
function placesOf(tests: readonly number[], all: number): Int32Array {
  return Int32Array.from({ length: Math.pow(2, all) }, (_, x) =>
    tests.reduce((sum, test, bit) => sum + (((x >> test) & 1) << bit), 0),
  );
}

/** Largest latent correlation that is fitted: beyond it the sum over the nodes is no longer exact. */
export const MOST_SHARED = 0.9;
const NODES = 48;
const RULE = gaussHermite(NODES);

/**
 * All tests share a normal variable: P(reactive | z) = Phi((q + sqrt(rho) z) / sqrt(1 - rho)), where Phi(q) is the
 * P(reactive) of the class and rho the correlation of any two tests' latent scores.
 */
function sharedTable(
  theta: Float64Array,
  { tests }: LatentData,
  layout: LatentLayout,
  condition: number,
): ClassTable {
  const size = Math.pow(2, tests);
  const dependence = layout.dependence(condition, 0);
  const rho = MOST_SHARED * fromLogit(theta[dependence] as number);
  const rest = 1 - rho;
  const toBorder = fromLogit(-(theta[dependence] as number));
  const reactive = Array.from({ length: tests }, (_, test) =>
    fromLogit(theta[layout.reactive(condition, test)] as number),
  );
  const scores = reactive.map((p) => normalQuantile(p));
  const cells = new Float64Array(size);
  const slopes = Array.from({ length: tests + 1 }, () => new Float64Array(size));
  RULE.nodes.forEach((z, node) => {
    const weight = RULE.weights[node] as number;
    const at = scores.map((score) => (score + Math.sqrt(rho) * z) / Math.sqrt(rest));
    const chances = at.map((u) => [normalCdf(u, "upper"), normalCdf(u)]);
    const steep = scores.map((score, test) => {
      const p = reactive[test] as number;
      if (!Number.isFinite(score)) return [0, 0] as const;
      const density = normalDensity(at[test] as number);
      const byScore = (density * p * (1 - p)) / (normalDensity(score) * Math.sqrt(rest));
      const turned = Math.sqrt(rho) * z + ((score + Math.sqrt(rho) * z) * rho) / rest;
      return [byScore, (density * turned * toBorder) / (2 * Math.sqrt(rest))] as const;
    });
    for (let x = 0; x < size; x += 1) addNode(x, weight, chances, steep, cells, slopes);
  });
  return {
    cells,
    slopes: slopes.map((by, part) => ({
      place: part < tests ? layout.reactive(condition, part) : dependence,
      by,
    })),
  };
}

function addNode(
  x: number,
  weight: number,
  chances: readonly (readonly number[])[],
  steep: readonly (readonly [number, number])[],
  cells: Float64Array,
  slopes: readonly Float64Array[],
): void {
  const tests = chances.length;
  const part = (test: number) => chances[test]?.[(x >> test) & 1] as number;
  let product = weight;
  for (let test = 0; test < tests; test += 1) product *= part(test);
  cells[x] = (cells[x] as number) + product;
  for (let test = 0; test < tests; test += 1) {
    let others = weight;
    for (let other = 0; other < tests; other += 1) if (other !== test) others *= part(other);
    const sign = (x >> test) & 1 ? 1 : -1;
    const [byScore, byShared] = steep[test] as readonly [number, number];
    const own = slopes[test] as Float64Array;
    const shared = slopes[tests] as Float64Array;
    own[x] = (own[x] as number) + sign * others * byScore;
    shared[x] = (shared[x] as number) + sign * others * byShared;
  }
}
