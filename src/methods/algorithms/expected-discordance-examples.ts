import type { WorkedExample } from "../../core/method.ts";

const value = (share: number) => ({ kind: "value", value: share });

export const expectedDiscordanceExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "98 reactive of 4,000, 61 of them non-reactive with the second: too many",
    input: {
      first: { sensitivity: value(0.99), specificity: value(0.98) },
      second: { sensitivity: value(0.98), specificity: value(0.995) },
      dependence: { kind: "phi", diseased: 0.1, nondiseased: 0.08 },
      prevalence: 0.02,
      observed: { tested: 4000, firstReactive: 98, secondNonreactive: 61 },
    },
    expect: {
      "firstReactive.value": 0.0394,
      "discordant.value": 0.48466910358367926,
      diseasedAmongDiscordant: 0.019278439003418663,
      "discordance.twoSided": 0.008262331536598097,
      "discordance.asMany": 0.0042024544471061789,
      "discordance.lower": 38,
      "discordance.upper": 57,
    },
    tolerance: { relative: 1e-9 },
    source: "vacek1985",
    recomputedBy: "R 4.2.2: the share from eight cells, binom.test, qbinom",
    memory: true,
  },
  {
    name: "what to expect of two kits of 99 / 98 % at 1 %, before anything is seen",
    input: {
      first: { sensitivity: value(0.99), specificity: value(0.98) },
      second: { sensitivity: value(0.99), specificity: value(0.98) },
      dependence: { kind: "independent" },
      prevalence: 0.01,
      observed: null,
    },
    expect: { "discordant.value": (0.01 * 0.0099 + 0.99 * 0.0196) / 0.0297, discordance: null },
    tolerance: { relative: 1e-12 },
    source: "no publication: (.01 × .99 × .01 + .99 × .02 × .98) / (.01 × .99 + .99 × .02)",
  },
];
