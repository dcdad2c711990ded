import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { planningEffort } from "../../../src/methods/planning/effort.ts";
import { expectClose } from "../../tolerance.ts";

const sites = [
  { label: "clinic", perDay: 1.5, opensAfterDays: 4 },
  { label: "ward", perDay: 0.6 },
  { label: "outreach", perDay: 3, opensAfterDays: 15 },
];

/** One recruitment: at each site the gaps between people are exponential; the earliest people make the total. */
function simulate(total: number, uniform: () => number): { days: number; people: number[] } {
  const arrivals = sites.flatMap(({ perDay, opensAfterDays = 0 }, site) => {
    let day = opensAfterDays;
    return Array.from({ length: total }, () => {
      day -= Math.log(1 - uniform()) / perDay;
      return { day, site };
    });
  });
  const first = arrivals.sort((a, b) => a.day - b.day).slice(0, total);
  const people = sites.map((_, site) => first.filter((one) => one.site === site).length);
  return { days: first[total - 1]?.day ?? -1, people };
}

describe("planning.effort", () => {
  it("agrees with simulated recruitments", () => {
    const TOTAL = 50;
    const STUDIES = 4000;
    const { days, bySite } = compute(
      planningEffort,
      { total: TOTAL, sites },
      { assurances: [0.1, 0.5, 0.9] },
    ).values;
    const uniform = randomStream(7);
    const studies = Array.from({ length: STUDIES }, () => simulate(TOTAL, uniform));
    const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const within = (values: readonly number[], expected: number | null, what: string) => {
      const centre = mean(values);
      const error = Math.sqrt(mean(values.map((value) => (value - centre) ** 2)) / STUDIES);
      // Four standard errors of the simulation.
      expectClose(expected, centre, { absolute: 4 * error }, what);
    };
    within(
      studies.map((study) => study.days),
      days.expected,
      "days",
    );
    for (const [at, { people, label }] of bySite.entries()) {
      within(
        studies.map((study) => study.people[at] as number),
        people,
        label,
      );
    }
    for (const { assurance, days: by } of days.atAssurances) {
      const done = studies.map((study) => (study.days <= (by ?? -1) ? 1 : 0));
      within(done, assurance, `finished by ${assurance}`);
    }
  });

  it("shares the total out among the sites, whatever they are", () => {
    for (const total of [1, 30, 5000]) {
      const { bySite } = compute(planningEffort, { total, sites }).values;
      expectClose(
        bySite.reduce((sum, { people }) => sum + (people ?? 0), 0),
        total,
        { relative: 1e-12 },
      );
    }
  });

  it("counts the days before the first site opens, and starts there", () => {
    const late = sites.map((site) => ({ ...site, opensAfterDays: (site.opensAfterDays ?? 0) + 10 }));
    const [soon, later] = [sites, late].map(
      (each) => compute(planningEffort, { total: 40, sites: each }).values,
    );
    expectClose(later?.days.expected, (soon?.days.expected ?? 0) + 10, { relative: 1e-12 });
    for (const [at, { days }] of (later?.days.atAssurances ?? []).entries()) {
      expectClose(days, (soon?.days.atAssurances[at]?.days ?? 0) + 10, { relative: 1e-12 });
    }
    expectClose(later?.bySite[2]?.people, soon?.bySite[2]?.people as number, { relative: 1e-10 });
  });

  it("adds the cost up from its parts, and sends no kits to a site that opens too late", () => {
    const costs = { fixed: 100, perSite: 10, perDay: 7, perPerson: 3, perKit: 2, perReference: 5 };
    const input = {
      total: 90,
      sites: [
        { label: "open", perDay: 9 },
        { label: "too late", perDay: 9, opensAfterDays: 1000 },
      ],
      costs,
      kitsPerPerson: 2,
      spareKits: 0.05,
    };
    const { values } = compute(planningEffort, input);
    // By hand: 10 days, 90 × 2 × 1.05 = 189 kits, all at the first site.
    expect(values.bySite.map(({ kits }) => kits)).toEqual([189, 0]);
    expect(values.kits).toBe(189);
    const { total, ...parts } = values.cost;
    const byHand = { fixed: 100, sites: 20, days: 70, people: 270, kits: 378, references: 450 };
    for (const [part, money] of Object.entries(byHand)) {
      expectClose(parts[part as keyof typeof parts], money, { relative: 1e-12 }, part);
    }
    expectClose(total, 1288, { relative: 1e-12 });
    const longer = values.days.atAssurances[1];
    expectClose(longer?.cost, 1288 + 7 * ((longer?.days ?? 0) - 10), { relative: 1e-12 });
  });

  it("refuses wrong arguments by name", () => {
    const at = (given: object) => () => compute(planningEffort, { total: 5, sites, ...given });
    expect(at({ total: 0 })).toThrow(/input.total/);
    expect(at({ sites: [] })).toThrow(/input.sites/);
    expect(at({ sites: [{ label: "A", perDay: 0 }] })).toThrow(/sites.0.perDay/);
    expect(
      at({
        sites: [
          { label: "A", perDay: 1 },
          { label: "A", perDay: 2 },
        ],
      }),
    ).toThrow(/sites.1.label/);
    expect(at({ costs: { perDay: -1 } })).toThrow(/costs.perDay/);
  });
});
