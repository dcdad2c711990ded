import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { demand } from "../../../src/core/check.ts";
import { InputError } from "../../../src/core/input-error.ts";
import { jointOf, type RunResult } from "../../../src/methods/algorithms/dependence.ts";
import { dependenceBounds } from "../../../src/methods/algorithms/dependence-bounds.ts";
import { Dependence } from "../../../src/methods/algorithms/fields.ts";
import { type OracleRow, readOracle } from "../../numeric/oracle-table.ts";
import { expectClose } from "../../tolerance.ts";

const IDS = ["first", "second", "third", "fourth", "fifth"];
const RUNS = { seed: 20_251_125, numRuns: 60 };

/** Kits with these shares of reactive results. */
function kitsOf(shares: readonly number[]) {
  return shares.map((reactive, at) => ({ id: IDS[at] as string, reactive }));
}

/** The same phi for every pair, a kit's repeat included, among diseased and nondiseased. */
function samePairs(kits: number, phi: number, own = phi): Dependence {
  const pairs = [];
  for (let one = 0; one < kits; one += 1) {
    for (let other = one; other < kits; other += 1) {
      const stated = one === other ? own : phi;
      pairs.push({
        first: IDS[one] as string,
        second: IDS[other] as string,
        diseased: stated,
        nondiseased: stated,
      });
    }
  }
  return { kind: "pairs", pairs };
}

function runsOf(kits: readonly number[], bits: number): RunResult[] {
  return kits.map((kit, run) => ({ kit, reactive: ((bits >> run) & 1) === 1 }));
}

const numbers = (row: OracleRow, column: string) => row.word(column).split(" ").map(Number);

describe("jointOf", () => {
  it("gives the predictive values of two kits of 99 % and 98 % that share errors (recomputed by hand from the covariance)", () => {
    // Independent 99.23; error correlation .05, .10, .20: 97.40, 95.63, 92.29 at 5 %; 87.77, 80.77, 69.66 at 1 %.
    for (const [phi, atFive, atOne] of [
      [0, 99.23, 96.12],
      [0.05, 97.4, 87.77],
      [0.1, 95.63, 80.77],
      [0.2, 92.29, 69.66],
    ] as const) {
      const both = runsOf([0, 1], 3);
      const right = jointOf(kitsOf([0.99, 0.99]), samePairs(2, phi), "diseased")(both);
      const wrong = jointOf(kitsOf([0.02, 0.02]), samePairs(2, phi), "nondiseased")(both);
      const ppv = (prevalence: number) =>
        (100 * prevalence * right) / (prevalence * right + (1 - prevalence) * wrong);
      expectClose(ppv(0.05), atFive, { absolute: 0.005 }, `5 %, phi ${phi}`);
      expectClose(ppv(0.01), atOne, { absolute: 0.005 }, `1 %, phi ${phi}`);
    }
  });

  it("agrees with R's uniroot and nested integrals for three runs of stated pairs: 2e-11", () => {
    const rows = readOracle("oracle-joint-results.csv").filter((row) => row.word("model") === "pairs");
    expect(rows).toHaveLength(48);
    for (const row of rows) {
      const [one, two, three] = numbers(row, "dependence") as [number, number, number];
      const stated = (first: number, second: number, phi: number) => ({
        first: IDS[first] as string,
        second: IDS[second] as string,
        diseased: phi,
        nondiseased: 0,
      });
      const pairs = [stated(0, 1, one), stated(2, 0, two), stated(1, 2, three)];
      const joint = jointOf(kitsOf(numbers(row, "p")), { kind: "pairs", pairs }, "diseased");
      const found = joint(runsOf([0, 1, 2], row.number("pattern")));
      expectClose(found, row.number("value"), { absolute: 2e-11 }, row.text);
    }
  });

  it("agrees with R's integrals for three runs of a shared effect: 1e-12", () => {
    const rows = readOracle("oracle-joint-results.csv").filter((row) => row.word("model") === "shared");
    expect(rows).toHaveLength(32);
    for (const row of rows) {
      const [first, second, third, own] = numbers(row, "dependence") as [number, number, number, number];
      const sameKit = own > 0;
      const dependence: Dependence = {
        kind: "shared",
        diseased: { spread: 9 },
        nondiseased: { spread: 1 },
        loadings: sameKit ? { first, second: third } : { first, second, third },
        sameKit: { diseased: 9, nondiseased: own },
      };
      const [p, q, s] = numbers(row, "p") as [number, number, number];
      const joint = jointOf(kitsOf(sameKit ? [p, s] : [p, q, s]), dependence, "nondiseased");
      const found = joint(runsOf(sameKit ? [0, 0, 1] : [0, 1, 2], row.number("pattern")));
      expectClose(found, row.number("value"), { absolute: 1e-12 }, row.text);
    }
  });

  it("keeps shares and stated phi in any table of two to five runs, which adds up to 1", () => {
    const share = fc.oneof(
      fc.double({ min: 0.003, max: 0.05, noNaN: true }),
      fc.double({ min: 0.7, max: 0.998, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(share, { minLength: 2, maxLength: 5 }),
        fc.double({ min: 0, max: 1 }),
        (shares, part) => {
          let most = 1;
          for (const one of shares)
            for (const other of shares) most = Math.min(most, dependenceBounds(one, other).phi.most);
          const phi = 0.8 * part * most;
          const joint = jointOf(kitsOf(shares), samePairs(shares.length, phi), "diseased");
          expectKept(shares, phi, (bits) =>
            joint(
              runsOf(
                shares.map((_, at) => at),
                bits,
              ),
            ),
          );
        },
      ),
      RUNS,
    );
  });

  it("does not mind the order of the runs", () => {
    for (const dependence of [samePairs(3, 0.08, 0.3), SHARED]) {
      const joint = jointOf(kitsOf([0.03, 0.02, 0.04]), dependence, "nondiseased");
      const runs = runsOf([0, 1, 0, 2], 0b0111);
      const turned = [2, 0, 3, 1].map((at) => runs[at] as RunResult);
      expectClose(joint(turned), joint(runs), { relative: 1e-15 });
    }
  });

  it("is the product without correlation, and for the independent kind", () => {
    const shares = [0.02, 0.97, 0.3, 0.6];
    const product = 0.02 * 0.97 * (1 - 0.3) * (1 - 0.6);
    const nothing: Dependence = { kind: "shared", diseased: { spread: 0 }, nondiseased: { spread: 0 } };
    for (const dependence of [{ kind: "independent" } as const, samePairs(4, 0), nothing]) {
      const joint = jointOf(kitsOf(shares), dependence, "diseased");
      expectClose(joint(runsOf([0, 1, 2, 3], 0b0011)), product, { relative: 1e-14 });
      expect(joint([])).toBe(1);
    }
  });

  it("makes of a perfect repeat the first run again", () => {
    const joint = jointOf(kitsOf([0.03, 0.05]), samePairs(2, 0, 1), "nondiseased");
    expectClose(joint(runsOf([0, 0], 3)), 0.03, { relative: 1e-15 });
    expectClose(joint(runsOf([0, 0, 0], 7)), 0.03, { relative: 1e-13 });
    expectClose(joint(runsOf([0, 0, 1], 7)), 0.03 * 0.05, { relative: 1e-13 });
    expectClose(joint(runsOf([0, 0, 1], 5)), 0, { absolute: 1e-16 });
  });

  it("goes beyond five runs with a shared effect: they add up to 1, and k of 7 alike", () => {
    const joint = jointOf(kitsOf([0.03, 0.05, 0.02]), SHARED, "nondiseased");
    const kits = [0, 0, 1, 1, 1, 2, 2];
    let sum = 0;
    for (let bits = 0; bits < 128; bits += 1) sum += joint(runsOf(kits, bits));
    expectClose(sum, 1, { absolute: 1e-13 });
    const independent = jointOf(kitsOf([0.03, 0.05, 0.02]), { kind: "independent" }, "nondiseased");
    const product = 0.03 * 0.97 * 0.95 ** 3 * 0.02 * 0.98;
    expectClose(independent(runsOf(kits, 0b0100001)), product, { relative: 1e-14 });
    expectClose(joint(runsOf(kits, 0b0000001)), joint(runsOf(kits, 0b0000010)), { relative: 1e-13 });
  });
});

const SHARED: Dependence = {
  kind: "shared",
  diseased: { spread: 0.6 },
  nondiseased: { spread: 0.9 },
  sameKit: { diseased: 0.3, nondiseased: 0.5 },
};

/** Shares, pairs and total of a table, from its patterns. */
function expectKept(shares: readonly number[], phi: number, of: (bits: number) => number): void {
  const patterns = Array.from({ length: 1 << shares.length }, (_, bits) => of(bits));
  const sum = (mask: number) =>
    patterns.reduce((total, chance, bits) => ((bits & mask) === mask ? total + chance : total), 0);
  for (const chance of patterns) expect(chance).toBeGreaterThanOrEqual(0);
  expectClose(sum(0), 1, { absolute: 1e-13 });
  for (const [at, share] of shares.entries()) {
    expectClose(sum(1 << at), share, { absolute: 1e-13 }, "share");
    for (let other = 0; other < at; other += 1) {
      const second = shares[other] as number;
      const both = share * second + phi * Math.sqrt(share * (1 - share) * second * (1 - second));
      expectClose(sum((1 << at) | (1 << other)), both, { absolute: 1e-13 }, "pair");
    }
  }
}

describe("what jointOf refuses", () => {
  const kits = kitsOf([0.02, 0.01, 0.3]);
  const pair = (first: string, second: string, phi: number) => ({
    first,
    second,
    diseased: phi,
    nondiseased: phi,
  });
  const asked = (pairs: ReturnType<typeof pair>[], ids = kits) =>
    jointOf(ids, { kind: "pairs", pairs }, "nondiseased");

  it("a kit run twice on one path without a pair of its own", () => {
    const joint = asked([pair("first", "second", 0.1)]);
    expect(() => joint(runsOf([0, 0], 3))).toThrow(/input\.dependence\.pairs: .*first, which is run twice/);
    expect(() => joint(runsOf([1, 0, 1], 3))).toThrow(InputError);
    expect(joint(runsOf([0, 1], 3))).toBeGreaterThan(0.0002);
  });

  it("a kit that is not there, and a pair stated twice", () => {
    expect(() => asked([pair("first", "other", 0.1)])).toThrow(/pairs\.0\.second: expected one of the kits/);
    expect(() => asked([pair("first", "second", 0.1), pair("second", "first", 0.1)])).toThrow(/pairs\.1/);
    const loadings = { other: 1 };
    const shared: Dependence = { ...SHARED, loadings } as Dependence;
    expect(() => jointOf(kits, shared, "diseased")).toThrow(/loadings\.other/);
  });

  it("a phi beyond the bounds, which it names", () => {
    // p = .02, q = .01: at most sqrt(.98 × .01 / (.02 × .99)) = .7035
    expect(() => asked([pair("first", "second", 0.71)])).toThrow(
      /pairs\.0\.nondiseased: .*-0\.0143 to 0\.7035/,
    );
    expect(() => asked([pair("first", "second", -0.02)])).toThrow(/pairs\.0\.nondiseased/);
    expect(() => asked([pair("first", "second", 0.7035)])).not.toThrow();
    expect(() => asked([pair("first", "second", 0.1)], kitsOf([0, 0.01]))).toThrow(/0 to 0/);
  });

  it("pairs that can't hold together, and more than five runs of pairs", () => {
    const joint = asked(
      [pair("first", "second", 0.9), pair("second", "third", 0.9), pair("first", "third", -0.5)],
      kitsOf([0.5, 0.5, 0.5]),
    );
    expect(() => joint(runsOf([0, 1, 2], 7))).toThrow(/hold together in runs of first, second, third/);
    const many = asked([pair("first", "first", 0.3)]);
    expect(() => many(runsOf([0, 0, 0, 0, 0, 0], 7))).toThrow(/shared, as a path has more than 5/);
  });
});

describe("the bounds of phi", () => {
  it("are where a cell of the two by two table is empty", () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(share, share, (p, q) => {
        const { covariance, phi } = dependenceBounds(p, q);
        const cells = (c: number) => [p * q + c, p * (1 - q) - c, (1 - p) * q - c, (1 - p) * (1 - q) + c];
        for (const bound of [covariance.least, covariance.most]) {
          expectClose(Math.min(...cells(bound)), 0, { absolute: 1e-15 });
        }
        expectClose(phi.most * Math.sqrt(p * (1 - p) * q * (1 - q)), covariance.most, { absolute: 1e-15 });
        expectClose(dependenceBounds(p, p).phi.most, 1, { relative: 1e-14 });
      }),
    );
    expect(dependenceBounds(0, 0.3).phi).toEqual({ least: 0, most: 0 });
  });
});

describe("the field of the dependence", () => {
  const read = (value: unknown) => demand(Dependence(), value, "dependence");

  it("must say its kind: independence is no default", () => {
    expect(() => read({})).toThrow(/dependence\.kind/);
    expect(read({ kind: "independent" })).toEqual({ kind: "independent" });
    expect(() => read({ kind: "none" })).toThrow(/dependence\.kind/);
  });

  it("holds phi within -1 and 1, and spreads at 0 or more", () => {
    const pair = { first: "a", second: "a", diseased: 0.1, nondiseased: 1.2 };
    expect(() => read({ kind: "pairs", pairs: [pair] })).toThrow(/pairs\.0\.nondiseased/);
    const shared = { kind: "shared", diseased: { spread: -1 }, nondiseased: { spread: 1 } };
    expect(() => read(shared)).toThrow(/diseased\.spread/);
    expect(() => read({ ...shared, diseased: { spread: 1 }, spread: 1 })).toThrow(/no such field/);
  });
});
