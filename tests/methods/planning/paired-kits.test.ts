import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { mcNemar } from "../../../src/methods/comparison/mcnemar.ts";
import { noninferiority } from "../../../src/methods/comparison/noninferiority.ts";
import { mcnemarPower } from "../../../src/methods/planning/mcnemar-power.ts";
import { planningPairedDifference } from "../../../src/methods/planning/paired-difference.ts";
import { pairedMarginPower } from "../../../src/methods/planning/paired-margin-power.ts";
import { planningPairedNoninferiority } from "../../../src/methods/planning/paired-noninferiority.ts";
import { logGamma } from "../../../src/numeric/gamma-function.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

/** Probability of one result of a trinomial distribution, by its definition. */
function trinomial(one: number, other: number, total: number, shares: [number, number]): number {
  const rest = total - one - other;
  const part = (count: number, share: number) => (count === 0 ? 0 : count * Math.log(share));
  const ways = logGamma(total + 1) - logGamma(one + 1) - logGamma(other + 1) - logGamma(rest + 1);
  const remaining = 1 - shares[0] - shares[1];
  return Math.exp(ways + part(one, shares[0]) + part(other, shares[1]) + part(rest, remaining));
}

/** The probability of all results of so many people for which a statement holds: no window, no border. */
function enumerated(
  total: number,
  shares: [number, number],
  holds: (firstOnly: number, secondOnly: number) => boolean,
): number {
  let sum = 0;
  for (let one = 0; one <= total; one += 1) {
    for (let other = 0; one + other <= total; other += 1) {
      if (holds(one, other)) sum += trinomial(one, other, total, shares);
    }
  }
  return sum;
}

const SHARES: readonly [number, number][] = [
  [0.2, 0.06],
  [0.3, 0],
  [0.04, 0.25],
];

describe("the power of McNemar's tests", () => {
  it.each(SHARES)("at every total is what all results add up to: %d, %d", (firstOnly, secondOnly) => {
    for (const [test, field] of [
      ["mcnemar_mid_p", "midP"],
      ["mcnemar_exact", "exact"],
      ["mcnemar", "asymptotic"],
    ] as const) {
      const power = mcnemarPower({ firstOnly, secondOnly }, test, 0.05);
      const better = firstOnly > secondOnly ? 1 : -1;
      for (const total of [1, 2, 6, 7, 12, 25, 40]) {
        const all = enumerated(
          total,
          [firstOnly, secondOnly],
          (one, other) => (one - other) * better > 0 && mcNemar(one, other)[field] <= 0.05,
        );
        expectClose(power(total), all, { relative: 1e-11, absolute: 1e-15 }, `${test} ${total}`);
      }
    }
  });

  it("is what simulated studies find", () => {
    const { values } = compute(planningPairedDifference, { first: 0.95, second: 0.88, discordant: 0.17 });
    const total = values.exact.stays as number;
    const random = randomStream(20260401);
    const studies = 4_000;
    let found = 0;
    for (let study = 0; study < studies; study += 1) {
      let [one, other] = [0, 0];
      for (let person = 0; person < total; person += 1) {
        const place = random();
        if (place < 0.12) one += 1;
        else if (place < 0.17) other += 1;
      }
      if (one > other && mcNemar(one, other).midP <= 0.05) found += 1;
    }
    // Four standard errors.
    expectClose(found / studies, values.exact.power as number, { absolute: 0.0253 }, "share of studies");
  });
});

describe("the power of a non-inferiority study on the same people", () => {
  it.each(SHARES)("counts the results that comparison.noninferiority accepts: %d, %d", (one, other) => {
    for (const margin of [0.05, 0.15, 0.4]) {
      const power = pairedMarginPower({ firstOnly: one, secondOnly: other }, margin, 0.95);
      for (const total of [1, 2, 9, 24]) {
        const all = enumerated(total, [one, other], (firstOnly, secondOnly) => {
          const paired = { both: 0, firstOnly, secondOnly, neither: total - firstOnly - secondOnly };
          const asked = { paired, margin, direction: "higher_is_better" } as const;
          return compute(noninferiority, asked).values.noninferiority.verdict === "met";
        });
        expectClose(power(total), all, { relative: 1e-11, absolute: 1e-15 }, `${margin} ${total}`);
      }
    }
  });

  it("needs z² (1 - margin) / margin people where the kits never differ", () => {
    const power = pairedMarginPower({ firstOnly: 0, secondOnly: 0 }, 0.05, 0.95);
    expect([power(72), power(73)]).toEqual([0, 1]);
  });
});

describe("sizes for two kits on the same people", () => {
  const kits = { first: 0.95, second: 0.8, discordant: 0.19 };

  it("hold from `stays` on and not just before, by adding up all results", () => {
    // Everybody is discordant: the power is a saw, and first and stays differ.
    const input = { first: 0.7, second: 0.3, discordant: 1 };
    const options = { test: "mcnemar_exact", horizon: 80, power: 0.8 } as const;
    const { values } = compute(planningPairedDifference, input, options);
    const { first, stays } = values.exact;
    const powerAt = (total: number) =>
      enumerated(total, [0.7, 0.3], (one, other) => one > other && mcNemar(one, other).exact <= 0.05);
    const powers = Array.from({ length: 80 }, (_, at) => powerAt(at + 1));
    expect(first).not.toBe(stays);
    expect(first).toBe(powers.findIndex((power) => power >= 0.8) + 1);
    expect(stays).toBe(powers.findLastIndex((power) => power < 0.8) + 2);
    expectClose(values.exact.powerBefore, powers[(stays as number) - 2] as number, { relative: 1e-11 });
  });

  it("are the same with the kits exchanged", () => {
    const other = { first: kits.second, second: kits.first, discordant: kits.discordant };
    const [one, two] = [kits, other].map((input) => compute(planningPairedDifference, input).values);
    expectClose(two?.formula.unrounded, one?.formula.unrounded as number, { relative: 1e-12 });
    expect(two?.exact.stays).toBe(one?.exact.stays);
  });

  it("grow with the share judged differently, from the least to the greatest", () => {
    const { bounds, discordant } = compute(planningPairedDifference, kits).values;
    const sizes = bounds.map(({ exactStays }) => exactStays as number);
    expect(sizes).toEqual([...sizes].sort((one, other) => one - other));
    expectClose(discordant.least, 0.15, { relative: 1e-12 });
    expectClose(discordant.independent, 0.95 * 0.2 + 0.05 * 0.8, { relative: 1e-12 });
    expectClose(discordant.most, 0.25, { relative: 1e-12 });
  });

  it("are planned as if independent where the share is not known, and say so", () => {
    const { values, notes } = compute(planningPairedDifference, { first: 0.95, second: 0.8 });
    expect(values.discordant.planned).toBe(values.discordant.independent);
    expect(notes.map(({ code }) => code)).toEqual(["independence_assumed"]);
  });

  it("take a share at its bound, however it was added up, and refuse one beyond", () => {
    const at = (discordant: number) =>
      compute(planningPairedDifference, { first: 0.95, second: 0.88, discordant });
    expect(at(0.12 + 0.05).values.discordant.secondOnly).toBeCloseTo(0.05, 12);
    expect(() => at(0.171)).toThrow(InputError);
    expect(() => at(0.069)).toThrow(/a share from 0.07 to 0.17/);
  });

  it("are null with a note where no study can show it, or the horizon is too near", () => {
    const alike = compute(planningPairedDifference, { first: 0.9, second: 0.9, discordant: 0.1 });
    expect(alike.notes[0]?.code).toBe("no_difference");
    const worse = compute(planningPairedNoninferiority, { first: 0.87, second: 0.92, margin: 0.05 });
    expect(worse.notes[0]?.code).toBe("beyond_margin");
    const near = compute(planningPairedDifference, kits, { horizon: 30 });
    expect(near.values.exact).toMatchObject({ first: null, stays: null, searchedTo: 30 });
    expect(near.notes.map(({ code, path }) => `${code} ${path}`)).toContain("out_of_reach exact.stays");
    for (const found of [alike, worse, near]) expect(faultsOf(found)).toEqual([]);
  });

  it("are looked for beyond the people without whom nothing can be shown", () => {
    // By enumeration: with hardly anybody judged differently the formula gives far too few.
    const asked = { first: 0.999, second: 0.999, margin: 0.01 };
    const { values, notes } = compute(planningPairedNoninferiority, asked);
    expect(values.formula.total).toBe(157);
    const shares: [number, number] = [
      values.discordant.firstOnly as number,
      values.discordant.secondOnly as number,
    ];
    const stays = values.exact.stays as number;
    const accepted = (total: number) =>
      enumerated(total, shares, (one, other) => {
        if (one + other > 12) return false;
        const paired = { both: 0, firstOnly: one, secondOnly: other, neither: total - one - other };
        const question = { paired, margin: asked.margin, direction: "higher_is_better" } as const;
        return compute(noninferiority, question).values.noninferiority.verdict === "met";
      });
    expectClose(values.exact.power, accepted(stays), { relative: 1e-9 }, "power");
    expect(accepted(stays - 1)).toBeLessThan(0.8);
    expect(values.exact.searchedTo as number).toBeGreaterThan(2 * stays);
    expect(notes.map(({ code }) => code)).not.toContain("near_horizon");
  });

  it("warn where the search ended close behind them", () => {
    const { values, notes } = compute(planningPairedDifference, kits, { horizon: 60 });
    expect(values.exact.stays).toBe(58);
    expect(notes.map(({ code, path }) => `${code} ${path}`)).toContain("near_horizon exact.stays");
  });

  it("are plain numbers or explained, whatever is asked", () => {
    const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });
    const asked = fc.record({ first: share, second: share, margin: share, power: share, level: share });
    fc.assert(
      fc.property(asked, ({ first, second, margin, power, level }) => {
        const options = { power, level, horizon: 40 };
        expect(faultsOf(compute(planningPairedDifference, { first, second }, options))).toEqual([]);
        const kitsAndMargin = { first, second, margin };
        expect(faultsOf(compute(planningPairedNoninferiority, kitsAndMargin, options))).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });
});
