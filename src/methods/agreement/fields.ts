import * as v from "valibot";
import { choice, count } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { WEIGHT_KINDS } from "./weights.ts";

/** Most categories a table of two readers may have. */
const MOST_CATEGORIES = 30;

/** Two readers of the same items, reactive or not. */
export const pairCounts = {
  bothReactive: count("items that both call reactive"),
  firstOnly: count("items that only the first calls reactive"),
  secondOnly: count("items that only the second calls reactive"),
  bothNonreactive: count("items that both call non-reactive"),
};

/** Counts of items: one row per category of the first reader, one column per category of the second. */
export function squareTable() {
  return v.pipe(
    v.array(v.array(count("items that the first put in this row, the second in this column"))),
    v.minLength(2, "expected at least two categories"),
    v.maxLength(MOST_CATEGORIES, `expected at most ${MOST_CATEGORIES} categories`),
    v.description(
      "counts of items: one row per category of the first reader, one column per category of the second, same order",
    ),
  );
}

/** How much each pair of categories counts as agreement: by a rule, or as a matrix. */
export function pairWeights() {
  const share = v.pipe(
    v.number(),
    v.minValue(0, "expected a weight between 0 and 1"),
    v.maxValue(1, "expected a weight between 0 and 1"),
  );
  return v.optional(
    v.pipe(
      v.union(
        [choice(WEIGHT_KINDS, "rule of the weights"), v.array(v.array(share))],
        "expected none, linear, quadratic, ordinal or a matrix of weights between 0 and 1",
      ),
      v.description("agreement that a pair of categories counts for: 1 on the diagonal, 0 to 1 beside it"),
    ),
    "none",
  );
}

/** @throws InputError where a row has not one count per category */
export function requireSquare(table: readonly (readonly number[])[], place: readonly string[]): void {
  table.forEach((row, index) => {
    if (row.length === table.length) return;
    throw new InputError([...place, index], `${table.length} entries, one per category`, row);
  });
}
