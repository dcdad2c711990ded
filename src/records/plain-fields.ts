import * as v from "valibot";

/** Fields of which every written file is made: text, short names, days and shares. */
export const Words = v.pipe(v.string(), v.minLength(1, "expected some text"));
export const Name = v.pipe(
  v.string(),
  v.regex(/^[A-Za-z0-9][A-Za-z0-9_.-]*$/, "expected a short name of letters, digits, _ . or -"),
);
export const Day = v.pipe(v.string(), v.isoDate("expected a date as 2026-04-01"));
export const Share = v.pipe(
  v.number(),
  v.minValue(0, "expected a proportion between 0 and 1"),
  v.maxValue(1, "expected a proportion between 0 and 1"),
);
export const OpenShare = v.pipe(
  v.number(),
  v.gtValue(0, "expected a proportion above 0 and below 1"),
  v.ltValue(1, "expected a proportion above 0 and below 1"),
);
