import { compute } from "../../../src/core/method.ts";
import { exactPosteriorMethod } from "../../../src/methods/reference/exact-posterior.ts";
import type { Check } from "./reference-case.ts";

type Shapes = readonly [number, number];
const shapes = (value: unknown) => {
  const [alpha, beta] = value as Shapes;
  return { alpha, beta };
};
const PARTS = ["mean", "lower", "median", "upper"] as const;
type Summary = Readonly<Record<(typeof PARTS)[number], number | null>>;
const named = (name: string, share: Summary | undefined) =>
  PARTS.map((part) => [`${name}_${part}`, share?.[part] ?? null] as const);

export const referenceBayesianChecks: Readonly<Record<string, Check>> = {
  "I-03": (inputs) => {
    const priors = inputs.priors as Readonly<Record<string, unknown>>;
    const patterns = Object.entries(inputs.counts as Readonly<Record<string, number>>).map(
      ([results, people]) => ({ reactive: [...results].map((result) => result === "1"), people }),
    );
    const { tests, populations } = compute(exactPosteriorMethod, {
      tests: ["serology", "stool"],
      populations: [{ label: "all", patterns }],
      priors: {
        tests: [1, 2].map((test) => ({
          sensitivity: shapes(priors[`se${test}`]),
          specificity: shapes(priors[`sp${test}`]),
        })),
        populations: [shapes(priors.prev)],
      },
    }).values;
    return Object.fromEntries([
      ...named("prev", populations[0]?.prevalence),
      ...tests.flatMap(({ sensitivity, specificity }, place) => [
        ...named(`se${place + 1}`, sensitivity),
        ...named(`sp${place + 1}`, specificity),
      ]),
    ]);
  },
  "I-05": ({ x, n, priors: given }) => {
    const priors = given as Readonly<Record<string, unknown>>;
    const { tests, populations } = compute(exactPosteriorMethod, {
      tests: ["serology"],
      populations: [
        {
          label: "all",
          patterns: [
            { reactive: [true], people: x as number },
            { reactive: [false], people: (n as number) - (x as number) },
          ],
        },
      ],
      priors: {
        tests: [{ sensitivity: shapes(priors.se), specificity: shapes(priors.sp) }],
        populations: [shapes(priors.prev)],
      },
    }).values;
    return Object.fromEntries([
      ...named("prev", populations[0]?.prevalence),
      ...named("se", tests[0]?.sensitivity),
      ...named("sp", tests[0]?.specificity),
    ]);
  },
};
