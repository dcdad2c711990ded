import { describe, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import type { Kit, Retest, Step, Truth } from "../../../src/methods/algorithms/model.ts";
import { algorithmsOutcomes, type OutcomesInput } from "../../../src/methods/algorithms/outcomes.ts";
import { presetSteps } from "../../../src/methods/algorithms/presets.ts";
import { expectClose } from "../../tolerance.ts";
import { byPeople, type PersonResults } from "./by-people.ts";

/** Every exact result against simulated people; the draws are seeded, 4.5 standard errors are allowed. */
const PEOPLE = 60_000;
const ERRORS = 4.5;

/** The standard normal at 1, 1.5 and 2, by any printed table: the thresholds are then known without one. */
const AT_1 = 0.841344746068543;
const AT_15 = 0.933192798731142;
const AT_2 = 0.977249868051821;
const A: Kit = { id: "A", sensitivity: AT_2, specificity: AT_15, invalid: 0.05 };
const B: Kit = { id: "B", sensitivity: AT_15, specificity: AT_2, invalid: 0.1 };
const C: Kit = { id: "C", sensitivity: AT_1, specificity: AT_2, invalid: 0.02 };
const THRESHOLDS: Readonly<Record<string, Readonly<Record<Truth, number>>>> = {
  A: { diseased: 2, nondiseased: -1.5 },
  B: { diseased: 1.5, nondiseased: -2 },
  C: { diseased: 1, nondiseased: -2 },
};

type Person = (truth: Truth) => (uniform: () => number, normal: () => number) => PersonResults;
interface Case {
  readonly name: string;
  readonly kits: Kit[];
  readonly steps: Step[];
  readonly retest: Retest;
  readonly dependence: OutcomesInput["dependence"];
  readonly person: Person;
}

const reactiveShare = ({ sensitivity, specificity }: Kit, truth: Truth) =>
  truth === "diseased" ? sensitivity : 1 - specificity;

const alone =
  (kits: readonly Kit[]): Person =>
  (truth) =>
  (uniform) =>
  (id) =>
    uniform() < reactiveShare(kits.find((kit) => kit.id === id) as Kit, truth);

/** The second of two different kits by its share given the first result. */
const givenFirst =
  (phi: Readonly<Record<Truth, number>>): Person =>
  (truth) =>
  (uniform) => {
    let first: { share: number; reactive: boolean } | null = null;
    return (id) => {
      const share = reactiveShare(id === "A" ? A : B, truth);
      let chance = share;
      if (first !== null) {
        const shift = phi[truth] * Math.sqrt((share * (1 - share)) / (first.share * (1 - first.share)));
        chance = share + shift * (first.reactive ? 1 - first.share : -first.share);
      }
      const reactive = uniform() < chance;
      first ??= { share, reactive };
      return reactive;
    };
  };

/** One effect per person, and one per kit in a person, on the probit scale. */
const shared =
  (
    spread: Readonly<Record<Truth, number>>,
    loadings: Readonly<Record<string, number>>,
    own: Readonly<Record<Truth, number>>,
  ): Person =>
  (truth) =>
  (_, normal) => {
    const effect = normal();
    const ofKit = new Map<string, number>();
    return (id) => {
      const common = (loadings[id] ?? 1) * spread[truth];
      const mine = ofKit.get(id) ?? normal();
      ofKit.set(id, mine);
      const threshold = THRESHOLDS[id]?.[truth] ?? Number.NaN;
      const level = threshold * Math.sqrt(1 + common ** 2 + own[truth] ** 2);
      return normal() < level + common * effect + own[truth] * mine;
    };
  };

/** A coin: two thresholds at 0 with correlation r agree reactive in 1/4 + asin(r) / (2 pi), so phi = 2 asin(r) / pi. */
const coin = (phi: number): Person => {
  const correlation = Math.sin((phi * Math.PI) / 2);
  return () => (_, normal) => {
    const effect = Math.sqrt(correlation) * normal();
    return () => effect + Math.sqrt(1 - correlation) * normal() > 0;
  };
};

const both = (diseased: number, nondiseased: number) => ({ diseased, nondiseased });
const majority = presetSteps("tie_breaker", ["A", "B", "C"], { again: 1 });
const twoInARow = presetSteps("consecutive_two", ["A", "B"], { again: 2 });
const COIN: Kit = { id: "A", sensitivity: 0.5, specificity: 0.5, invalid: 0.1 };
const CASES: readonly Case[] = [
  {
    name: "majority, independent, 40 % return",
    kits: [A, B, C],
    steps: majority,
    retest: { share: 0.4 },
    dependence: { kind: "independent" },
    person: alone([A, B, C]),
  },
  {
    name: "either of two reactive, independent, no repeat of invalid runs",
    kits: [A, B],
    steps: presetSteps("parallel", ["A", "B"], { again: 0 }),
    retest: null,
    dependence: { kind: "independent" },
    person: alone([A, B]),
  },
  {
    name: "two in a row, phi stated",
    kits: [A, B],
    steps: twoInARow,
    retest: null,
    dependence: { kind: "pairs", pairs: [{ first: "A", second: "B", ...both(0.3, 0.25) }] },
    person: givenFirst(both(0.3, 0.25)),
  },
  {
    name: "three in a row, shared effect with loadings, 62 % return",
    kits: [A, B, C],
    steps: presetSteps("consecutive_three", ["A", "B", "C"]),
    retest: { share: 0.62 },
    dependence: {
      kind: "shared",
      ...{ diseased: { spread: 0.8 }, nondiseased: { spread: 1.2 } },
      loadings: { B: 0.7, C: 0.4 },
    },
    person: shared(both(0.8, 1.2), { B: 0.7, C: 0.4 }, both(0, 0)),
  },
  {
    name: "two in a row, shared effects of people and of each kit, 62 % return",
    kits: [A, B],
    steps: twoInARow,
    retest: { share: 0.62 },
    dependence: {
      kind: "shared",
      ...{ diseased: { spread: 0.6 }, nondiseased: { spread: 0.9 } },
      sameKit: both(0.7, 0.8),
    },
    person: shared(both(0.6, 0.9), {}, both(0.7, 0.8)),
  },
  {
    name: "a kit no better than a coin, twice, phi .4 of its repeats, half return",
    kits: [COIN],
    steps: presetSteps("consecutive_two", ["A", "A"], { again: 1 }),
    retest: { share: 0.5 },
    dependence: { kind: "pairs", pairs: [{ first: "A", second: "A", ...both(0.4, 0.4) }] },
    person: coin(0.4),
  },
];

describe.each(CASES)("$name", ({ kits, steps, retest, dependence, person }) => {
  it.each(["diseased", "nondiseased"] as const)("the %s end as simulated people do", (truth) => {
    const input = { kits, steps, retest, dependence, prevalences: [0.1] };
    const exact = compute(algorithmsOutcomes, input).values.byTruth[truth];
    const { ends, means } = byPeople({ kits, steps, retest }, person(truth), PEOPLE, 20_260);
    for (const end of ["positive", "negative", "inconclusive", "lost"] as const) {
      const expected = exact[end] ?? Number.NaN;
      const error = Math.sqrt((expected * (1 - expected)) / PEOPLE);
      expectClose((ends[end] ?? 0) / PEOPLE, expected, { absolute: ERRORS * error + 1e-12 }, end);
    }
    for (const { kit, mean } of exact.runs) {
      const found = means[kit] ?? { mean: Number.NaN, error: 0 };
      expectClose(mean, found.mean, { absolute: ERRORS * found.error + 1e-12 }, `devices of ${kit}`);
    }
  });
});
