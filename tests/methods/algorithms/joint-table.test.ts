import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { jointOf, jointTable } from "../../../src/methods/algorithms/dependence.ts";
import type { Dependence } from "../../../src/methods/algorithms/fields.ts";
import { prepareDependence } from "../../../src/methods/algorithms/prepared-dependence.ts";
import { expectClose } from "../../tolerance.ts";

const IDS = ["one", "two", "three"];
const pair = (first: string, second: string, phi: number) => ({
  first,
  second,
  diseased: phi,
  nondiseased: phi,
});
const PAIRS: Dependence = {
  kind: "pairs",
  pairs: [
    pair("one", "two", 0.15),
    pair("two", "three", 0.1),
    pair("one", "three", 0.05),
    pair("one", "one", 0.4),
  ],
};
const SHARED: Dependence = {
  kind: "shared",
  diseased: { spread: 0.8 },
  nondiseased: { spread: 1 },
  loadings: { two: 0.5 },
  sameKit: { diseased: 0.4, nondiseased: 0.6 },
};
const INDEPENDENT: Dependence = { kind: "independent" };
const SHARES = [0.03, 0.02, 0.04];

describe("jointTable", () => {
  it.each([
    ["pairs", PAIRS],
    ["shared", SHARED],
    ["independent", INDEPENDENT],
  ] as const)("has the numbers of jointOf, by bit pattern, in the order of the runs: %s", (_, dependence) => {
    const kits = [1, 0, 2, 0];
    const model = prepareDependence(IDS, dependence, "nondiseased");
    const into = new Float64Array(20).fill(7);
    const table = jointTable(kits, SHARES, model, into);
    expect(table).toBe(into);
    expect(into[16]).toBe(7);
    const joint = jointOf(
      IDS.map((id, at) => ({ id, reactive: SHARES[at] as number })),
      dependence,
      "nondiseased",
    );
    for (let bits = 0; bits < 16; bits += 1) {
      const runs = kits.map((kit, run) => ({ kit, reactive: ((bits >> run) & 1) === 1 }));
      expectClose(table[bits], joint(runs), { relative: 1e-9, absolute: 1e-15 }, `pattern ${bits}`);
    }
  });

  it.each([
    ["pairs", PAIRS],
    ["shared", SHARED],
  ] as const)("gives the very same numbers whatever was asked before: %s", (_, dependence) => {
    const draws = Array.from({ length: 20 }, (_, at) => SHARES.map((share, kit) => share + 0.001 * at * kit));
    const model = prepareDependence(IDS, dependence, "nondiseased");
    const forwards = draws.map((shares) => jointTable([0, 1, 2], shares, model));
    const backwards = draws.toReversed().map((shares) => jointTable([0, 1, 2], shares, model));
    const fresh = draws.map((shares) =>
      jointTable([0, 1, 2], shares, prepareDependence(IDS, dependence, "nondiseased")),
    );
    expect(backwards.toReversed()).toEqual(forwards);
    expect(fresh).toEqual(forwards);
  });

  it("gives a table with the shares asked for, for any shares: a phi they don't allow becomes the nearest one", () => {
    const share = fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 1, 1e-9, 0.5));
    const phi = fc.double({ min: -1, max: 1, noNaN: true });
    const three = fc.tuple(share, share, share);
    fc.assert(
      fc.property(three, fc.tuple(phi, phi, phi), (shares, [first, second, third]) => {
        const pairs = [pair("one", "two", first), pair("two", "three", second), pair("one", "three", third)];
        const model = prepareDependence(IDS, { kind: "pairs", pairs }, "diseased");
        const table = jointTable([0, 1, 2], shares, model);
        expectShares(table, shares);
      }),
      { seed: 20_251_126, numRuns: 400 },
    );
  });

  it("does so for shared effects of any spread too", () => {
    const share = fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.constantFrom(0, 1));
    const spread = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(share, share), spread, spread, (shares, diseased, own) => {
        const dependence: Dependence = {
          kind: "shared",
          diseased: { spread: diseased },
          nondiseased: { spread: 0 },
          sameKit: { diseased: own, nondiseased: 0 },
        };
        const model = prepareDependence(IDS, dependence, "diseased");
        expectShares(jointTable([0, 1, 1], shares, model), [shares[0], shares[1], shares[1]]);
      }),
      { seed: 20_251_127, numRuns: 40 },
    );
  });

  it("takes as much of a phi as a rarer result allows: all of the rarer within the other", () => {
    const model = prepareDependence(IDS, { kind: "pairs", pairs: [pair("one", "two", 0.5)] }, "nondiseased");
    const table = jointTable([0, 1], [0.001, 0.05], model);
    expectClose(table[3], 0.001, { relative: 1e-14 });
    expect(table[1]).toBe(0);
  });
});

/** A proper table with these shares of reactive runs. */
function expectShares(table: Float64Array, shares: readonly number[]): void {
  let sum = 0;
  for (const chance of table) {
    expect(chance).toBeGreaterThanOrEqual(0);
    expect(chance).toBeLessThanOrEqual(1);
    sum += chance;
  }
  expectClose(sum, 1, { absolute: 1e-9 }, "total");
  for (const [run, share] of shares.entries()) {
    const found = table.reduce((total, chance, bits) => ((bits >> run) & 1 ? total + chance : total), 0);
    expectClose(found, share, { absolute: 1e-9 }, `share of run ${run}`);
  }
}
