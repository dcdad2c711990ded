import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { noninferiority } from "../../../src/methods/comparison/noninferiority.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { GROUPS, PAIRED } from "./arbitrary.ts";

const DIRECTION = fc.constantFrom("higher_is_better" as const, "lower_is_better" as const);
const ALPHA = fc.constantFrom(0.025, 0.05, 0.1);
const groups = (a: number, m: number, b: number, n: number) => ({
  first: { count: a, total: m },
  second: { count: b, total: n },
});

/** Margins on which verdict and p-value might part by rounding alone are passed over. */
const clear = (p: number | null, alpha: number) => p === null || Math.abs(p - alpha) > 1e-6;

describe("comparison.noninferiority", () => {
  it("gives plain numbers, or null with a note, and verdicts that go with p", () => {
    fc.assert(
      fc.property(
        PAIRED,
        DIRECTION,
        ALPHA,
        fc.constantFrom(0.01, 0.05, 0.2),
        (paired, direction, alpha, margin) => {
          const found = compute(noninferiority, { paired, direction, margin }, { alpha });
          expect(faultsOf(found)).toEqual([]);
          for (const { verdict, pValue } of [found.values.noninferiority, found.values.equivalence]) {
            if (pValue !== null && clear(pValue, alpha)) expect(verdict === "met").toBe(pValue <= alpha);
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  it("does the same for groups, as difference and as ratio", () => {
    fc.assert(
      fc.property(GROUPS, DIRECTION, ALPHA, fc.boolean(), (unpaired, direction, alpha, asRatio) => {
        const ratioMargin = direction === "higher_is_better" ? 0.8 : 1.25;
        const found = compute(
          noninferiority,
          {
            unpaired,
            direction,
            margin: asRatio ? ratioMargin : 0.1,
            scale: asRatio ? "ratio" : "difference",
          },
          { alpha },
        );
        expect(faultsOf(found)).toEqual([]);
        for (const { verdict, pValue } of [found.values.noninferiority, found.values.equivalence]) {
          if (pValue !== null && clear(pValue, alpha)) expect(verdict === "met").toBe(pValue <= alpha);
        }
      }),
      { numRuns: 300 },
    );
  });

  it("judges the others with the opposite direction alike", () => {
    fc.assert(
      fc.property(PAIRED, DIRECTION, (paired, direction) => {
        const others = {
          both: paired.neither,
          firstOnly: paired.secondOnly,
          secondOnly: paired.firstOnly,
          neither: paired.both,
        };
        const opposite = direction === "higher_is_better" ? "lower_is_better" : "higher_is_better";
        const one = compute(noninferiority, { paired, direction, margin: 0.05 }).values;
        const other = compute(noninferiority, { paired: others, direction: opposite, margin: 0.05 }).values;
        expect(other.noninferiority.verdict).toBe(one.noninferiority.verdict);
        expect(other.equivalence.verdict).toBe(one.equivalence.verdict);
        if (one.noninferiority.pValue === null) return;
        expectClose(other.noninferiority.pValue, one.noninferiority.pValue, {
          relative: 1e-9,
          absolute: 1e-300,
        });
      }),
    );
  });

  it("gives all three verdicts", () => {
    const verdict = (unpaired: ReturnType<typeof groups>) =>
      compute(noninferiority, { unpaired, margin: 0.05, direction: "higher_is_better" }).values.noninferiority
        .verdict;
    expect(verdict(groups(490, 500, 488, 500))).toBe("met");
    expect(verdict(groups(45, 50, 46, 50))).toBe("undecided");
    expect(verdict(groups(400, 500, 490, 500))).toBe("not_met");
  });

  it.each([
    [{ margin: -0.05, scale: "difference", direction: "higher_is_better" }, "without a sign"],
    [{ margin: 0, scale: "difference", direction: "lower_is_better" }, "without a sign"],
    [{ margin: 5, scale: "difference", direction: "higher_is_better" }, "above 0 and below 1"],
    [{ margin: 1.25, scale: "ratio", direction: "higher_is_better" }, "as higher is better"],
    [{ margin: 0.8, scale: "ratio", direction: "lower_is_better" }, "as lower is better"],
  ] as const)("refuses the margin of %j", (asked, words) => {
    const input = { unpaired: groups(40, 50, 41, 50), ...asked };
    expect(() => compute(noninferiority, input)).toThrow(words);
    expect(() => compute(noninferiority, input)).toThrow(/^input\.margin: /);
  });

  it("refuses both kinds of counts, none, and a ratio of paired results", () => {
    const paired = { both: 5, firstOnly: 1, secondOnly: 1, neither: 3 };
    const unpaired = groups(4, 5, 4, 5);
    const rest = { margin: 0.1, direction: "higher_is_better" as const };
    expect(() => compute(noninferiority, { paired, unpaired, ...rest })).toThrow(
      "one of paired and unpaired",
    );
    expect(() => compute(noninferiority, rest)).toThrow("one of paired and unpaired");
    expect(() => compute(noninferiority, { paired, scale: "ratio", ...rest })).toThrow("input.scale");
  });

  it("says when interval and test part, and when a kit is compared with itself", () => {
    const same = { both: 30, firstOnly: 0, secondOnly: 0, neither: 0 };
    const input = { paired: same, margin: 0.05, direction: "higher_is_better" as const };
    const { values, notes } = compute(noninferiority, input, { pairedInterval: "wald" });
    expect(values.noninferiority.verdict).toBe("met");
    expect(values.noninferiority.pValue as number).toBeGreaterThan(0.025);
    expect(notes.map(({ code }) => code)).toEqual([
      "no_discordance",
      "no_width",
      "interval_and_test_disagree",
      "interval_and_test_disagree",
    ]);
    expect(compute(noninferiority, input).values.noninferiority.verdict).toBe("undecided");
  });
});
