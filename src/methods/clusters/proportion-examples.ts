import type { WorkedExample } from "../../core/method.ts";

/** Weil's litters of rats, control group: survivors by litter. */
export const CONTROL_LITTERS = litters(
  [13, 12, 9, 9, 8, 8, 12, 11, 9, 9, 8, 11, 4, 5, 7, 7],
  [13, 12, 9, 9, 8, 8, 13, 12, 10, 10, 9, 13, 5, 7, 10, 10],
);
/** The same, treated group. */
export const TREATED_LITTERS = litters(
  [12, 11, 10, 9, 10, 9, 9, 8, 8, 4, 7, 4, 5, 3, 3, 0],
  [12, 11, 10, 9, 11, 10, 10, 9, 9, 5, 9, 7, 10, 6, 10, 7],
);

function litters(counts: readonly number[], totals: readonly number[]) {
  return counts.map((count, at) => ({ count, total: totals[at] ?? 0 }));
}

const FIVE_SITES = [
  { label: "site 1", count: 30, total: 32 },
  { label: "site 2", count: 41, total: 45 },
  { label: "site 3", count: 17, total: 25 },
  { label: "site 4", count: 25, total: 26 },
  { label: "site 5", count: 9, total: 14 },
];
const SURVEY = "R 4.2.2, survey 4.1-1: svymean, svyciprop (method beta and mean), one cluster per site";

export const proportionExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "142 of 158 in 16 litters",
    input: { clusters: CONTROL_LITTERS },
    expect: {
      "proportion.value": 0.89873417721519,
      "proportion.lower": 0.834384599818273,
      "proportion.upper": 0.939882306236244,
      standardError: 0.0266447215250196,
      designEffect: 1.23249539430677,
      "effective.total": 128.195205215245,
      "intraclusterCorrelation.anova": 0.0290913854398624,
      "intervals.ratioT.lower": 0.84194229762912,
      "intervals.ratioT.upper": 0.95552605680126,
    },
    tolerance: { relative: 1e-8 },
    source: "rao1992",
    recomputedBy: "R 4.2.2 base/stats",
    memory: true,
  },
  {
    name: "122 of 142 at five sites: Student's t, exact with the effective total",
    input: { clusters: FIVE_SITES },
    options: { interval: "ratio" },
    expect: {
      reference: "t",
      "proportion.value": 0.8591549295774648,
      "proportion.lower": 0.7075954611461023,
      "proportion.upper": 1,
      standardError: 0.05458759769736755,
      "intervals.exactEffective.lower": 0.6362153393004598,
      "intervals.exactEffective.upper": 0.9710722879933258,
    },
    tolerance: { relative: 1e-9 },
    source: "korn1998",
    recomputedBy: SURVEY,
    memory: true,
  },
  {
    name: "60 of 60 at three sites: no design effect without a planning correlation",
    input: {
      clusters: [
        { count: 20, total: 20 },
        { count: 20, total: 20 },
        { count: 20, total: 20 },
      ],
    },
    expect: {
      "proportion.value": 1,
      "proportion.lower": null,
      designEffect: null,
      "intervals.independent.lower": 0.940370507713833,
    },
    tolerance: { relative: 1e-9 },
    source: "no publication: by definition",
    recomputedBy: "R 4.2.2: .025^(1/60)",
  },
  {
    name: "the same with a planning correlation of 0.05",
    input: {
      clusters: [
        { count: 20, total: 20 },
        { count: 20, total: 20 },
        { count: 20, total: 20 },
      ],
    },
    options: { planningIcc: 0.05, interval: "exact_effective" },
    expect: {
      "effective.basis": "planned",
      "effective.designEffect": 1.95,
      "effective.total": 30.76923076923077,
      "proportion.lower": 0.887019260894208,
      "proportion.upper": 1,
    },
    tolerance: { relative: 1e-9 },
    source: "donner2000",
    recomputedBy: "R 4.2.2: .025^(1.95/60)",
    memory: true,
  },
];
