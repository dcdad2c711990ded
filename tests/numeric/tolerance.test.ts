import { describe, expect, it } from "vitest";
import { expectClose, isClose, relativeError } from "../tolerance.ts";

describe("the tolerance helper", () => {
  it("passes what is close and fails what is not, naming numbers and place", () => {
    expect(() => expectClose(1.0000001, 1, { relative: 1e-6 })).not.toThrow();
    expect(() => expectClose(1.00001, 1, { relative: 1e-6 }, "sensitivity.lower")).toThrow(
      /sensitivity\.lower: expected 1, received 1\.00001; off by relative 1\.00e-5/,
    );
    expect(() => expectClose(1e-9, 0, { relative: 1, absolute: 1e-8 })).not.toThrow();
    expect(() => expectClose(1e-7, 0, { relative: 1, absolute: 1e-8 })).toThrow();
  });

  it("never passes NaN, null or nothing", () => {
    expect(() => expectClose(Number.NaN, 1, { relative: 1, absolute: 1 })).toThrow();
    expect(() => expectClose(1, Number.NaN, { relative: 1, absolute: 1 })).toThrow();
    expect(() => expectClose(null, 1, { relative: 1 })).toThrow(/received null/);
    expect(() => expectClose(undefined, 1, { relative: 1 })).toThrow(/received undefined/);
  });

  it("takes infinities as equal only to themselves", () => {
    expect(relativeError(Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY)).toBe(0);
    expect(isClose(1e300, Number.POSITIVE_INFINITY, { relative: 1, absolute: 1 })).toBe(false);
    expect(isClose(Number.POSITIVE_INFINITY, 1e300, { relative: 1, absolute: 1 })).toBe(false);
  });

  it("without a tolerance only the same number will do", () => {
    expect(isClose(2, 2, {})).toBe(true);
    expect(isClose(2 + Number.EPSILON * 2, 2, {})).toBe(false);
  });
});
