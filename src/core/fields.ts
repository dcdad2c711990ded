import * as v from "valibot";
import type { Estimate, ProportionEstimate } from "./estimate.ts";

/**
 * Field builders: one statement gives a field its shape, its meaning and its unit. The same
 * statement feeds the checks, the command line's help, the published JSON Schema, the report's
 * table headings and the forms of the browser page.
 */
export type Unit =
  | "count"
  | "proportion"
  | "probability"
  | "ratio"
  | "log ratio"
  | "minutes"
  | "days"
  | "money"
  | "people"
  | "statistic"
  | "degrees of freedom"
  | "seed"
  | "choice"
  | "text";

export interface FieldMeaning {
  readonly unit: Unit;
  readonly meaning: string;
}

function described<Value>(unit: Unit, meaning: string) {
  return v.metadata<Value, { readonly unit: Unit; readonly meaning: string }>({ unit, meaning });
}

/** A whole number of people, devices or events, 0 or more. */
export function count(meaning: string) {
  return v.pipe(
    v.number(),
    v.integer("expected a whole number"),
    v.minValue(0, "expected 0 or more"),
    v.maxValue(Number.MAX_SAFE_INTEGER),
    described<number>("count", meaning),
    v.description(meaning),
  );
}

/** A proportion from 0 to 1, both allowed. Never a percentage. */
export function proportion(meaning: string) {
  return v.pipe(
    v.number(),
    v.minValue(0, "expected a proportion between 0 and 1"),
    v.maxValue(1, "expected a proportion between 0 and 1"),
    described<number>("proportion", meaning),
    v.description(meaning),
  );
}

/** A proportion strictly between 0 and 1. */
export function openProportion(meaning: string) {
  return v.pipe(
    v.number(),
    v.gtValue(0, "expected a proportion above 0 and below 1"),
    v.ltValue(1, "expected a proportion above 0 and below 1"),
    described<number>("proportion", meaning),
    v.description(meaning),
  );
}

/** The confidence level, strictly between 0 and 1; absent means the default. */
export function level(standard = 0.95) {
  return v.optional(openProportion("confidence level"), standard);
}

/** A seed: a whole number from 0 to 2^32 - 1. Same seed, same draws. */
export function seed(standard: number) {
  return v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(0, "expected 0 or more"),
      v.maxValue(0xffffffff, "expected at most 4294967295"),
      described<number>("seed", "seed of the random streams"),
      v.description("seed of the random streams"),
    ),
    standard,
  );
}

/** How often something is drawn at random; absent means the default. */
export function draws(meaning: string, standard: number, most: number) {
  return v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(100, "expected 100 or more"),
      v.maxValue(most, `expected at most ${most.toLocaleString("en-GB")}`),
      v.description(meaning),
    ),
    standard,
  );
}

/** A finite number with a unit; `null` where it can't be had (a note says why). */
export function quantity(unit: Unit, meaning: string) {
  return v.pipe(
    v.nullable(v.pipe(v.number(), v.finite("expected a finite number"))),
    described<number | null>(unit, meaning),
    v.description(meaning),
  );
}

/** A number with its interval, in the unit named. */
export function estimate(unit: Unit, meaning: string) {
  const part = v.nullable(v.pipe(v.number(), v.finite()));
  return v.pipe(
    v.strictObject({ value: part, lower: part, upper: part }),
    described<Estimate>(unit, meaning),
    v.description(meaning),
  );
}

/** A proportion with its counts and its interval. */
export function proportionEstimate(meaning: string) {
  const part = v.nullable(v.pipe(v.number(), v.finite()));
  const counted = v.pipe(v.number(), v.integer(), v.minValue(0));
  return v.pipe(
    v.strictObject({ count: counted, total: counted, value: part, lower: part, upper: part }),
    described<ProportionEstimate>("proportion", meaning),
    v.description(meaning),
  );
}

/** One of a few words. */
export function choice<const Words extends readonly [string, ...string[]]>(words: Words, meaning: string) {
  return v.pipe(v.picklist(words), described<Words[number]>("choice", meaning), v.description(meaning));
}

/** Free text that is not empty. */
export function text(meaning: string) {
  return v.pipe(
    v.string(),
    v.minLength(1, "expected some text"),
    described<string>("text", meaning),
    v.description(meaning),
  );
}
