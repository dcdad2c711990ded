import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { check, demand } from "../../../src/core/check.ts";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { algorithmsOutcomes } from "../../../src/methods/algorithms/outcomes.ts";
import { presetSteps } from "../../../src/methods/algorithms/presets.ts";
import { algorithmsUncertain } from "../../../src/methods/algorithms/uncertain.ts";
import { preparedFor, uncertainDraws } from "../../../src/methods/algorithms/uncertain-draws.ts";
import { UncertainInput } from "../../../src/methods/algorithms/uncertain-input.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { asked, counts, PAIRS, range, value } from "./uncertain-cases.ts";

type Four = readonly ["mean", "median", "lower", "upper"];
const FOUR: Four = ["mean", "median", "lower", "upper"];
interface Opinion {
  readonly name: string;
  readonly kits: readonly [number, number, number, number, number][];
  readonly phi: readonly [number, number];
  readonly prevalence: readonly [number, number];
  readonly target: number;
  readonly invalid: readonly [number, number];
  readonly again: 0 | 1;
  readonly reached: number;
  readonly [measure: string]: unknown;
}
/** Made by NumPy with `tests/reference/scripts/second-opinion-algorithms-uncertain.py`, 4 million draws. */
const file = new URL("../../reference/second-opinion-algorithms-uncertain.json", import.meta.url);
const opinions = (JSON.parse(readFileSync(file, "utf8")) as { uncertain: Opinion[] }).uncertain;

const SHARED = {
  kind: "shared" as const,
  diseased: { spread: 0.6 },
  nondiseased: { spread: 0.8 },
  sameKit: { diseased: 0.5, nondiseased: 0.5 },
};

const PAIRS_OF_COUNTED = {
  kind: "pairs" as const,
  pairs: [{ first: "A", second: "C", diseased: 0.02, nondiseased: 0.02 }],
};

describe("algorithms.uncertain", () => {
  it.each(opinions)("agrees with NumPy: $name", (opinion) => {
    const DRAWS = 20_000;
    const kits = opinion.kits.map(([found, diseased, cleared, healthy, price], at) => ({
      id: `kit ${at + 1}`,
      sensitivity: counts(found, diseased),
      specificity: counts(cleared, healthy),
      invalid: { kind: "range" as const, low: opinion.invalid[0], high: opinion.invalid[1] },
      price: value(price),
    }));
    const [diseased, nondiseased] = opinion.phi;
    const { values } = compute(
      algorithmsUncertain,
      asked({
        kits,
        algorithms: [
          {
            id: "serial",
            steps: presetSteps("serial_confirm", ["kit 1", "kit 2"], { again: opinion.again }),
            retest: null,
          },
        ],
        dependence: { kind: "pairs", pairs: [{ first: "kit 1", second: "kit 2", diseased, nondiseased }] },
        prevalences: [{ label: "p", share: counts(...opinion.prevalence) }],
        costs: { perPerson: value(0), perInconclusive: value(0) },
        criteria: { minimumPpv: opinion.target, minimumNpv: null, mostInconclusive: null },
      }),
      { draws: DRAWS },
    );
    const found = values.algorithms[0]?.at[0];
    for (const measure of ["ppv", "npv", "missed", "falsePositives", "inconclusive", "cost"] as const) {
      const expected = opinion[measure] as Record<string, number>;
      // The mean's own error; percentiles have up to about 4 times that. Five such errors are allowed.
      const error = found?.[measure].error ?? 0;
      for (const part of FOUR) {
        const absolute = 5 * (part === "mean" ? 1 : 4) * error + 1e-9;
        expectClose(found?.[measure][part], expected[part] as number, { absolute }, `${measure} ${part}`);
      }
    }
    const reached = found?.reaches.ppv;
    expectClose(reached?.value, opinion.reached, { absolute: 4 * (reached?.error ?? 0) + 1e-9 }, "reached");
  });

  it("gives the exact outcome where nothing is uncertain, retests and dependence included", () => {
    const shares = [
      { id: "A", sensitivity: 0.97, specificity: 0.95, invalid: 0.03 },
      { id: "B", sensitivity: 0.9, specificity: 0.98, invalid: 0.01 },
      { id: "C", sensitivity: 0.92, specificity: 0.97, invalid: 0 },
    ];
    const prices: Readonly<Record<string, number>> = { A: 1, B: 2, C: 4 };
    const kits = shares.map((kit) => ({
      id: kit.id,
      sensitivity: value(kit.sensitivity),
      specificity: value(kit.specificity),
      invalid: value(kit.invalid),
      price: value(prices[kit.id] as number),
    }));
    for (const dependence of [{ kind: "independent" as const }, PAIRS, SHARED]) {
      const retest = dependence.kind === "pairs" ? null : { share: 0.6 };
      const steps = presetSteps("tie_breaker", ["A", "B", "C"], { again: 1 });
      const exact = compute(algorithmsOutcomes, {
        kits: shares,
        steps,
        retest,
        dependence,
        prevalences: [0.1],
      });
      const drawn = compute(
        algorithmsUncertain,
        asked({
          kits,
          dependence,
          algorithms: [{ id: "one", steps, retest }],
          prevalences: [{ label: "p", share: value(0.1) }],
          costs: { perPerson: value(0.5), perInconclusive: value(10) },
        }),
        { draws: 100 },
      ).values.algorithms[0];
      const at = exact.values.at[0];
      const close = (one: number | null | undefined, other: number | null | undefined, what: string) =>
        expectClose(one, other as number, { relative: 1e-10, absolute: 1e-12 }, what);
      close(drawn?.sensitivity.median, exact.values.net.sensitivity, "sensitivity");
      close(drawn?.at[0]?.ppv.median, at?.ppv, "ppv");
      close(drawn?.at[0]?.npv.median, at?.npv, "npv");
      close(drawn?.at[0]?.missed.mean, at?.perPeople.missed, "missed");
      const unsettled = (at?.perPeople.inconclusive ?? 0) + (at?.perPeople.lost ?? 0);
      close(drawn?.at[0]?.inconclusive.mean, unsettled, "inconclusive");
      const devices = at?.runs.reduce(
        (sum, { kit, perPerson }) => sum + (prices[kit] as number) * (perPerson ?? 0),
        0,
      );
      const settled = 10 * ((at?.perPeople.inconclusive ?? 0) / 100_000);
      close(drawn?.at[0]?.cost.mean, 0.5 + (devices ?? 0) + settled, "cost");
    }
  });

  it("gives the same draws however they are split, and others with another seed", () => {
    const prepared = preparedFor(demand(UncertainInput, asked(), "input"));
    const whole = uncertainDraws(prepared, 5, 0, 300);
    const parts = [
      uncertainDraws(prepared, 5, 0, 1),
      uncertainDraws(prepared, 5, 1, 170),
      uncertainDraws(prepared, 5, 171, 129),
    ];
    for (const part of ["vectors", "results"] as const) {
      expect(parts.flatMap((slice) => [...slice[part]])).toEqual([...whole[part]]);
    }
    const other = uncertainDraws(prepared, 6, 0, 300);
    expect(other.vectors[0]).not.toBe(whole.vectors[0]);
  });

  it("draws a kit the same whatever is known of the others", () => {
    const sensitivityOf = (kits: ReturnType<typeof asked>["kits"]) => {
      const prepared = preparedFor(demand(UncertainInput, asked({ kits }), "input"));
      const { vectors, count } = uncertainDraws(prepared, 1, 0, 50);
      return Array.from({ length: count }, (_, draw) => vectors[draw * prepared.quantities.length + 4]);
    };
    const { kits } = asked();
    const known = kits.map((kit, at) => (at === 0 ? { ...kit, sensitivity: value(0.9) } : kit));
    expect(sensitivityOf(known)).toEqual(sensitivityOf(kits));
  });

  it("gives every draw to one best algorithm, or to none", () => {
    const { values } = compute(algorithmsUncertain, asked(), { draws: 2000, seed: 9 });
    for (const [place, { chance }] of values.noneBest.entries()) {
      const shares = values.algorithms.map(({ at }) => at[place]?.best.value ?? 0);
      expectClose(
        shares.reduce((sum, share) => sum + share, chance.value ?? 0),
        1,
        { absolute: 1e-12 },
      );
      expect(shares.filter((share) => share > 0.01).length).toBeGreaterThan(0);
    }
  });

  it("finds the best as often as a uniform price says, by cost and by loss", () => {
    const kit = (id: string, sensitivity: number, price: ReturnType<typeof range>) => ({
      id,
      sensitivity: value(sensitivity),
      specificity: value(0.98),
      invalid: value(0),
      price,
    });
    const question = asked({
      kits: [kit("plain", 0.9, range(1, 1)), kit("fine", 0.99, range(0.5, 2.5))],
      algorithms: ["plain", "fine"].map((id) => ({ id, steps: presetSteps("single", [id]), retest: null })),
      prevalences: [{ label: "p", share: value(0.1) }],
      criteria: { minimumPpv: null, minimumNpv: null, mostInconclusive: null },
    });
    const losses = { missed: 100, falsePositive: 0, inconclusive: 0 };
    const fineBest = (input: typeof question) =>
      compute(algorithmsUncertain, input, { draws: 10_000 }).values.algorithms[1]?.at[0]?.best;
    // Cheaper below a price of 1: a quarter of 0.5 to 2.5. With the loss, below 1 + 100 × 0.1 × 0.09 = 1.9.
    const cheaper = fineBest(question);
    const worth = fineBest({ ...question, objective: "least_loss", losses });
    expectClose(cheaper?.value, 0.25, { absolute: 4 * (cheaper?.error ?? 0) }, "by cost");
    expectClose(worth?.value, 0.7, { absolute: 4 * (worth?.error ?? 0) }, "by loss");
  });

  it("covers the truth as often as it says, over simulated studies of a kit", () => {
    // True PPV of one kit at a known prevalence; studies of 300 diseased and 600 others give the counts.
    const truth = { sensitivity: 0.96, specificity: 0.97, prevalence: 0.1 };
    const ppv = 0.096 / (0.096 + 0.9 * 0.03);
    const uniform = randomStream(3);
    const successes = (chance: number, total: number) => {
      let sum = 0;
      for (let person = 0; person < total; person += 1) if (uniform() < chance) sum += 1;
      return sum;
    };
    const STUDIES = 300;
    let covered = 0;
    for (let study = 0; study < STUDIES; study += 1) {
      const kit = {
        id: "only",
        sensitivity: counts(successes(truth.sensitivity, 300), 300),
        specificity: counts(successes(truth.specificity, 600), 600),
        invalid: value(0),
        price: value(1),
      };
      const { values } = compute(
        algorithmsUncertain,
        asked({
          kits: [kit],
          algorithms: [{ id: "one", steps: presetSteps("single", ["only"]), retest: null }],
          prevalences: [{ label: "p", share: value(truth.prevalence) }],
        }),
        { draws: 400, seed: study },
      );
      const found = values.algorithms[0]?.at[0]?.ppv;
      if ((found?.lower ?? 1) <= ppv && ppv <= (found?.upper ?? 0)) covered += 1;
    }
    // 95 % nominal; four standard errors of 300 studies are 5 points, and 400 draws cost about one more.
    expect(covered / STUDIES).toBeGreaterThan(0.89);
    expect(covered / STUDIES).toBeLessThan(0.995);
  });

  it("says where draws are left out, cut, or taken as independent", () => {
    const never = {
      id: "never",
      sensitivity: value(0),
      specificity: value(1),
      invalid: value(0),
      price: value(1),
    };
    const blind = compute(
      algorithmsUncertain,
      asked({
        kits: [never],
        algorithms: [{ id: "one", steps: presetSteps("single", ["never"]), retest: null }],
      }),
      { draws: 100 },
    );
    expect(blind.values.algorithms[0]?.at[0]?.ppv.mean).toBeNull();
    expect(blind.values.algorithms[0]?.at[0]?.reaches.ppv?.value).toBe(0);
    expect(blind.notes.map(({ code }) => code)).toContain("undefined_draws");
    expect(blind.notes.map(({ code }) => code)).toContain("independence");
    const strong = {
      kind: "pairs" as const,
      pairs: [
        { first: "A", second: "B", diseased: 0, nondiseased: 0.45 },
        { first: "A", second: "C", diseased: 0, nondiseased: 0 },
      ],
    };
    const algorithms = asked().algorithms.slice(0, 1);
    const cut = compute(algorithmsUncertain, asked({ dependence: strong, algorithms }), { draws: 500 });
    expect(cut.notes.map(({ code }) => code)).toContain("dependence_cut");
    for (const found of [blind, cut]) {
      expect(faultsOf(found)).toEqual([]);
      expect(check(algorithmsUncertain.values, found.values)).toMatchObject({ ok: true });
    }
  });

  it("names what is wrong", () => {
    const path = (changes: Parameters<typeof asked>[0]) => {
      try {
        compute(algorithmsUncertain, asked(changes), { draws: 100 });
      } catch (error) {
        if (error instanceof InputError) return error.path.join(".");
        throw error;
      }
      return "no error";
    };
    const [first, ...others] = asked().kits;
    if (first === undefined) throw new Error("no kits");
    const kits = (changes: Partial<typeof first>) => [{ ...first, ...changes }, ...others];
    expect(path({ kits: kits({ sensitivity: counts(3, 2) }) })).toBe("input.kits.0.sensitivity.right");
    expect(path({ kits: kits({ price: { kind: "range", low: 3, high: 2 } }) })).toBe(
      "input.kits.0.price.low",
    );
    expect(path({ kits: kits({ id: "B" }) })).toBe("input.kits.1.id");
    expect(path({ objective: "least_loss" })).toBe("input.losses");
    const same = asked().algorithms.map((one) => ({ ...one, id: "same" }));
    expect(path({ algorithms: same })).toBe("input.algorithms.1.id");
    const lost = [{ id: "x", steps: presetSteps("single", ["Z"]), retest: null }];
    expect(path({ algorithms: lost })).toBe("input.algorithms.0.steps.0.kit");
    const pairs = [{ first: "A", second: "B", diseased: 0, nondiseased: 0.99 }];
    const algorithms = asked().algorithms.slice(0, 1);
    const pairFault = "input.dependence.pairs.0.nondiseased";
    expect(path({ algorithms, dependence: { kind: "pairs", pairs } })).toBe(pairFault);
    // The second pass repeats both kits, of which no pair is stated.
    const returning = asked().algorithms.slice(1, 2);
    expect(path({ algorithms: returning, dependence: PAIRS_OF_COUNTED })).toBe("input.dependence.pairs");
    // A with B and B with C all but tied, A against C: no three results can do that.
    const torn = [
      { first: "A", second: "B", diseased: 0, nondiseased: 0.4 },
      { first: "B", second: "C", diseased: 0, nondiseased: 0.8 },
      { first: "A", second: "C", diseased: 0, nondiseased: -0.003 },
    ];
    const three = asked().algorithms.slice(2);
    expect(path({ algorithms: three, dependence: { kind: "pairs", pairs: torn } })).toBe(
      "input.dependence.pairs",
    );
    const steps = Array.from({ length: 11 }, (_, at) => ({
      id: `step ${at}`,
      kit: "A",
      reactive: at < 10 ? `step ${at + 1}` : "positive",
      nonreactive: "negative",
      again: 0,
      invalid: "inconclusive",
    }));
    expect(path({ algorithms: [{ id: "endless", steps, retest: null }] })).toBe("input.algorithms.0");
  });
});
