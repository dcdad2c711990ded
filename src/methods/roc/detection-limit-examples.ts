import type { WorkedExample } from "../../core/method.ts";

function panel(rows: readonly (readonly [number, number, number])[]) {
  return rows.map(([concentration, reactive, tested]) => ({ concentration, reactive, tested }));
}

const SIX = panel([
  [10, 1, 20],
  [20, 3, 20],
  [40, 9, 20],
  [80, 16, 20],
  [160, 20, 20],
  [320, 20, 20],
]);
const INSECTS = panel([
  [10.2, 44, 50],
  [7.7, 42, 49],
  [5.1, 24, 46],
  [3.8, 16, 48],
  [2.6, 6, 50],
]);

export const detectionLimitExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "six dilutions, 20 devices each: found with probability .95 from 132 on (94 to 234)",
    input: { levels: SIX, blank: null, lackOfFit: "ignore" },
    expect: {
      "probit.slope.value": 3.21732846518196,
      "probit.concentrations.2.log10.value": 2.12085471499417,
      "probit.concentrations.2.log10.lower": 1.97378874105667,
      "probit.concentrations.2.log10.upper": 2.36921616490288,
      "probit.fit.p": 0.847141690572264,
    },
    tolerance: { relative: 1e-8 },
    source: "fieller1954",
    recomputedBy: "R 4.2.2 glm(binomial(probit)), uniroot on the square of the line less its limits",
    memory: true,
  },
  {
    name: "insects killed by rotenone: half of them at 4.9 mg per litre",
    input: { levels: INSECTS, blank: null, lackOfFit: "widen_when_shown" },
    expect: {
      "probit.intercept.value": -2.88746325636171,
      "probit.slope.value": 4.21319675611494,
      "probit.concentrations.1.log10.value": 0.685337861843481,
      "probit.fit.pearson": 1.72887503165302,
    },
    tolerance: { relative: 1e-8 },
    source: "finney1971",
    recomputedBy: "R 4.2.2 glm(binomial(probit)); counts recalled from the book",
    memory: true,
  },
];
