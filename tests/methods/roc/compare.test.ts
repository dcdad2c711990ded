import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { rocCompare } from "../../../src/methods/roc/compare.ts";
import { rocCurve } from "../../../src/methods/roc/curve.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { normals } from "./drawn-people.ts";

const direction = "higher" as const;
const HIGH = [{ of: "specificity" as const, from: 0.8, to: 1 }];

/** Two readings of the same people that share part of what they are. */
function twoReadings(task: number, people: number, mean: number, second: number) {
  const normal = normals(12, task);
  const group = (shift: number, other: number) => {
    const rows = Array.from({ length: people }, () => {
      const shared = normal();
      return [shift + shared + 0.7 * normal(), other + shared + 0.7 * normal()] as const;
    });
    return [rows.map(([one]) => one), rows.map(([, two]) => two)] as const;
  };
  const [positives, negatives] = [group(mean, second), group(0, 0)];
  return {
    first: { positives: [...positives[0]], negatives: [...negatives[0]], direction },
    second: { positives: [...positives[1]], negatives: [...negatives[1]], direction },
  };
}

describe("two curves", () => {
  it("change sides when swapped", () => {
    const { first, second } = twoReadings(1, 40, 1.5, 1);
    const one = compute(rocCompare, { design: "paired", first, second }).values;
    const other = compute(rocCompare, { design: "paired", first: second, second: first }).values;
    expectClose(other.difference.value, -(one.difference.value as number), { relative: 1e-12 });
    expectClose(other.difference.lower, -(one.difference.upper as number), { relative: 1e-9 });
    expectClose(other.p, one.p as number, { relative: 1e-9 });
  });

  it("of the same people are told apart better than of different ones, where readings go together", () => {
    const sides = twoReadings(2, 60, 1.5, 1);
    const paired = compute(rocCompare, { design: "paired", ...sides }).values;
    const independent = compute(rocCompare, { design: "independent", ...sides }).values;
    expect(paired.correlation).toBeGreaterThan(0.3);
    expect(paired.standardError).toBeLessThan(independent.standardError as number);
  });

  it("have parts whose difference is that of the parts of each", () => {
    const sides = twoReadings(3, 50, 1.5, 1);
    const found = compute(rocCompare, { design: "paired", ...sides }, { ranges: HIGH, replicates: 300 });
    const part = found.values.ranges[0];
    const alone = (side: typeof sides.first) =>
      compute(rocCurve, side, { ranges: HIGH }).values.ranges[0]?.area as number;
    expect(part?.first).toBe(alone(sides.first));
    expect(part?.second).toBe(alone(sides.second));
    expect(part?.difference.lower).toBeLessThan(part?.difference.value as number);
    expect(faultsOf(found)).toEqual([]);
  });

  it("over all specificities have the standard error that placements give, nearly", () => {
    const sides = twoReadings(4, 80, 1.5, 1);
    const whole = [{ of: "specificity" as const, from: 0, to: 1 }];
    for (const design of ["paired", "independent"] as const) {
      const { standardError, ranges } = compute(
        rocCompare,
        { design, ...sides },
        { ranges: whole, replicates: 2000 },
      ).values;
      expectClose(ranges[0]?.standardError, standardError as number, { relative: 0.08 }, design);
    }
  });

  it("that can't be compared are null with a note, or an error", () => {
    const first = { positives: [3, 4], negatives: [1, 2], direction };
    const lists = fc.array(fc.integer({ min: 0, max: 3 }), { maxLength: 4 });
    fc.assert(
      fc.property(lists, lists, (positives, negatives) => {
        const side = { positives, negatives, direction };
        const ask = { design: "paired" as const, first: side, second: side };
        expect(faultsOf(compute(rocCompare, ask, { ranges: HIGH, replicates: 100 }))).toEqual([]);
      }),
      { numRuns: 40 },
    );
    const second = { positives: [3, 4, 5], negatives: [1, 2], direction };
    expect(() => compute(rocCompare, { design: "paired", first, second })).toThrow(InputError);
    expect(compute(rocCompare, { design: "independent", first, second }).values.difference.value).toBe(0);
  });
});

describe("in 400 drawn studies of two readings that are alike", () => {
  it("the limits hold no difference about as often as they say, and paired ones only when pairs are told", () => {
    const studies = 400;
    const hits = { paired: 0, independent: 0 };
    for (let study = 0; study < studies; study += 1) {
      const sides = twoReadings(1000 + study, 50, 1.2, 1.2);
      for (const design of ["paired", "independent"] as const) {
        const { lower, upper } = compute(rocCompare, { design, ...sides }).values.difference;
        if ((lower as number) <= 0 && (upper as number) >= 0) hits[design] += 1;
      }
    }
    // Four standard errors of 0.95 over 400 studies: 0.044.
    expect(Math.abs(hits.paired / studies - 0.95)).toBeLessThan(0.044);
    expect(hits.independent).toBeGreaterThan(hits.paired);
  });
});
