import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { noninferiority } from "../../../src/methods/comparison/noninferiority.ts";
import { unpaired } from "../../../src/methods/comparison/unpaired.ts";
import { fewestRejecting, fisherPower } from "../../../src/methods/planning/fisher-power.ts";
import {
  marginPower,
  type PlannedGroups,
  pearsonPower,
} from "../../../src/methods/planning/two-group-power.ts";
import { planningUnpairedDifference } from "../../../src/methods/planning/unpaired-difference.ts";
import { planningUnpairedNoninferiority } from "../../../src/methods/planning/unpaired-noninferiority.ts";
import { DIFFERENCE_METHODS } from "../../../src/methods/proportion/difference-interval.ts";
import { fisherProbabilities } from "../../../src/methods/strata/fisher-probabilities.ts";
import { binomialMass } from "../../../src/numeric/binomial.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Holds = (first: { count: number; total: number }, second: { count: number; total: number }) => boolean;

/** The probability of all results of two groups for which a statement holds: no window, no border. */
function enumerated({ first, second }: PlannedGroups, holds: Holds): number {
  let sum = 0;
  for (let one = 0; one <= first.total; one += 1) {
    for (let other = 0; other <= second.total; other += 1) {
      if (!holds({ count: one, total: first.total }, { count: other, total: second.total })) continue;
      sum += binomialMass(one, first.total, first.share) * binomialMass(other, second.total, second.share);
    }
  }
  return sum;
}

const GROUPS: readonly PlannedGroups[] = [
  { first: { share: 0.9, total: 24 }, second: { share: 0.5, total: 24 } },
  { first: { share: 0.55, total: 13 }, second: { share: 0.2, total: 29 } },
  { first: { share: 0.97, total: 31 }, second: { share: 0.96, total: 16 } },
  { first: { share: 0.5, total: 1 }, second: { share: 0.5, total: 2 } },
];

describe("the power of tests of two groups", () => {
  it.each(GROUPS)("counts the results that comparison.unpaired rejects: %o", (groups) => {
    for (const [test, power] of [
      ["fisher", fisherPower(groups, 0.05)],
      ["pearson", pearsonPower(groups, 0.05)],
    ] as const) {
      const all = enumerated(groups, (first, second) => {
        if (first.count / first.total <= second.count / second.total) return false;
        const { fisher, pearson } = compute(unpaired, { first, second }).values;
        const p = test === "fisher" ? fisher.twoSided : pearson.pValue;
        return p !== null && p <= 0.05;
      });
      expectClose(power, all, { relative: 1e-11, absolute: 1e-16 }, test);
    }
  });

  it("Fisher's border is where its p-value falls to the error, for every number of events", () => {
    for (const [first, second] of [
      [40, 40],
      [37, 12],
      [8, 90],
    ] as const) {
      const most = first + second;
      const borders = fewestRejecting(first, second, { least: 0, most }, 0.05);
      for (let events = 0; events <= most; events += 1) {
        const border = borders[events] as number;
        const pAt = (count: number) =>
          fisherProbabilities({ count, total: first }, { count: events - count, total: second }).twoSided;
        const place = `${first} ${second} ${events}`;
        if (border <= Math.min(first, events)) expect(pAt(border), place).toBeLessThanOrEqual(0.05);
        if ((border - 1) / first > (events - border + 1) / second) {
          expect(pAt(border - 1), place).toBeGreaterThan(0.05);
        }
      }
    }
  });
});

describe("Fisher's border between equal groups", () => {
  it("counts the mirrored table, just as probable, as it does in the test itself", () => {
    for (const size of [10, 23, 36, 47, 60]) {
      for (const events of [size - 1, size, size + 1, 2 * size - 7]) {
        for (let count = Math.floor(events / 2) + 1; count <= Math.min(size, events) - 1; count += 1) {
          const here = { count, total: size };
          const p = fisherProbabilities(here, { count: events - count, total: size }).twoSided;
          if (p > 0.9 || p < 1e-9) continue;
          const range = { least: events, most: events };
          const place = `${count} of ${events} in ${size}`;
          expect(fewestRejecting(size, size, range, p * 0.999)[0], place).toBe(count + 1);
          expect(fewestRejecting(size, size, range, p * 1.001)[0], place).toBe(count);
        }
      }
    }
  });
});

describe("the power of a non-inferiority study of two groups", () => {
  it.each(DIFFERENCE_METHODS)("counts the results that comparison.noninferiority accepts: %s", (method) => {
    for (const groups of GROUPS) {
      for (const margin of [0.1, 0.3]) {
        const all = enumerated(groups, (first, second) => {
          const asked = { unpaired: { first, second }, margin, direction: "higher_is_better" } as const;
          const { values } = compute(noninferiority, asked, { differenceInterval: method });
          return values.noninferiority.verdict === "met";
        });
        const power = marginPower(groups, margin, method, 0.95);
        expectClose(power, all, { relative: 1e-11, absolute: 1e-16 }, `${margin}`);
      }
    }
  });
});

describe("sizes of two groups", () => {
  it("hold from `stays` on and not just before, by adding up all results", () => {
    const kits = { first: 0.94, second: 0.6 };
    const options = { horizon: 60, test: "pearson", power: 0.9 } as const;
    const { values } = compute(planningUnpairedDifference, kits, options);
    const powers = Array.from({ length: 60 }, (_, at) => {
      const [first, second] = [kits.first, kits.second].map((share) => ({ share, total: at + 1 }));
      return enumerated({ first, second } as PlannedGroups, (one, other) => {
        const { pValue } = compute(unpaired, { first: one, second: other }).values.pearson;
        return one.count > other.count && pValue !== null && pValue <= 0.05;
      });
    });
    const { first, stays, powerBefore } = values.exact;
    expect(first).not.toBe(stays);
    expect(first).toBe(powers.findIndex((power) => power >= 0.9) + 1);
    expect(stays).toBe(powers.findLastIndex((power) => power < 0.9) + 2);
    expectClose(powerBefore, powers[(stays as number) - 2] as number, { relative: 1e-11 });
  });

  it("are the same with the kits exchanged", () => {
    const one = compute(planningUnpairedDifference, { first: 0.9, second: 0.7, ratio: 2 }).values;
    const other = compute(planningUnpairedDifference, { first: 0.7, second: 0.9, ratio: 2 }).values;
    const mirrored = compute(planningUnpairedDifference, { first: 0.1, second: 0.3, ratio: 2 }).values;
    expectClose(one.formula.unrounded, mirrored.formula.unrounded as number, { relative: 1e-12 });
    expect(one.exact.stays).toBe(mirrored.exact.stays);
    expect(one.exact.secondGroup).toBe(2 * (one.exact.stays as number));
    expect(other.exact.stays).not.toBe(one.exact.stays);
  });

  it("fewer people suffice with Miettinen and Nurminen's interval where the new kit is better", () => {
    const stays = (first: number) =>
      compute(planningUnpairedNoninferiority, { first, second: 0.9, margin: 0.1 }).values.exact.stays;
    expect(stays(0.93) as number).toBeLessThan(stays(0.9) as number);
  });

  it("say that Wald's small groups mean nothing", () => {
    const kits = { first: 0.92, second: 0.92, margin: 0.05 };
    const { values, notes } = compute(planningUnpairedNoninferiority, kits, { method: "wald" });
    expect(values.exact.first).toBe(1);
    expect(notes.map(({ code }) => code)).toEqual(["no_width"]);
  });

  it("are null with a note where no study can show it, or the horizon is too near", () => {
    const alike = compute(planningUnpairedDifference, { first: 0.9, second: 0.9 });
    expect(alike.notes[0]?.code).toBe("no_difference");
    const worse = compute(planningUnpairedNoninferiority, { first: 0.87, second: 0.92, margin: 0.05 });
    expect(worse.notes[0]?.code).toBe("beyond_margin");
    const near = compute(planningUnpairedDifference, { first: 0.9, second: 0.6 }, { horizon: 20 });
    expect(near.values.exact).toMatchObject({ first: null, stays: null, searchedTo: 20 });
    expect(near.notes[0]?.code).toBe("out_of_reach");
    for (const found of [alike, worse, near]) expect(faultsOf(found)).toEqual([]);
  });

  it("are plain numbers or explained, whatever is asked", () => {
    const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });
    const ratio = fc.double({ min: 0.01, max: 100, noNaN: true });
    const asked = fc.record({
      kits: fc.record({ first: share, second: share, ratio }),
      margin: share,
      options: fc.record({ power: share, level: share, horizon: fc.constant(12) }),
      method: fc.constantFrom(...DIFFERENCE_METHODS),
    });
    fc.assert(
      fc.property(asked, ({ kits, margin, options, method }) => {
        expect(faultsOf(compute(planningUnpairedDifference, kits, options))).toEqual([]);
        const found = compute(planningUnpairedNoninferiority, { ...kits, margin }, { ...options, method });
        expect(faultsOf(found)).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });
});
