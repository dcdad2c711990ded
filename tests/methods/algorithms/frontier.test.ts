import { describe, expect, it } from "vitest";
import { check, demand } from "../../../src/core/check.ts";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { algorithmsFrontier } from "../../../src/methods/algorithms/frontier.ts";
import { frontierDraws, mergeFrontierDraws } from "../../../src/methods/algorithms/frontier-draws.ts";
import { FrontierInput } from "../../../src/methods/algorithms/frontier-input.ts";
import { algorithmsOutcomes } from "../../../src/methods/algorithms/outcomes.ts";
import { drawInto, quantileOf, quantitiesOf } from "../../../src/methods/algorithms/quantities.ts";
import { sensibleAlgorithms } from "../../../src/methods/algorithms/sensible-algorithms.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { countedKits, NO_LIMITS, PAIRS, searched, searchedKits, value } from "./uncertain-cases.ts";

type Asked = ReturnType<typeof searched>;
interface Measured {
  readonly id: string;
  readonly missed: number;
  readonly falsePositives: number;
  readonly cost: number;
  readonly ppv: number;
  readonly npv: number;
  readonly inconclusive: number;
}

/** Every algorithm at one prevalence by `algorithms.outcomes`, priced by hand: none of the search's own parts. */
function measured(asked: Asked, prevalence: number): Measured[] {
  const input = demand(FrontierInput, asked, "input");
  const centre = (spread: Parameters<typeof quantileOf>[0]["spread"]) =>
    quantileOf({ path: [], name: "", spread }, 0.5);
  const kits = input.kits.map((kit) => ({
    id: kit.id,
    sensitivity: centre(kit.sensitivity),
    specificity: centre(kit.specificity),
    invalid: centre(kit.invalid),
  }));
  const limits = { ...input.constraints, mostTests: input.mostTests };
  return sensibleAlgorithms(input.kits, input.dependence, 1, limits).map(({ id, steps }) => {
    const asks = { kits, steps, retest: null, dependence: input.dependence, prevalences: [prevalence] };
    const at = compute(algorithmsOutcomes, { ...asks, people: 1 }).values.at[0];
    const devices = at?.runs ?? [];
    const spent = devices.reduce((sum, { perPerson }, kit) => {
      return sum + (perPerson ?? 0) * centre(input.kits[kit]?.price ?? value(0));
    }, 0);
    const inconclusive = at?.perPeople.inconclusive ?? 0;
    return {
      id,
      missed: at?.perPeople.missed ?? 0,
      falsePositives: at?.perPeople.falsePositives ?? 0,
      cost: centre(input.costs.perPerson) + spent + inconclusive * centre(input.costs.perInconclusive),
      ppv: at?.ppv ?? 0,
      npv: at?.npv ?? 0,
      inconclusive,
    };
  });
}

/** Smaller differences are rounding: of the missed among the diseased, of the falsely positive among the others. */
const SAME = 1e-12;

/** No worse in all three and better in one, beyond rounding. */
function beats(one: Measured, other: Measured, prevalence: number): boolean {
  const slack = {
    missed: SAME * prevalence,
    falsePositives: SAME * (1 - prevalence),
    cost: SAME * other.cost,
  };
  const parts = ["missed", "falsePositives", "cost"] as const;
  return (
    parts.every((part) => other[part] - one[part] >= -slack[part]) &&
    parts.some((part) => other[part] - one[part] > slack[part])
  );
}

/** The cheapest that keeps the limits; of equal costs the one that misses fewer, then the fewer false positives. */
function cheapest(all: readonly Measured[], { constraints }: Asked): string | null {
  const kept = all.filter(
    ({ ppv, npv, inconclusive }) =>
      ppv >= (constraints.minimumPpv ?? 0) &&
      npv >= (constraints.minimumNpv ?? 0) &&
      inconclusive <= (constraints.mostInconclusive ?? 1),
  );
  const order = (one: Measured, other: Measured) => {
    for (const part of ["cost", "missed", "falsePositives"] as const) {
      if (Math.abs(one[part] - other[part]) > 1e-13) return one[part] - other[part];
    }
    return 0;
  };
  return [...kept].sort(order)[0]?.id ?? null;
}

/** The same draws, each made known and measured by `algorithms.outcomes`, every pair compared. */
function byHand(asked: Asked, draws: number, seed: number) {
  const input = demand(FrontierInput, asked, "input");
  const quantities = quantitiesOf({ ...input, prevalences: [] });
  const vector = new Float64Array(quantities.length);
  const tallies = input.prevalences.map(() => ({ counts: new Map<string, [number, number]>(), none: 0 }));
  for (let draw = 0; draw < draws; draw += 1) {
    drawInto(vector, quantities, seed, draw);
    const known = (at: number) => value(vector[at] as number);
    const kits = asked.kits.map((kit, at) => ({
      ...kit,
      sensitivity: known(4 * at),
      specificity: known(4 * at + 1),
      invalid: known(4 * at + 2),
      price: known(4 * at + 3),
    }));
    for (const [place, tally] of tallies.entries()) {
      const prevalence = input.prevalences[place] as number;
      const all = measured({ ...asked, kits }, prevalence);
      const best = cheapest(all, asked);
      if (best === null) tally.none += 1;
      for (const own of all) {
        const left = all.some((other) => beats(other, own, prevalence)) ? 0 : 1;
        const chosen = own.id === best ? 1 : 0;
        const [before, bestBefore] = tally.counts.get(own.id) ?? [0, 0];
        tally.counts.set(own.id, [before + left, bestBefore + chosen]);
      }
    }
  }
  return tallies.map(({ counts, none }) => {
    const seen = [...counts].filter(([, [left, chosen]]) => left + chosen > 0);
    const shares = seen.map(([id, [left, chosen]]) => [id, [left / draws, chosen / draws]] as const);
    return { shares: Object.fromEntries(shares), none: none / draws };
  });
}

const QUESTIONS: readonly [string, Asked][] = [
  ["kits whose errors go together", searched()],
  [
    "independent kits, three limits",
    searched({
      dependence: { kind: "independent" },
      constraints: { ...NO_LIMITS, minimumPpv: 0.95, minimumNpv: 0.999, mostInconclusive: 0.02 },
    }),
  ],
  ["kits known by counts, two tests", searched({ kits: countedKits, mostTests: 2 })],
];

describe("algorithms.frontier", () => {
  it.each(QUESTIONS)("holds for every pair of algorithms: %s", (_, asked) => {
    const { values } = compute(algorithmsFrontier, asked);
    for (const { prevalence, notBeaten, best } of values.at) {
      const all = measured(asked, prevalence);
      const left = all.filter((own) => !all.some((other) => beats(other, own, prevalence)));
      expect(notBeaten.map(({ algorithm }) => algorithm)).toEqual(left.map(({ id }) => id));
      expect(best).toBe(cheapest(all, asked));
      for (const [at, own] of left.entries()) {
        for (const part of ["missed", "falsePositives"] as const) {
          const close = { relative: 1e-9, absolute: 1e-8 };
          expectClose(notBeaten[at]?.[part], own[part] * 100_000, close, `${own.id} ${part}`);
        }
        expectClose(notBeaten[at]?.cost, own.cost, { relative: 1e-10 }, `${own.id} cost`);
      }
    }
  });

  it("finds by closed form the switches that bisection finds", () => {
    const [lowest, highest] = [0.001, 0.5];
    const asked = searched({ mostTests: 2, prevalences: [lowest, highest] });
    const bestAt = (prevalence: number) => cheapest(measured(asked, prevalence), asked);
    const found: { prevalence: number; from: string | null; to: string | null }[] = [];
    const search = (low: number, from: string | null, high: number, to: string | null) => {
      const middle = (low + high) / 2;
      if (high - low < 1e-9) {
        if (from !== to) found.push({ prevalence: middle, from, to });
        return;
      }
      const between = bestAt(middle);
      if (from !== between || high - low > 0.02) search(low, from, middle, between);
      if (between !== to || high - low > 0.02) search(middle, between, high, to);
    };
    search(lowest, bestAt(lowest), highest, bestAt(highest));
    const { switches } = compute(algorithmsFrontier, asked).values;
    expect(switches.length).toBeGreaterThan(1);
    expect(switches.map(({ from, to }) => [from, to])).toEqual(found.map(({ from, to }) => [from, to]));
    for (const [at, { prevalence }] of switches.entries()) {
      expectClose(prevalence, found[at]?.prevalence ?? 0, { absolute: 2e-9 }, `switch ${at}`);
    }
  });

  it("searches every choice and order, each once", () => {
    const sizes = (kits: number, mostTests: number) =>
      sensibleAlgorithms(searchedKits.slice(0, kits), { kind: "independent" }, 1, { ...NO_LIMITS, mostTests })
        .length;
    // Orders of 2 of k: k (k - 1), of 3: k (k - 1) (k - 2); half where two are run together.
    const expected = (k: number, most: number) =>
      k + (most > 1 ? 2.5 * k * (k - 1) : 0) + (most > 2 ? 2.5 * k * (k - 1) * (k - 2) : 0);
    for (const kits of [1, 2, 3, 4]) {
      for (const most of [1, 2, 3]) expect(sizes(kits, most), `${kits} kits`).toBe(expected(kits, most));
    }
    const all = sensibleAlgorithms(searchedKits, PAIRS, 1, { ...NO_LIMITS, mostTests: 3 });
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
  });

  it("repeats a kit only where its repeat is stated", () => {
    const two = searchedKits.slice(0, 2);
    const limits = { ...NO_LIMITS, mostTests: 2 };
    const ids = (dependence: Parameters<typeof sensibleAlgorithms>[1]) =>
      sensibleAlgorithms(two, dependence, 1, limits).map(({ id }) => id);
    const stated = {
      kind: "pairs" as const,
      pairs: [{ first: "B", second: "B", diseased: 0.3, nondiseased: 0.5 }],
    };
    const repeated = ids(stated).filter((id) => !ids({ kind: "independent" }).includes(id));
    expect(repeated).toEqual(["serial_confirm: B, B", "parallel: B, B", "consecutive_two: B, B"]);
    const spread = { diseased: { spread: 0.5 }, nondiseased: { spread: 0.5 } };
    expect(ids({ kind: "shared", ...spread })).toEqual(ids({ kind: "independent" }));
    const own = { kind: "shared" as const, ...spread, sameKit: { diseased: 0.3, nondiseased: 0.3 } };
    expect(ids(own).filter((id) => id.includes("A, A"))).toHaveLength(3);
  });

  it("keeps to the time allowed and to different groups", () => {
    const { algorithms } = compute(
      algorithmsFrontier,
      searched({ constraints: { ...NO_LIMITS, mostMinutes: 35, differentGroups: true } }),
    ).values;
    const group = (id: string) => searchedKits.find((kit) => kit.id === id)?.group;
    expect(algorithms.length).toBeGreaterThan(4);
    for (const { kits, minutes } of algorithms) {
      expect(minutes).toBeLessThanOrEqual(35);
      expect(new Set(kits.map(group)).size).toBe(kits.length);
    }
    // A and C at once take 15 minutes, one after the other 30.
    const minutesOf = (id: string) => algorithms.find((one) => one.id === id)?.minutes;
    expect(minutesOf("parallel: A, C")).toBe(15);
    expect(minutesOf("serial_confirm: A, C")).toBe(30);
  });

  it("tallies the same however the draws are split", () => {
    const input = demand(FrontierInput, searched({ kits: countedKits, mostTests: 2 }), "input");
    const whole = frontierDraws(input, 4, 0, 400);
    const parts = mergeFrontierDraws([
      frontierDraws(input, 4, 130, 270),
      frontierDraws(input, 4, 0, 1),
      frontierDraws(input, 4, 1, 129),
    ]);
    expect(parts).toEqual(whole);
    expect(frontierDraws(input, 5, 0, 400)).not.toEqual(whole);
  });

  it("agrees draw by draw with comparing every pair", () => {
    // Some draws do not allow the correlations of the pairs: algorithms.outcomes would refuse them.
    const input = searched({
      kits: countedKits,
      dependence: { kind: "independent" },
      mostTests: 2,
      prevalences: [0.004, 0.05, 0.3],
    });
    const { drawn } = compute(algorithmsFrontier, input, { draws: 100, seed: 8 }).values;
    const counted = byHand(input, 100, 8);
    for (const [place, { algorithms, none }] of (drawn?.at ?? []).entries()) {
      const found = Object.fromEntries(algorithms.map((one) => [one.algorithm, [one.notBeaten, one.best]]));
      expect(found).toEqual(counted[place]?.shares);
      expect(none).toBe(counted[place]?.none);
    }
  });

  it("gives the centre's answer in every draw where nothing is uncertain", () => {
    const { at, drawn } = compute(algorithmsFrontier, searched(), { draws: 100 }).values;
    for (const [place, { best, notBeaten }] of at.entries()) {
      const shares = drawn?.at[place];
      const sure = shares?.algorithms.filter((one) => one.notBeaten === 1).map(({ algorithm }) => algorithm);
      expect(sure).toEqual(notBeaten.map(({ algorithm }) => algorithm));
      expect(shares?.algorithms.find((one) => one.best === 1)?.algorithm ?? null).toBe(best);
    }
  });

  it("counts inconclusive diseased as missed where asked to", () => {
    const apart = compute(algorithmsFrontier, searched()).values;
    const missed = compute(algorithmsFrontier, searched({ inconclusiveDiseased: "missed" })).values;
    const single = (values: typeof apart) =>
      values.at[5]?.notBeaten.find(({ algorithm }) => algorithm === "single: A");
    // 0.2 × 0.01² are diseased with two invalid runs.
    expectClose((single(missed)?.missed ?? 0) - (single(apart)?.missed ?? 0), 2, { relative: 1e-9 });
  });

  it("names what is wrong, and gives plain values", () => {
    const path = (changes: Partial<Asked>) => {
      try {
        compute(algorithmsFrontier, searched(changes));
      } catch (error) {
        if (error instanceof InputError) return error.path.join(".");
        throw error;
      }
      return "no error";
    };
    expect(path({ prevalences: [0.1, 0.1] })).toBe("input.prevalences.1");
    expect(path({ prevalences: [0] })).toBe("input.prevalences.0");
    expect(path({ kits: countedKits, constraints: { ...NO_LIMITS, differentGroups: true } })).toBe(
      "input.kits.0.group",
    );
    expect(path({ constraints: { ...NO_LIMITS, mostMinutes: 1 } })).toBe("input.constraints");
    const found = compute(algorithmsFrontier, searched({ kits: countedKits }), { draws: 100 });
    expect(faultsOf(found)).toEqual([]);
    expect(check(algorithmsFrontier.values, found.values)).toMatchObject({ ok: true });
  });
});
