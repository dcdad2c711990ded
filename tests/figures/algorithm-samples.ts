import type { BestByPrevalenceData } from "../../src/figures/best-by-prevalence.ts";
import type { CostFrontierData } from "../../src/figures/cost-frontier.ts";
import type { DependenceSweepData } from "../../src/figures/dependence-sweep.ts";
import type { PredictiveMapData } from "../../src/figures/predictive-map.ts";
import type { StepwisePredictiveData } from "../../src/figures/stepwise-predictive.ts";
import type { TornadoData } from "../../src/figures/tornado.ts";
import type { Flow, TreeLead, TreeStep } from "../../src/report/figures/algorithm-layout.ts";

/** Invented numbers for drawing: layouts are tested with them, never statistics. */

interface KitSample {
  readonly se: number;
  readonly sp: number;
  readonly invalid: number;
}

const KITS: Readonly<Record<string, KitSample>> = {
  "Kit Q": { se: 0.96, sp: 0.994, invalid: 0.011 },
  "Kit V": { se: 0.985, sp: 0.99, invalid: 0.006 },
  "Laboratory immunoassay with neutralisation": { se: 0.999, sp: 0.998, invalid: 0 },
};

/** People expected with each result at each step, of 10,000, if the kits erred independently. */
export function sampleLeads(steps: readonly TreeStep[], prevalence: number): TreeLead[] {
  const byId = new Map(steps.map((step) => [step.id, step]));
  const leads: TreeLead[] = [];
  const follow = (next: string, diseased: number, nondiseased: number): void => {
    const step = byId.get(next);
    if (step === undefined) return;
    const { se, sp, invalid } = KITS[step.kit] as KitSample;
    const none = invalid ** (step.again + 1);
    for (const result of ["reactive", "nonreactive", "invalid"] as const) {
      const share = (reactive: number) =>
        result === "invalid" ? none : (1 - none) * (result === "reactive" ? reactive : 1 - reactive);
      const here = { diseased: diseased * share(se), nondiseased: nondiseased * share(1 - sp) };
      const known = leads.findIndex((lead) => lead.step === step.id && lead.result === result);
      const before = leads[known] ?? { diseased: 0, nondiseased: 0 };
      const lead = {
        step: step.id,
        result,
        diseased: before.diseased + here.diseased,
        nondiseased: before.nondiseased + here.nondiseased,
      };
      if (known < 0) leads.push(lead);
      else leads[known] = lead;
      follow(step[result], here.diseased, here.nondiseased);
    }
  };
  const all = peopleOf(prevalence);
  follow(steps[0]?.id ?? "", all.diseased, all.nondiseased);
  return leads;
}

export function peopleOf(prevalence: number): Flow {
  return { diseased: 10_000 * prevalence, nondiseased: 10_000 * (1 - prevalence) };
}

const step = (
  id: string,
  kit: string,
  reactive: string,
  nonreactive: string,
  again = 1,
  invalid = "inconclusive",
): TreeStep => ({ id, kit, reactive, nonreactive, invalid, again });

export const SINGLE = [step("a1", "Kit Q", "positive", "negative")];
export const SERIAL = [
  step("a1", "Kit Q", "a2", "negative"),
  step("a2", "Kit V", "a3", "inconclusive"),
  step("a3", "Laboratory immunoassay with neutralisation", "positive", "inconclusive", 0),
];
export const PARALLEL = [
  step("a1", "Kit Q", "positive", "a2", 0),
  step("a2", "Kit V", "positive", "negative", 0),
];
export const MAJORITY = [
  step("a1", "Kit Q", "a2", "b2", 0),
  step("a2", "Kit V", "positive", "a3", 0),
  step("a3", "Laboratory immunoassay with neutralisation", "positive", "negative", 0),
  step("b2", "Kit V", "b3", "negative", 0),
  step("b3", "Laboratory immunoassay with neutralisation", "positive", "negative", 0),
];
/** The last step is reached by two ways. */
export const JOINED = [
  step("a1", "Kit Q", "a2", "b2", 0),
  step("a2", "Kit V", "positive", "c3", 0),
  step("b2", "Kit V", "c3", "negative", 0),
  step("c3", "Laboratory immunoassay with neutralisation", "positive", "inconclusive", 0),
];
export const EIGHT = Array.from({ length: 8 }, (_, at) =>
  step(`t${at + 1}`, at % 2 === 0 ? "Kit Q" : "Kit V", at === 7 ? "positive" : `t${at + 2}`, "inconclusive"),
);

const NORMAL_STEPS = [0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5];

export const STEPWISE: StepwisePredictiveData = {
  name: "stepwise",
  algorithm: "Kit Q <&> Kit V",
  kits: ["Kit Q", "Kit V"],
  target: 0.99,
  points: NORMAL_STEPS.map((prevalence) => {
    const after = (ratio: number) => 1 / (1 + (1 - prevalence) / (prevalence * ratio));
    return {
      prevalence,
      afterReactive: [after(160), after(1400)],
      ppv: after(1500),
      independentPpv: after(15_000),
    };
  }),
  channels: [
    { title: "Antenatal clinics", prevalence: 0.03 },
    { title: "Outreach", prevalence: 0.12 },
    { title: "Blood donors", prevalence: 0.004 },
  ],
};

const sweepPoints = (start: number) =>
  Array.from({ length: 21 }, (_, at) => {
    const phi = at * 0.02;
    return { value: phi, ppv: start / (start + (1 - start) * (1 + 90 * phi)) };
  });
export const SWEEP: DependenceSweepData = {
  name: "sweep",
  pair: "Kit Q and Kit V",
  over: "phi",
  lines: [
    { title: "Antenatal clinics", points: sweepPoints(0.995) },
    { title: "Outreach", points: sweepPoints(0.999) },
    { title: "Blood donors", points: sweepPoints(0.97) },
  ],
  stated: 0.1,
  target: 0.99,
};

export const TORNADO: TornadoData = {
  name: "tornado",
  outcome: "Positive predictive value (%)",
  centre: 0.956,
  bars: [
    { input: "error correlation, truly negative", low: "0.02", high: "0.20", atLow: 0.985, atHigh: 0.917 },
    { input: "specificity of Kit Q", low: "98.8", high: "99.7", atLow: 0.93, atHigh: 0.972 },
    { input: "prevalence", low: "2.2", high: "3.9", atLow: 0.943, atHigh: 0.965 },
    { input: "specificity of Kit V", low: "99.0", high: "99.6", atLow: 0.951, atHigh: 0.96 },
    { input: "sensitivity of Kit Q", low: "89.9", high: "98.9", atLow: 0.955, atHigh: 0.957 },
  ],
  format: (value) => `${(value * 100).toFixed(1)}\u202f%`,
  labelExpr: "format(datum.value * 100, '.4~r')",
};

export const FRONTIER: CostFrontierData = {
  name: "frontier",
  channel: "Antenatal clinics",
  unit: "credits",
  points: [
    { name: "Q", cost: 3.1, falsePositives: 580, missed: 125, keeps: false, best: false },
    { name: "V", cost: 3.6, falsePositives: 760, missed: 60, keeps: false, best: false },
    { name: "Q, then V", cost: 3.35, falsePositives: 62, missed: 170, keeps: false, best: false },
    { name: "Q, then W", cost: 3.4, falsePositives: 9, missed: 190, keeps: true, best: true },
    { name: "Q, then V, then W", cost: 3.55, falsePositives: 0.02, missed: 210, keeps: true, best: false },
    { name: "V, then Q", cost: 3.9, falsePositives: 62, missed: 171, keeps: false, best: false },
    { name: "Q or V", cost: 6.6, falsePositives: 1290, missed: 11, keeps: false, best: false },
    { name: "Q and V, W decides", cost: 7.1, falsePositives: 64, missed: 55, keeps: false, best: false },
  ],
  people: (value) => (value < 0.05 ? "< 0.1" : value.toFixed(1)),
  money: (value) => value.toFixed(2),
};

export const BEST: BestByPrevalenceData = {
  name: "best",
  stretches: [
    { name: null, from: 0.001, to: 0.0021 },
    { name: "Q, then V, then W", from: 0.0021, to: 0.0134 },
    { name: "Q, then W", from: 0.0134, to: 0.31 },
    { name: "Q", from: 0.31, to: 0.5 },
  ],
  chances: [
    {
      name: "Q, then V, then W",
      points: NORMAL_STEPS.map((prevalence) => ({ prevalence, chance: Math.max(0, 0.9 - 8 * prevalence) })),
    },
    {
      name: "Q, then W",
      points: NORMAL_STEPS.map((prevalence) => ({
        prevalence,
        chance: Math.min(0.8, 0.05 + 6 * prevalence),
      })),
    },
    {
      name: "Q",
      points: NORMAL_STEPS.map((prevalence) => ({ prevalence, chance: Math.min(0.4, prevalence / 2) })),
    },
  ],
  channels: STEPWISE.channels,
};

export const MAP: PredictiveMapData = {
  name: "map",
  pair: "Kit Q and Kit V",
  target: 0.99,
  cells: [0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3].flatMap((phi) =>
    [0.005, 0.01, 0.02, 0.03, 0.05, 0.08, 0.12, 0.2].map((prevalence) => ({
      prevalence,
      phi,
      ppv: 1 / (1 + ((1 - prevalence) * 0.006 * (0.01 + phi)) / (prevalence * 0.95)),
    })),
  ),
};
