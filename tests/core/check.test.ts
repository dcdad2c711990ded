import * as v from "valibot";
import { describe, expect, it } from "vitest";
import { check, demand } from "../../src/core/check.ts";
import { choice, count, level, openProportion, proportion, text } from "../../src/core/fields.ts";
import { InputError } from "../../src/core/input-error.ts";

const Schema = v.strictObject({
  people: count("people"),
  share: proportion("share"),
  inner: v.optional(v.strictObject({ inside: openProportion("inside") })),
  kind: choice(["one", "other"], "kind"),
  name: text("name"),
  level: level(0.9),
});

const good = { people: 3, share: 0.5, kind: "one", name: "x" };

describe("check", () => {
  it("fills in the stated default and returns the value", () => {
    expect(check(Schema, good)).toEqual({ ok: true, value: { ...good, level: 0.9 } });
  });

  it("returns every fault, each with place, expectation and what came", () => {
    const outcome = check(Schema, { people: -1, share: 12, kind: "both", name: "", inner: { inside: 1 } });
    expect(outcome.ok).toBe(false);
    if (outcome.ok) return;
    const faults = outcome.faults.map(({ path, expected, received }) => [path.join("."), expected, received]);
    expect(faults).toEqual([
      ["people", "0 or more", -1],
      ["share", "a proportion between 0 and 1", 12],
      ["inner.inside", "a proportion above 0 and below 1", 1],
      ["kind", '"one" or "other"', "both"],
      ["name", "some text", ""],
    ]);
  });

  it("refuses an unknown field and names it", () => {
    const outcome = check(Schema, { ...good, colour: "red" });
    expect(outcome.ok ? [] : outcome.faults.map(({ path, expected }) => [path, expected])).toEqual([
      [["colour"], "no such field"],
    ]);
  });

  it("says that a field is missing", () => {
    const { name: _, ...rest } = good;
    const outcome = check(Schema, rest);
    expect(outcome.ok ? [] : outcome.faults.map(({ path, expected }) => [path, expected])).toEqual([
      [["name"], "a value (the field is missing)"],
    ]);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, 1.5, "3", null])("refuses %s as a count", (people) => {
    expect(check(Schema, { ...good, people }).ok).toBe(false);
  });
});

describe("demand", () => {
  it("throws an InputError whose path begins with the place", () => {
    const attempt = () => demand(Schema, { ...good, share: 12 }, "input");
    expect(attempt).toThrow(InputError);
    expect(attempt).toThrow("input.share: expected a proportion between 0 and 1, received 12");
  });
});

describe("InputError", () => {
  it("cuts long text and says how long it was", () => {
    const fault = new InputError(["name"], "a short name", "x".repeat(1000));
    expect(fault.message.length).toBeLessThan(140);
    expect(fault.message).toContain("(1000 characters)");
  });

  it("says 'nothing' for a missing value and names the whole input when there is no path", () => {
    expect(new InputError([], "an object", undefined).message).toBe(
      "(whole input): expected an object, received nothing",
    );
  });
});
