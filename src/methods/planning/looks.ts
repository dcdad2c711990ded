import * as v from "valibot";
import { count, openProportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";

const TOTAL = "people whose results are in at this look";
const PASS = "this many right or more: stop, the kit passes; null: no passing at this look";
const FAIL = "this many right or fewer: stop, it fails; null: no failing at this look";

/** What the exact recursion can follow in a moment. */
export const MOST_PEOPLE = 20_000;

/** One look as an answer gives it; the fields that every planned look carries. */
export const lookFields = {
  total: count(TOTAL),
  passFrom: v.nullable(count(PASS)),
  failAt: v.nullable(count(FAIL)),
};

/** The looks of a design, first to last. */
export function lookList(meaning: string) {
  return v.pipe(v.array(v.strictObject(lookFields)), v.description(meaning));
}

/** The error that may be made. What is smaller than its least value the recursions could not tell from none. */
export function errorAllowed() {
  const meaning = "most probability that a kit at the unacceptable proportion passes";
  return v.optional(v.pipe(openProportion(meaning), v.minValue(1e-9, "expected 1e-9 or more")), 0.05);
}

/** The power wanted, which leaves as much to miss as `errorAllowed` does to err. */
export function powerWanted() {
  const meaning = "least probability that a kit at the expected proportion passes";
  return v.optional(v.pipe(openProportion(meaning), v.maxValue(1 - 1e-9, "expected at most 1 - 1e-9")), 0.8);
}

/** The smallest study with one look at the end, beside plans with more looks. */
export function singleLook(meaning: string) {
  return v.pipe(
    v.nullable(
      v.strictObject({
        total: count("fewest people that reach the power with one look"),
        passFrom: count("this many right or more: the kit passes"),
        error: quantity("probability", "probability of passing if the kit is unacceptable"),
        power: quantity("probability", "probability of passing if the kit is as expected"),
      }),
    ),
    v.description(meaning),
  );
}

/** The looks of a plan as a user states them; a bound left out is none. */
export function statedLooks(meaning: string) {
  const bound = (words: string) => v.optional(v.nullable(count(words)), null);
  return v.pipe(
    v.array(
      v.strictObject({
        total: v.pipe(count(TOTAL), v.maxValue(MOST_PEOPLE, "expected at most 20,000")),
        passFrom: bound(PASS),
        failAt: bound(FAIL),
      }),
    ),
    v.minLength(1, "expected one look or more"),
    v.maxLength(50, "expected at most 50 looks"),
    v.description(meaning),
  );
}

/** Results of everybody seen so far, and where they stop the study. */
export interface Look {
  readonly total: number;
  readonly passFrom: number | null;
  readonly failAt: number | null;
}

/**
 * Refuses looks that are no stopping rule: people must grow from look to look, no result may both pass and
 * fail, and the last look must decide.
 * @throws InputError naming the look
 */
export function requireRule(looks: readonly Look[]): void {
  looks.forEach(({ total, passFrom, failAt }, at) => {
    const place = (field: string) => ["input", "looks", at, field];
    const before = at === 0 ? 0 : (looks[at - 1]?.total ?? 0);
    if (total <= before) throw new InputError(place("total"), `more than ${before}`, total);
    if (passFrom !== null && passFrom > total) {
      throw new InputError(place("passFrom"), `at most ${total}, the people then seen, or null`, passFrom);
    }
    if (failAt !== null && failAt >= (passFrom ?? total + 1)) {
      throw new InputError(place("failAt"), "fewer than would pass, and at most the people seen", failAt);
    }
  });
  const last = looks[looks.length - 1];
  if (last === undefined) throw new InputError(["input", "looks"], "one look or more", looks);
  if (last.passFrom === null || last.failAt !== last.passFrom - 1) {
    const place = ["input", "looks", looks.length - 1, "failAt"];
    throw new InputError(place, "one fewer than passFrom, so that the last look decides", last.failAt);
  }
}
