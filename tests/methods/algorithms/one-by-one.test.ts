import type { InferInput } from "valibot";
import { describe, expect, it } from "vitest";
import { check } from "../../../src/core/check.ts";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { algorithmsOutcomes } from "../../../src/methods/algorithms/outcomes.ts";
import { presetSteps } from "../../../src/methods/algorithms/presets.ts";
import { algorithmsTornado } from "../../../src/methods/algorithms/tornado.ts";
import { algorithmsTwoWay } from "../../../src/methods/algorithms/two-way.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { asked, counts, PAIRS, range, value } from "./uncertain-cases.ts";

type TornadoAsked = InferInput<typeof algorithmsTornado.input>;
type TwoWayAsked = InferInput<typeof algorithmsTwoWay.input>;

const COMMON = {
  kits: asked().kits.slice(0, 3),
  steps: presetSteps("tie_breaker", ["A", "B", "C"]),
  retest: null,
  dependence: PAIRS,
  prevalence: range(0.02, 0.06),
  costs: { perPerson: range(1, 3), perInconclusive: value(25) },
};

/** PPV by `algorithms.outcomes` of kits known exactly. */
function ppvOf(
  kits: readonly { id: string; sensitivity: number; specificity: number }[],
  prevalence: number,
  phi: number,
) {
  const steps = presetSteps("consecutive_two", ["A", "B"]);
  const pairs = [{ first: "A", second: "B", diseased: 0, nondiseased: phi }];
  const known = kits.map((kit) => ({ ...kit, invalid: 0.01 }));
  const dependence = { kind: "pairs" as const, pairs };
  return compute(algorithmsOutcomes, {
    kits: known,
    steps,
    retest: null,
    dependence,
    prevalences: [prevalence],
  }).values.at[0]?.ppv;
}

describe("algorithms.tornado", () => {
  const tornado = (changes: Partial<TornadoAsked> = {}) =>
    compute(algorithmsTornado, { ...COMMON, outcome: "ppv", ...changes });

  it("has a bar for every uncertain input, the widest first", () => {
    const { bars } = tornado({ outcome: "cost" }).values;
    const names = bars.map(({ input }) => input).sort();
    const kits = ["A", "B", "C"].flatMap((id) =>
      ["invalid", "price", "sensitivity", "specificity"].map((quantity) => `${id} ${quantity}`),
    );
    expect(names).toEqual([...kits, "cost per person", "prevalence"].sort());
    const swings = bars.map(({ swing }) => swing ?? -1);
    expect(swings).toEqual([...swings].sort((one, other) => other - one));
    // Uniform from 1 to 3: its middle 95 % is 1.9 long, and a cost per person counts once.
    expectClose(bars.find(({ input }) => input === "cost per person")?.swing, 1.9, { relative: 1e-9 });
  });

  it("knows the directions: a PPV falls with fewer specific kits and with lower prevalence", () => {
    const { bars, centre } = tornado().values;
    for (const { input, atLow, atHigh } of bars) {
      if (!/specificity|prevalence/.test(input)) continue;
      expect(atLow ?? 1, input).toBeLessThan(centre ?? 0);
      expect(atHigh ?? 0, input).toBeGreaterThan(centre ?? 1);
    }
    expect(bars.filter(({ input }) => /price|cost/.test(input)).map(({ swing }) => swing)).toEqual([
      0, 0, 0, 0,
    ]);
  });

  it("has no bars where everything is known, and says where nobody ends so", () => {
    const blind = {
      id: "A",
      sensitivity: value(0),
      specificity: value(1),
      invalid: value(0),
      price: value(1),
    };
    const found = tornado({
      kits: [blind],
      steps: presetSteps("single", ["A"]),
      dependence: { kind: "independent" },
      prevalence: value(0.1),
      costs: { perPerson: value(0), perInconclusive: value(0) },
    });
    expect(found.values).toEqual({ centre: null, independent: null, bars: [] });
    expect(found.notes.map(({ code }) => code)).toEqual(["undefined_outcome"]);
    const plain = tornado();
    expect(faultsOf(plain)).toEqual([]);
    expect(check(algorithmsTornado.values, plain.values)).toMatchObject({ ok: true });
  });

  it("names a fault of the prevalence by its own path", () => {
    const wrong = () => tornado({ prevalence: counts(5, 4) });
    expect(wrong).toThrow(InputError);
    expect(wrong).toThrow("input.prevalence.right");
  });
});

describe("algorithms.two_way", () => {
  const KNOWN = [
    { id: "A", sensitivity: 0.97, specificity: 0.95 },
    { id: "B", sensitivity: 0.9, specificity: 0.98 },
  ];
  const base: Omit<TwoWayAsked, "first" | "second"> = {
    kits: KNOWN.map(({ id, sensitivity, specificity }) => ({
      id,
      sensitivity: value(sensitivity),
      specificity: value(specificity),
      invalid: value(0.01),
      price: value(1),
    })),
    steps: presetSteps("consecutive_two", ["A", "B"]),
    retest: null,
    dependence: { kind: "pairs", pairs: [{ first: "A", second: "B", diseased: 0, nondiseased: 0.1 }] },
    prevalence: value(0.05),
    costs: { perPerson: value(0), perInconclusive: value(0) },
    outcome: "ppv",
  };
  const grid = (
    first: TwoWayAsked["first"],
    second: TwoWayAsked["second"],
    changes: Partial<TwoWayAsked> = {},
  ) => compute(algorithmsTwoWay, { ...base, ...changes, first, second });

  it("gives in every cell what the exact outcome there is", () => {
    const specificities = [0.9, 0.99];
    const prevalences = [0.01, 0.1, 0.3];
    const { rows } = grid(
      { kind: "kit", kit: "B", quantity: "specificity", values: specificities },
      { kind: "prevalence", values: prevalences },
    ).values;
    for (const [row, specificity] of specificities.entries()) {
      for (const [column, prevalence] of prevalences.entries()) {
        const kits = KNOWN.map((kit) => (kit.id === "B" ? { ...kit, specificity } : kit));
        expectClose(rows[row]?.[column], ppvOf(kits, prevalence, 0.1) as number, { relative: 1e-12 });
      }
    }
  });

  it("moves the dependence, and leaves out what the kits do not allow", () => {
    const strengths = [0, 0.5, 1, 2, 9];
    const found = grid({ kind: "dependence", values: strengths }, { kind: "prevalence", values: [0.05] });
    for (const [row, strength] of strengths.slice(0, 4).entries()) {
      expectClose(found.values.rows[row]?.[0], ppvOf(KNOWN, 0.05, 0.1 * strength) as number, {
        relative: 1e-12,
      });
    }
    // Shares of .05 and .02 allow a phi of at most .02 × .95 / sqrt(.05 × .95 × .02 × .98) = .62.
    expect(found.values.rows[4]).toEqual([null]);
    expect(found.notes.map(({ code }) => code)).toEqual(["dependence_not_possible"]);
    expect(faultsOf(found)).toEqual([]);
  });

  it("weakens a shared effect to none", () => {
    const shared = {
      kind: "shared" as const,
      diseased: { spread: 0.7 },
      nondiseased: { spread: 0.7 },
      sameKit: { diseased: 0.2, nondiseased: 0.2 },
    };
    const { rows } = grid(
      { kind: "dependence", values: [0, 1] },
      { kind: "prevalence", values: [0.05] },
      { dependence: shared },
    ).values;
    expectClose(rows[0]?.[0], ppvOf(KNOWN, 0.05, 0) as number, { relative: 1e-9 });
    expect(rows[1]?.[0] ?? 1).toBeLessThan(rows[0]?.[0] ?? 0);
  });

  it("names what is wrong", () => {
    const prevalence = { kind: "prevalence" as const, values: [0.1] };
    const kit = (id: string, values: number[]) => ({
      kind: "kit" as const,
      kit: id,
      quantity: "sensitivity" as const,
      values,
    });
    const path = (run: () => unknown) => {
      try {
        run();
      } catch (error) {
        if (error instanceof InputError) return error.path.join(".");
        throw error;
      }
      return "no error";
    };
    expect(path(() => grid(prevalence, prevalence))).toBe("input.second");
    expect(path(() => grid(kit("Z", [0.5]), prevalence))).toBe("input.first.kit");
    expect(path(() => grid(prevalence, kit("A", [0.5, 1.5])))).toBe("input.second.values.1");
    const free = { dependence: { kind: "independent" as const } };
    expect(path(() => grid({ kind: "dependence", values: [0] }, prevalence, free))).toBe("input.first");
    expect(path(() => grid({ kind: "dependence", values: [11] }, prevalence))).toBe("input.dependence");
  });
});
