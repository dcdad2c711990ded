import type { WorkedExample } from "../../core/method.ts";

const SCHOOLS = [
  [28, 15],
  [8, 10],
  [-3, 16],
  [7, 11],
  [-1, 9],
  [1, 11],
  [18, 10],
  [12, 18],
].map(([effect, standardError], place) => ({ label: `school ${place + 1}`, effect, standardError }));

const SIX = [
  [0.2, 0.2],
  [0.9, 0.3],
  [0.35, 0.15],
  [1.6, 0.4],
  [-0.1, 0.25],
  [0.7, 0.2],
].map(([effect, standardError], place) => ({ label: `study ${place + 1}`, effect, standardError }));

export const inverseVarianceExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "eight schools: no more scatter than chance",
    input: { effects: SCHOOLS, scale: "as_given" },
    expect: {
      "fixed.summary.value": 7.68561672495604,
      "fixed.standardError": 4.0719191584023,
      "heterogeneity.q": 4.70707886440016,
      "heterogeneity.p": 0.695659166635196,
      "models.dersimonianLaird.betweenVariance": 0,
    },
    tolerance: { relative: 1e-8 },
    source: "rubin1981",
    recomputedBy: "R 4.2.2 base, by the formulas",
    memory: true,
  },
  {
    name: "six log odds ratios that scatter, REML with Hartung and Knapp",
    input: { effects: SIX, scale: "log" },
    expect: {
      "models.reml.betweenVariance": 0.207740719435583,
      "models.reml.summary.value": 0.547728153630031,
      "models.reml.hartungKnapp.lower": -0.0364809692983261,
      "models.reml.prediction.upper": 1.9436941988674,
      "betweenSd.upper": 1.43792616921564,
    },
    tolerance: { relative: 1e-7 },
    source: "knapp2003",
    recomputedBy: "R 4.2.2: optimize on the restricted likelihood, uniroot on the profile of Q",
    memory: true,
  },
];
