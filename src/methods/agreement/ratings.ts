import * as v from "valibot";
import { InputError } from "../../core/input-error.ts";
import type { Scale } from "./distances.ts";

/** Ratings are codes or readings of this size at most, so that no square overflows. */
const LARGEST = 1e9;
const MOST_CATEGORIES = 100;

export type Ratings = readonly (readonly (number | null)[])[];

function rating() {
  return v.pipe(
    v.number(),
    v.minValue(-LARGEST, "expected a number of -1,000,000,000 or more"),
    v.maxValue(LARGEST, "expected a number of at most 1,000,000,000"),
  );
}

/** One row per item, one entry per reader. */
export function ratingsTable() {
  return v.pipe(
    v.array(v.pipe(v.array(v.nullable(rating())), v.minLength(1, "expected at least one reader"))),
    v.minLength(1, "expected at least one item"),
    v.description(
      "one row per item, one entry per reader in the same order: the category's number, null where not rated",
    ),
  );
}

/** The categories offered; absent: those that occur. */
export function ratingCategories() {
  return v.optional(
    v.pipe(
      v.nullable(v.array(rating())),
      v.description(
        "every category a reader could choose, ascending; null: those that occur (AC1 and AC2 depend on how many)",
      ),
    ),
    null,
  );
}

/**
 * The categories of the ratings, ascending.
 * @throws InputError where rows differ in length, a rating is none of the categories given, these are not
 *   ascending, there are too many, or one is negative on a ratio scale
 */
export function categoriesOf(
  ratings: Ratings,
  given: readonly number[] | null,
  scale: Scale,
): readonly number[] {
  const readers = ratings[0]?.length ?? 0;
  const place = ["input", "ratings"];
  ratings.forEach((row, item) => {
    if (row.length === readers) return;
    throw new InputError([...place, item], `${readers} entries, one per reader`, row);
  });
  if (given !== null) requireCategories(ratings, given);
  const found =
    given ?? [...new Set(ratings.flat())].filter((value) => value !== null).sort((one, two) => one - two);
  if (found.length > MOST_CATEGORIES) {
    throw new InputError(place, `at most ${MOST_CATEGORIES} different ratings`, `${found.length} of them`);
  }
  if (scale === "ratio" && (found[0] ?? 0) < 0) {
    throw new InputError(place, "ratings of 0 or more on a ratio scale", found[0]);
  }
  return found;
}

function requireCategories(ratings: Ratings, given: readonly number[]): void {
  given.forEach((value, index) => {
    const before = given[index - 1];
    if (before === undefined || value > before) return;
    throw new InputError(["options", "categories", index], `more than the one before, ${before}`, value);
  });
  ratings.forEach((row, item) => {
    row.forEach((value, reader) => {
      if (value === null || given.includes(value)) return;
      throw new InputError(["input", "ratings", item, reader], "one of the categories", value);
    });
  });
}

/** Ratings as places in the list of categories. */
export function placesOf(ratings: Ratings, categories: readonly number[]): (number | null)[][] {
  const places = new Map(categories.map((value, index) => [value, index]));
  return ratings.map((row) => row.map((value) => (value === null ? null : (places.get(value) ?? null))));
}
