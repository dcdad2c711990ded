import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { paired } from "../../../src/methods/comparison/paired.ts";
import { PAIRED_METHODS, pairedDifference } from "../../../src/methods/comparison/paired-difference.ts";
import { pairedScore } from "../../../src/methods/comparison/paired-score.ts";
import { normalQuantile } from "../../../src/numeric/normal.ts";
import { expectClose } from "../../tolerance.ts";
import { choose, quotient } from "../enumeration.ts";
import { faultsOf } from "../plain-values.ts";
import { holds, LEVEL, mirrored, PAIRED } from "./arbitrary.ts";

const METHOD = fc.constantFrom(...PAIRED_METHODS);

describe("comparison.paired", () => {
  it("gives plain numbers, or null with a note, for any counts", () => {
    fc.assert(
      fc.property(PAIRED, METHOD, LEVEL, (counts, differenceInterval, level) => {
        const found = compute(paired, counts, { differenceInterval, level });
        expect(faultsOf(found)).toEqual([]);
        expect(holds(found.values.difference)).toBe(true);
        expect(holds(found.values.ratio)).toBe(true);
      }),
      { numRuns: 500 },
    );
  });

  it("turns signs when the two are exchanged, and keeps every p", () => {
    fc.assert(
      fc.property(PAIRED, METHOD, (counts, differenceInterval) => {
        const exchanged = { ...counts, firstOnly: counts.secondOnly, secondOnly: counts.firstOnly };
        const one = compute(paired, counts, { differenceInterval }).values;
        const other = compute(paired, exchanged, { differenceInterval }).values;
        expect(other.mcNemar).toEqual(one.mcNemar);
        const turned = mirrored(other.difference);
        for (const side of ["value", "lower", "upper"] as const) {
          if (one.difference[side] === null) expect(turned[side]).toBeNull();
          else expectClose(turned[side], one.difference[side], { absolute: 1e-12 }, side);
        }
        if (one.ratio.lower === null || one.ratio.upper === null) return;
        expectClose(1 / (other.ratio.upper as number), one.ratio.lower, { relative: 1e-12 }, "ratio");
      }),
      { numRuns: 300 },
    );
  });

  it("gives exact and mid-P as counting whole numbers does", () => {
    fc.assert(
      fc.property(fc.nat({ max: 30 }), fc.nat({ max: 30 }), (firstOnly, secondOnly) => {
        const n = firstOnly + secondOnly;
        const { exact, midP } = compute(paired, { both: 1, firstOnly, secondOnly, neither: 1 }).values
          .mcNemar;
        const seen = choose(n, firstOnly);
        let [smaller, equal] = [0n, 0n];
        for (let at = 0; at <= n; at += 1) {
          const ways = choose(n, at);
          if (ways < seen) smaller += ways;
          else if (ways === seen) equal += ways;
        }
        const all = 2n ** BigInt(n);
        // Quotients have twenty decimals.
        const near = { relative: 1e-12, absolute: 1e-19 };
        expectClose(exact, quotient(smaller + equal, all), near, "exact");
        // Mid-P takes half of the results as probable as the one seen; the middle one counts once.
        const half = firstOnly === secondOnly ? all - seen / 2n : smaller + equal / 2n;
        const odd = firstOnly === secondOnly ? seen % 2n : equal % 2n;
        const midExpected =
          n === 0 ? 1 : quotient(2n * half + (firstOnly === secondOnly ? -odd : odd), 2n * all);
        expectClose(midP, midExpected, near, "mid-P");
      }),
      { numRuns: 200 },
    );
  });

  it("Tango's limits are just not rejected by his test", () => {
    fc.assert(
      fc.property(PAIRED, LEVEL, (counts, level) => {
        const { lower, upper } = pairedDifference(counts, "tango", level);
        if (lower === null || upper === null) return;
        const z = normalQuantile((1 - level) / 2, "upper");
        if (lower > -0.999999) expectClose(pairedScore(counts, lower), z, { relative: 1e-6 }, "lower");
        if (upper < 0.999999) expectClose(pairedScore(counts, upper), -z, { relative: 1e-6 }, "upper");
      }),
      { numRuns: 300 },
    );
  });

  it("Tango's score squared is McNemar's chi-square under no difference (tango1998)", () => {
    fc.assert(
      fc.property(PAIRED, (counts) => {
        if (counts.firstOnly + counts.secondOnly === 0) return;
        const { chiSquare } = compute(paired, counts).values.mcNemar;
        expectClose(pairedScore(counts, 0) ** 2, chiSquare as number, { relative: 1e-12, absolute: 1e-24 });
      }),
    );
  });

  it("explains a kit compared with itself", () => {
    const { values, notes } = compute(
      paired,
      { both: 30, firstOnly: 0, secondOnly: 0, neither: 20 },
      { differenceInterval: "wald" },
    );
    expect(values.mcNemar).toMatchObject({ asymptotic: 1, corrected: 1, exact: 1, midP: 1 });
    expect(notes.map(({ code }) => code)).toEqual([
      "no_discordance",
      "no_width",
      "no_log_interval",
      "no_log_interval",
    ]);
  });

  it("covers the truth nearly as often as it says, in simulated studies of 60 people", () => {
    // Floors: the nominal 95 % less 3 points, less four standard errors of 2,000 draws (2 points).
    const covered = { tango: 0, newcombe: 0 };
    const draws = 2_000;
    const random = randomStream(7);
    for (let draw = 0; draw < draws; draw += 1) {
      const counts = { both: 0, firstOnly: 0, secondOnly: 0, neither: 0 };
      for (let person = 0; person < 60; person += 1) {
        const at = random();
        if (at < 0.85) counts.both += 1;
        else if (at < 0.94) counts.firstOnly += 1;
        else if (at < 0.96) counts.secondOnly += 1;
        else counts.neither += 1;
      }
      for (const method of ["tango", "newcombe"] as const) {
        const { lower, upper } = pairedDifference(counts, method, 0.95);
        if ((lower as number) <= 0.07 && 0.07 <= (upper as number)) covered[method] += 1;
      }
    }
    expect(covered.tango / draws).toBeGreaterThan(0.9);
    expect(covered.newcombe / draws).toBeGreaterThan(0.9);
  });
});
