import type { WorkedExample } from "../../core/method.ts";

export const effortExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "60 people at one site with 3 a day",
    input: {
      total: 60,
      sites: [{ label: "A", perDay: 3 }],
      costs: { fixed: 1000, perSite: 500, perDay: 100, perPerson: 10, perKit: 2, perReference: 4 },
      spareKits: 0.1,
    },
    expect: {
      "days.expected": 20,
      "days.atAssurances.0.days": 19.88899929695931,
      "days.atAssurances.1.days": 23.372094826131942,
      "bySite.0.people": 60,
      kits: 66,
      "cost.days": 2000,
      "cost.total": 4472,
    },
    tolerance: { relative: 1e-12 },
    source: "anisimov2007",
    recomputedBy: "R 4.2.2: qgamma(c(.5, .9), 60) / 3; cost by hand",
    memory: true,
  },
  {
    name: "300 people at three sites that open one after the other",
    input: {
      total: 300,
      sites: [
        { label: "first", perDay: 2 },
        { label: "second", perDay: 3, opensAfterDays: 20 },
        { label: "third", perDay: 0.5, opensAfterDays: 60 },
      ],
    },
    options: { assurances: [0.95] },
    expect: {
      "days.expected": 70.90908414585432,
      "days.atAssurances.0.days": 76.19032483070221,
      "bySite.2.people": 5.454579270728386,
    },
    tolerance: { relative: 1e-9 },
    source: "anisimov2007",
    recomputedBy: "R 4.2.2: uniroot on ppois of the people expected by a day; integrate for the means",
    memory: true,
  },
];
