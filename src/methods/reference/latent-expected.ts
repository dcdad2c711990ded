import { deviance } from "../../numeric/deviance.ts";
import type { LatentData, LatentGroup } from "./latent-data.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import { summed } from "./latent-likelihood.ts";
import { type ClassTable, classTables } from "./latent-tables.ts";

export interface ExpectedPattern {
  readonly population: number;
  readonly results: ("reactive" | "nonreactive" | "not_done")[];
  readonly observed: number;
  readonly expected: number;
  readonly residual: number | null;
  readonly diseased: number | null;
}

/** Every pattern of the tests done, in every population: people seen and people that the model leads one to expect. */
export function expectedPatterns(
  theta: Float64Array,
  data: LatentData,
  layout: LatentLayout,
): ExpectedPattern[] {
  const tables = classTables(theta, data, layout);
  return data.groups.flatMap((group) =>
    patternsOf(group, fromLogit(theta[layout.prevalence(group.population)] as number), data, tables),
  );
}

function patternsOf(
  { population, done, people, cells }: LatentGroup,
  prevalence: number,
  { tests }: LatentData,
  tables: readonly [ClassTable, ClassTable],
): ExpectedPattern[] {
  return cells.map(({ results, people: observed, complete }) => {
    const present = prevalence * summed(tables[0].cells, complete);
    const probability = present + (1 - prevalence) * summed(tables[1].cells, complete);
    const spread = Math.sqrt(people * probability * Math.max(0, 1 - probability));
    const expected = people * probability;
    return {
      population,
      results: Array.from({ length: tests }, (_, test) => wordOf(done >> test, results >> test)),
      observed,
      expected,
      residual: spread > 0 ? (observed - expected) / spread : null,
      diseased: probability > 0 ? present / probability : null,
    };
  });
}

function wordOf(done: number, reactive: number) {
  if (done % 2 === 0) return "not_done";
  return reactive % 2 === 1 ? "reactive" : "nonreactive";
}

/** G² and Pearson's X² of the people seen against those expected; patterns that can't occur were not seen. */
export function distanceOf(patterns: readonly ExpectedPattern[]): { deviance: number; pearson: number } {
  let likelihoodRatio = 0;
  let pearson = 0;
  for (const { observed, expected } of patterns) {
    if (!(expected > 0)) continue;
    likelihoodRatio += 2 * deviance(observed, expected);
    pearson += Math.pow(observed - expected, 2) / expected;
  }
  return { deviance: likelihoodRatio, pearson };
}
