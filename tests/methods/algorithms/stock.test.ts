import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import {
  approximateMoreThan,
  exactMoreThan,
  type MoreThan,
  momentsOf,
  type RunsPerPerson,
} from "../../../src/methods/algorithms/runs-needed.ts";
import { stock } from "../../../src/methods/algorithms/stock.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const SOME: readonly RunsPerPerson[] = [
  { runs: 0, probability: 0.6 },
  { runs: 1, probability: 0.25 },
  { runs: 2, probability: 0.1 },
  { runs: 5, probability: 0.05 },
];

/** P(more than `runs`), by every sequence of people. */
function byEverySequence(perPerson: readonly RunsPerPerson[], people: number, runs: number): number {
  if (people === 0) return runs < 0 ? 1 : 0;
  return perPerson.reduce(
    (sum, one) => sum + one.probability * byEverySequence(perPerson, people - 1, runs - one.runs),
    0,
  );
}

function fewest(moreThan: MoreThan, risk: number, most: number): number {
  let runs = 0;
  while (runs < most && moreThan(runs) > risk) runs += 1;
  return runs;
}

const asked = (clients: number, perPerson: readonly RunsPerPerson[] = SOME) => ({
  clients,
  situations: [{ weight: 1, perPerson: [...perPerson] }],
  waste: 0.05,
  packSize: 20,
});

describe("stock", () => {
  it.each([
    [SOME, 6],
    [
      [
        { runs: 1, probability: 0.5 },
        { runs: 4, probability: 0.3 },
        { runs: 7, probability: 0.2 },
      ],
      7,
    ],
    [[{ runs: 2, probability: 1 }], 5],
  ] as const)("is what every sequence of people adds up to", (perPerson, people) => {
    const exact = exactMoreThan(perPerson, momentsOf(perPerson), people);
    for (let runs = -1; runs <= 50; runs += 1) {
      const expected = byEverySequence(perPerson, people, runs);
      expectClose(exact(runs), expected, { relative: 1e-11, absolute: 1e-15 }, `${runs}`);
    }
  });

  it("mixes situations by their weights, whatever they add up to", () => {
    const rare = [
      { runs: 0, probability: 0.9 },
      { runs: 1, probability: 0.1 },
    ];
    const input = {
      ...asked(6),
      situations: [
        { weight: 3, perPerson: [...SOME] },
        { weight: 1, perPerson: rare },
      ],
    };
    const { values } = compute(stock, input, { stockOutRisk: 0.1 });
    const mixed = (runs: number) =>
      0.75 * byEverySequence(SOME, 6, runs) + 0.25 * byEverySequence(rare, 6, runs);
    expect(values.ordered.runs).toBe(fewest(mixed, 0.1, 30));
    expectClose(values.ordered.runsOut, mixed(values.ordered.runs ?? -1), { relative: 1e-11 });
    const mean = 6 * (0.75 * 0.7 + 0.25 * 0.1);
    expectClose(values.mean, mean, { relative: 1e-12 });
    let square = 0;
    for (let runs = 0; runs <= 30; runs += 1) square += (mixed(runs - 1) - mixed(runs)) * (runs - mean) ** 2;
    expectClose((values.standardDeviation ?? 0) ** 2, square, { relative: 1e-11 });
  });

  it("runs out as often as it says when people are drawn one by one", () => {
    const { ordered } = compute(stock, asked(200)).values;
    const random = randomStream(31);
    const programmes = 20_000;
    let out = 0;
    for (let programme = 0; programme < programmes; programme += 1) {
      let used = 0;
      for (let person = 0; person < 200; person += 1) {
        const at = random();
        used += at < 0.6 ? 0 : at < 0.85 ? 1 : at < 0.95 ? 2 : 5;
      }
      if (used > (ordered.runs ?? 0)) out += 1;
    }
    const risk = ordered.runsOut ?? -1;
    expectClose(out / programmes, risk, { absolute: 4.5 * Math.sqrt((risk * (1 - risk)) / programmes) });
  });

  // Measured: from 20,000 people on the tails differ by less than 1e-4, and no order by a single device.
  it.each([
    [2000, 0.01, 2e-3, 3],
    [2000, 0.3, 1e-4, 1],
    [20_000, 0.01, 1e-4, 0],
    [20_000, 0.3, 1e-5, 0],
    [200_000, 0.05, 1e-5, 0],
  ] as const)(
    "by four moments is near the exact one: %i people, %d tested again",
    (people, share, off, devices) => {
      const perPerson = [
        { runs: 0, probability: 1 - share },
        { runs: 1, probability: share * 0.8 },
        { runs: 2, probability: share * 0.15 },
        { runs: 3, probability: share * 0.05 },
      ];
      const moments = momentsOf(perPerson);
      const exact = exactMoreThan(perPerson, moments, people);
      const near = approximateMoreThan(moments, people);
      const middle = Math.round(people * moments.mean);
      const reach = Math.ceil(5 * Math.sqrt(people * moments.variance));
      for (let runs = Math.max(0, middle - reach); runs <= middle + reach; runs += 1) {
        expectClose(near(runs), exact(runs), { absolute: off }, `${runs}`);
      }
      for (const risk of [0.5, 0.1, 0.05, 0.01, 0.001]) {
        const from = (moreThan: MoreThan) =>
          fewest((runs) => moreThan(runs + middle - reach), risk, 2 * reach);
        expect(Math.abs(from(near) - from(exact))).toBeLessThanOrEqual(devices);
      }
    },
  );

  // Measured: 1.01e-5. With single devices as steps it would be off by 1e-3.
  it("keeps to the steps that the devices make", () => {
    const pairs = [
      { runs: 1, probability: 0.4 },
      { runs: 3, probability: 0.6 },
    ];
    const moments = momentsOf(pairs);
    const [exact, near] = [exactMoreThan(pairs, moments, 5000), approximateMoreThan(moments, 5000)];
    for (let runs = 10_800; runs <= 11_200; runs += 1)
      expectClose(near(runs), exact(runs), { absolute: 2e-5 });
    expect(exact(10_999)).toBe(exact(10_998));
  });

  it("says which way it went, and answers at once for a hundred million people", () => {
    const found = compute(stock, asked(100_000_000));
    expect(found.values.method).toBe("cornish_fisher");
    expect(found.notes.map(({ code }) => code)).toContain("approximate");
    expect(faultsOf(found)).toEqual([]);
    expectClose(found.values.ordered.runsOut, 0.05, { relative: 1e-3 });
  });

  it("takes nothing skewed from its moments, however many situations", () => {
    const situations = Array.from({ length: 1001 }, (_, place) => ({
      weight: 1,
      perPerson: [
        { runs: 0, probability: 0.98 - place * 1e-6 },
        { runs: 40, probability: 0.02 + place * 1e-6 },
        { runs: 3, probability: 0 },
      ],
    }));
    const many = compute(stock, { ...asked(400), situations }).values;
    const one = compute(stock, { ...asked(400), situations: situations.slice(500, 501) }).values;
    expect([many.method, one.method]).toEqual(["exact", "exact"]);
    expectClose(many.ordered.runsOut, one.ordered.runsOut ?? -1, { relative: 0.01 });
  });

  it("is exact enough at the most skewed sum that is left to its moments", () => {
    const perPerson = [
      { runs: 0, probability: 0.9 },
      { runs: 1, probability: 0.1 },
    ];
    // A binomial share of .1 has a skewness of .8 / .3: at 2,845 people that of the sum is .05.
    const people = 2845;
    const [exact, near] = [
      exactMoreThan(perPerson, momentsOf(perPerson), people),
      approximateMoreThan(momentsOf(perPerson), people),
    ];
    for (let runs = 200; runs <= 400; runs += 1)
      expectClose(near(runs), exact(runs), { absolute: 1e-4 }, `${runs}`);
    for (const risk of [0.2, 0.05, 0.01, 0.001])
      expect(fewest(near, risk, 500)).toBe(fewest(exact, risk, 500));
  });

  it("orders more for less risk, more waste and more people, and whole packs", () => {
    const share = fc.double({ min: 0.01, max: 0.99, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), share, share, share, (clients, again, risk, waste) => {
        const perPerson = [
          { runs: 1, probability: 1 - again },
          { runs: 2, probability: again },
        ];
        const input = { ...asked(clients, perPerson), waste };
        const { ordered, mean } = compute(stock, input, { stockOutRisk: risk }).values;
        const safer = compute(stock, input, { stockOutRisk: risk / 2 }).values.ordered;
        const more = compute(stock, { ...input, clients: clients + 1 }, { stockOutRisk: risk }).values
          .ordered;
        const runs = ordered.runs ?? Number.NaN;
        expect(ordered.runsOut).toBeLessThanOrEqual(risk * (1 + 1e-9));
        expect(runs).toBeLessThanOrEqual(safer.runs ?? Number.NaN);
        expect(runs).toBeLessThan(more.runs ?? Number.NaN);
        expect((ordered.kits ?? 0) * (1 - waste)).toBeGreaterThanOrEqual(runs * (1 - 1e-8));
        expect(((ordered.kits ?? 0) - 1) * (1 - waste)).toBeLessThan(runs);
        expect(ordered.packs).toBe(Math.ceil((ordered.kits ?? 0) / 20));
        expectClose(mean, clients * (1 + again), { relative: 1e-12 });
      }),
      { numRuns: 60 },
    );
  });

  it("needs nothing where nobody uses a device, and exactly so many where everybody uses two", () => {
    const none = compute(stock, asked(500, [{ runs: 0, probability: 1 }]));
    expect(none.values.ordered).toEqual({ runs: 0, kits: 0, packs: 0, runsOut: 0 });
    const two = compute(stock, { ...asked(97, [{ runs: 2, probability: 1 }]), waste: 0.03 });
    // 194 / .97 = 200 without a remainder: no device more.
    expect(two.values.ordered).toEqual({ runs: 194, kits: 200, packs: 10, runsOut: 0 });
    expect(two.values.orderedByMean).toEqual(two.values.ordered);
  });

  it.each([
    [{ ...asked(10), waste: 1 }, "input.waste"],
    [{ ...asked(10), packSize: 0 }, "input.packSize"],
    [asked(0), "input.clients"],
    [asked(10, [{ runs: 1, probability: 0.9 }]), "input.situations.0.perPerson"],
    [
      asked(10, [
        { runs: 1, probability: 0.5 },
        { runs: 1, probability: 0.5 },
      ]),
      "input.situations.0.perPerson",
    ],
    [{ ...asked(10), situations: [] }, "input.situations"],
  ])("refuses what makes no sense: %#", (input, path) => {
    expect(() => compute(stock, input)).toThrow(InputError);
    expect(() => compute(stock, input)).toThrow(`${path}: `);
  });
});
