import { InputError } from "../../core/input-error.ts";

/** Rules for agreement weights; categories are taken in their order, equally far apart. */
export const WEIGHT_KINDS = ["none", "linear", "quadratic", "ordinal"] as const;
export type WeightKind = (typeof WEIGHT_KINDS)[number];
export type Matrix = readonly (readonly number[])[];

/**
 * Agreement weights: 1 for the same category, less the further two categories are apart.
 *
 * With `steps` categories between them of `size - 1` at most: `none` 0; `linear` 1 - steps / most;
 * `quadratic` 1 - (steps / most)²; `ordinal` 1 - (pairs of categories within the span) / (all pairs).
 *
 * @param size number of categories
 * Sources: cohen1968, fleiss1969, gwet2014 (ordinal)
 */
export function weightMatrix(kind: WeightKind, size: number): Matrix {
  const most = Math.max(1, size - 1);
  const rules: Readonly<Record<WeightKind, (steps: number) => number>> = {
    none: (steps) => (steps === 0 ? 1 : 0),
    linear: (steps) => 1 - steps / most,
    quadratic: (steps) => 1 - Math.pow(steps / most, 2),
    ordinal: (steps) => 1 - (steps * (steps + 1)) / (most * (most + 1)),
  };
  const indices = Array.from({ length: size }, (_, index) => index);
  return indices.map((row) => indices.map((column) => rules[kind](Math.abs(row - column))));
}

/**
 * The weights asked for, by rule or as given.
 * @throws InputError where a given matrix is not of the table's size, not symmetric, or not 1 on its diagonal
 */
export function weightsFor(asked: WeightKind | Matrix, size: number): Matrix {
  if (typeof asked === "string") return weightMatrix(asked, size);
  const place = ["options", "weights"];
  if (asked.length !== size) throw new InputError(place, `${size} rows, one per category`, asked);
  asked.forEach((row, at) => {
    if (row.length !== size) throw new InputError([...place, at], `${size} weights, one per category`, row);
    if (row[at] !== 1) throw new InputError([...place, at, at], "1: the same category agrees", row[at]);
    row.forEach((weight, column) => {
      const mirrored = asked[column]?.[at];
      if (mirrored !== weight) {
        throw new InputError([...place, at, column], `${mirrored}, as on the other side`, weight);
      }
    });
  });
  return asked;
}
