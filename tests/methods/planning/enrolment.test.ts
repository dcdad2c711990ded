import { randomBeta, randomBinomial } from "d3-random";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import {
  type EnrolmentInput,
  enrolmentChance,
  planningEnrolment,
} from "../../../src/methods/planning/enrolment.ts";
import { enrolledFor } from "../../../src/methods/planning/enrolment-size.ts";
import { fewestThat } from "../../../src/methods/planning/fewest-that.ts";
import { roundUp } from "../../../src/methods/planning/round-up.ts";
import { expectClose } from "../../tolerance.ts";

const NO_LOSSES = { invalid: 0, lost: 0, unverified: 0, unverifiedNegative: null };
const fixed = (value: number) => ({ kind: "fixed", value }) as const;

describe("roundUp", () => {
  it("rounds up, but not for the rounding of a product", () => {
    expect(100 * 0.07).toBeGreaterThan(7);
    expect(roundUp(100 * 0.07)).toBe(7);
    expect([0, 0.2, 1, 7.0001, 189 / 0.02].map(roundUp)).toEqual([0, 1, 1, 8, 9450]);
  });
});

describe("fewestThat", () => {
  it("finds the border from any guess, and null where there is none", () => {
    for (const border of [0, 1, 2, 17, 999, 1000]) {
      for (const guess of [-5, 0, 0.5, 16, 17, 18, 500, 1000, 1e9]) {
        expect(
          fewestThat((total) => total >= border, guess, 1000),
          `${border} from ${guess}`,
        ).toBe(border);
      }
    }
    for (const guess of [0, 3, 1000]) expect(fewestThat(() => false, guess, 1000)).toBeNull();
  });
});

describe("enrolledFor", () => {
  // R 4.2.2: needed + qnbinom(assurance, needed, share).
  it.each([
    [189, 0.02, 0.9, 10332],
    [1, 0.05, 0.95, 59],
    [100_000, 0.01, 0.8, 10_026_471],
    [5, 1e-6, 0.99, 11_604_622],
    [10, 0.9, 0.001, 10],
    [3, 1, 0.9, 3],
    [0, 0.3, 0.9, 0],
    [1, 0.5, 0.5, 1],
  ])("%i with a share of %d, assured to %d: %i", (needed, share, assurance, total) => {
    expect(enrolledFor(needed, share, assurance)).toBe(total);
  });

  it("refuses wrong arguments by name", () => {
    expect(() => enrolledFor(-1, 0.5, 0.9)).toThrow(/needed/);
    expect(() => enrolledFor(1.5, 0.5, 0.9)).toThrow(/needed/);
    expect(() => enrolledFor(5, 0, 0.9)).toThrow(/share/);
    expect(() => enrolledFor(5, 0.1, 1)).toThrow(/assurance/);
  });
});

/** P(enough of both) by going through every multinomial result, one person after the other. */
function everyOutcome(
  total: number,
  shares: readonly [number, number],
  needed: readonly [number, number],
): number {
  let masses = new Map<string, number>([["0,0", 1]]);
  for (let person = 0; person < total; person += 1) {
    const next = new Map<string, number>();
    const add = (x: number, y: number, mass: number) =>
      next.set(`${x},${y}`, (next.get(`${x},${y}`) ?? 0) + mass);
    for (const [key, mass] of masses) {
      const [x, y] = key.split(",").map(Number) as [number, number];
      add(x + 1, y, mass * shares[0]);
      add(x, y + 1, mass * shares[1]);
      add(x, y, mass * (1 - shares[0] - shares[1]));
    }
    masses = next;
  }
  let sum = 0;
  for (const [key, mass] of masses) {
    const [x, y] = key.split(",").map(Number) as [number, number];
    if (x >= needed[0] && y >= needed[1]) sum += mass;
  }
  return sum;
}

describe("planning.enrolment at a known prevalence", () => {
  const losses = { invalid: 0.1, lost: 0.05, unverified: 0.2, unverifiedNegative: 0.4 };
  const kept = 0.9 * 0.95;
  it.each([
    [5, 5, 0.5],
    [3, 9, 0.3],
    [8, 2, 0.8],
    [4, 0, 0.2],
    [0, 6, 0.6],
  ])("agrees with all multinomial results: %i and %i at %d", (positives, negatives, prevalence) => {
    const input = { positives, negatives, prevalence: fixed(prevalence), losses };
    const shares = [prevalence * kept * 0.8, (1 - prevalence) * kept * 0.6] as const;
    for (const total of [1, 8, 15, 22, 40]) {
      const chance = everyOutcome(total, shares, [positives, negatives]);
      expectClose(
        enrolmentChance(input, total).both,
        chance,
        { relative: 1e-12, absolute: 1e-15 },
        `${total}`,
      );
    }
    const { targets } = compute(planningEnrolment, input).values;
    for (const { assurance, total } of targets) {
      const [at, before] = [total ?? -1, (total ?? -1) - 1].map((each) =>
        everyOutcome(each, shares, [positives, negatives]),
      );
      expect(at).toBeGreaterThanOrEqual(assurance ?? 2);
      expect(before).toBeLessThan(assurance ?? -1);
    }
  });

  it("counts everyone where nothing is lost, and needs them exactly", () => {
    const input = { positives: 3, negatives: 2, prevalence: fixed(0.5), losses: NO_LOSSES };
    expect(enrolmentChance(input, 4).both).toBe(0);
    // 5 choose 3, over 2^5.
    expectClose(enrolmentChance(input, 5).both, 10 / 32, { relative: 1e-14 });
    expect(enrolmentChance({ ...input, negatives: 0, prevalence: fixed(1) }, 3).both).toBe(1);
  });

  it("agrees with enrolledFor where only one kind is needed", () => {
    for (const [positives, prevalence] of [
      [50, 0.03],
      [7, 0.4],
    ] as const) {
      const input = { positives, negatives: 0, prevalence: fixed(prevalence), losses: { invalid: 0.1 } };
      for (const { assurance, total } of compute(planningEnrolment, input).values.targets) {
        expect(total).toBe(enrolledFor(positives, prevalence * 0.9, assurance ?? -1));
      }
    }
  });
});

describe("planning.enrolment at a range of prevalences", () => {
  const input = {
    positives: 30,
    negatives: 40,
    prevalence: { kind: "range", low: 0.2, high: 0.7 },
    losses: { ...NO_LOSSES, invalid: 0.05 },
  } as const;
  it("plans each number at its worst end, and both at the worst of the whole range", () => {
    const entry = compute(planningEnrolment, input, { assurances: [0.9] }).values.targets[0];
    expect(entry?.forPositives).toBe(enrolledFor(30, 0.2 * 0.95, 0.9));
    expect(entry?.forNegatives).toBe(enrolledFor(40, 0.3 * 0.95, 0.9));
    for (const total of [100, 150, 180, entry?.total ?? -1]) {
      const inside = Array.from({ length: 101 }, (_, at) => {
        const prevalence = fixed(0.2 + (at * 0.5) / 100);
        return enrolmentChance({ ...input, prevalence }, total).both;
      });
      expectClose(enrolmentChance(input, total).both, Math.min(...inside), { relative: 1e-12 });
    }
  });
});

describe("planning.enrolment at an uncertain prevalence", () => {
  const cases: readonly EnrolmentInput[] = [
    {
      positives: 40,
      negatives: 60,
      prevalence: { kind: "counts", positive: 9, total: 25 },
      losses: { invalid: 0.05, lost: 0.1, unverified: 0.02, unverifiedNegative: 0.5 },
    },
    {
      positives: 10,
      negatives: 200,
      prevalence: { kind: "beta", a: 1.2, b: 20 },
      losses: { ...NO_LOSSES, invalid: 0.1 },
    },
  ];
  it.each(cases)("agrees with a simulation of whole studies: %#", (input) => {
    const source = randomStream(20261125);
    const { a, b } = input.prevalence.kind === "beta" ? input.prevalence : { a: 9.5, b: 16.5 };
    const prevalences = randomBeta.source(source)(a, b);
    const { losses } = input;
    const kept = (1 - losses.invalid) * (1 - losses.lost);
    const usable = [
      kept * (1 - losses.unverified),
      kept * (1 - (losses.unverifiedNegative ?? losses.unverified)),
    ];
    const total = compute(planningEnrolment, input, { assurances: [0.7] }).values.targets[0]?.total ?? -1;
    const chance = enrolmentChance(input, total);
    const STUDIES = 20_000;
    const seen = { positives: 0, negatives: 0, both: 0 };
    const draw = randomBinomial.source(source);
    for (let study = 0; study < STUDIES; study += 1) {
      const present = draw(total, prevalences())();
      const positives = draw(present, usable[0] as number)() >= input.positives;
      const negatives = draw(total - present, usable[1] as number)() >= input.negatives;
      seen.positives += positives ? 1 : 0;
      seen.negatives += negatives ? 1 : 0;
      seen.both += positives && negatives ? 1 : 0;
    }
    for (const kind of ["positives", "negatives", "both"] as const) {
      const error = Math.sqrt((chance[kind] * (1 - chance[kind])) / STUDIES);
      // Four standard errors of the simulation.
      expectClose(seen[kind] / STUDIES, chance[kind], { absolute: 4 * error + 1e-12 }, kind);
    }
  });

  it("tends to the known prevalence as the survey grows", () => {
    const survey = (total: number) => ({ kind: "counts", positive: total / 4, total }) as const;
    const at = (prevalence: EnrolmentInput["prevalence"]) =>
      enrolmentChance({ positives: 60, negatives: 150, prevalence, losses: NO_LOSSES }, 250).both;
    const apart = [100, 10_000, 100_000_000].map((total) => Math.abs(at(survey(total)) - at(fixed(0.25))));
    expect(apart[0]).toBeGreaterThan(apart[1] as number);
    expect(apart[2]).toBeLessThan(1e-6);
  });

  // Beta-binomial masses by their recurrence from 0 on, without logarithms: nothing of the quadrature.
  it.each([
    [100, 500, 1e7, 3e7],
    [5, 60, 0.5, 20.5],
    [30, 100, 0.02, 0.07],
    [200, 900, 3, 8],
  ])("keeps its digits for any shape: %i of %i, beta(%d, %d)", (positives, total, a, b) => {
    let mass = 1;
    for (let person = 0; person < total; person += 1) mass *= (b + person) / (a + b + person);
    let tooFew = 0;
    for (let count = 0; count < positives; count += 1) {
      tooFew += mass;
      mass *= ((total - count) / (count + 1)) * ((a + count) / (b + total - count - 1));
    }
    const prevalence = { kind: "beta", a, b } as const;
    const chance = enrolmentChance({ positives, negatives: 0, prevalence, losses: NO_LOSSES }, total);
    expectClose(chance.positives, 1 - tooFew, { absolute: 2e-12 });
    expectClose(chance.both, 1 - tooFew, { absolute: 2e-12 });
  });

  it("never falls as more are enrolled", () => {
    for (const input of cases) {
      let before = 0;
      for (let total = 50; total < 1500; total += 25) {
        const { both } = enrolmentChance(input, total);
        expect(both).toBeGreaterThanOrEqual(before - 1e-12);
        before = both;
      }
    }
  });
});

describe("planning.enrolment where it can't be had", () => {
  const need = { positives: 5, negatives: 10 };
  it("says that nobody is ever left, field by field", () => {
    for (const input of [
      { ...need, prevalence: fixed(0) },
      { ...need, prevalence: fixed(1) },
      { ...need, prevalence: fixed(0.5), losses: { invalid: 1 } },
      { ...need, prevalence: { kind: "beta", a: 1, b: 1 } as const, losses: { unverifiedNegative: 1 } },
    ]) {
      const { values, notes } = compute(planningEnrolment, input, { assurances: [0.8] });
      expect(values.targets[0]?.total).toBeNull();
      expect(notes.find(({ path }) => path === "targets.0.total")?.code).toBe("never_enough");
      expect(JSON.stringify(values)).not.toMatch(/NaN|Infinity/);
    }
  });

  it("says where the horizon is too near", () => {
    const input = { ...need, prevalence: { kind: "counts", positive: 0, total: 30 } as const };
    const { values, notes } = compute(planningEnrolment, input, { assurances: [0.5, 0.99], horizon: 5000 });
    expect(values.targets.map(({ total }) => total === null)).toEqual([false, true]);
    expect(values.targets[1]?.limiting).toBe("positives");
    expect(notes.map(({ path, code }) => [path, code])).toEqual([
      ["targets.1.forPositives", "beyond_horizon"],
      ["targets.1.total", "beyond_horizon"],
    ]);
  });

  it("refuses what contradicts itself", () => {
    const at = (input: object) => () => compute(planningEnrolment, { ...need, ...input } as EnrolmentInput);
    expect(at({ positives: 0, negatives: 0, prevalence: fixed(0.1) })).toThrow(/input.positives/);
    expect(at({ prevalence: { kind: "counts", positive: 8, total: 7 } })).toThrow(/prevalence.positive/);
    expect(at({ prevalence: { kind: "counts", positive: 0, total: 0 } })).toThrow(/prevalence.total/);
    expect(at({ prevalence: { kind: "range", low: 0.3, high: 0.2 } })).toThrow(/prevalence.high/);
  });
});
