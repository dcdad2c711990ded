import { type DrawnAlgorithms, drawnAlgorithms } from "./drawn-algorithms.ts";
import { drawInto, requireDifferent } from "./quantities.ts";
import type { UncertainInput } from "./uncertain-input.ts";

/** A slice of the draws: what was drawn, and what the algorithms then do. */
export interface DrawnSlice {
  readonly count: number;
  /** Quantities of each draw, one draw after the other. */
  readonly vectors: Float64Array;
  /** Results of each draw, likewise. */
  readonly results: Float64Array;
  /** Draws whose shares did not allow the error correlations stated. */
  readonly cut: number;
}

/** @throws InputError for any fault of the input */
export function preparedFor(input: UncertainInput): DrawnAlgorithms {
  requireDifferent(
    input.algorithms.map(({ id }) => id),
    ["input", "algorithms"],
    "id",
  );
  const places = input.algorithms.map((_, at) => ["input", "algorithms", at]);
  return drawnAlgorithms(input, input.algorithms, places);
}

/**
 * Some of the draws. A draw is the same whichever slice it is made in, so that slices put one after the other
 * are what one slice of all would be.
 *
 * @param first number of the first draw, from 0
 * @param count how many
 */
export function uncertainDraws(
  prepared: DrawnAlgorithms,
  seed: number,
  first: number,
  count: number,
): DrawnSlice {
  const { quantities, size } = prepared;
  const vectors = new Float64Array(count * quantities.length);
  const results = new Float64Array(count * size);
  let cut = 0;
  for (let draw = 0; draw < count; draw += 1) {
    const vector = vectors.subarray(draw * quantities.length, (draw + 1) * quantities.length);
    drawInto(vector, quantities, seed, first + draw);
    if (!prepared.evaluate(vector, results.subarray(draw * size, (draw + 1) * size))) cut += 1;
  }
  return { count, vectors, results, cut };
}
