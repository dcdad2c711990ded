import * as v from "valibot";
import { openProportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { hypergeometricCdf } from "../../numeric/hypergeometric.ts";
import { reaches } from "./criterion-chance.ts";
import { fewestThat } from "./fewest-that.ts";
import { whole } from "./fields.ts";
import { roundUp } from "./round-up.ts";

const Input = v.strictObject({
  prevalence: openProportion("share of people affected, if any are"),
  population: v.optional(
    v.nullable(whole(1, 1_000_000_000, "people of whom the sample is drawn; absent: very many")),
    null,
  ),
});
const Options = v.strictObject({
  assurance: v.optional(openProportion("probability wanted that at least one is found"), 0.95),
});
const Values = v.strictObject({
  total: quantity("people", "people to be looked at"),
  probability: quantity("probability", "probability that at least one of them is affected"),
  affected: quantity("people", "people affected in the population"),
});
export type AtLeastOneInput = v.InferOutput<typeof Input>;
export type AtLeastOneOptions = v.InferOutput<typeof Options>;
export type AtLeastOneValues = v.InferOutput<typeof Values>;

/**
 * How many people to look at so that at least one who is affected is among them.
 *
 * @param input   prevalence, strictly between 0 and 1; the population where it is small, its affected
 *   people being the prevalence times the population, rounded up
 * @param options assurance wanted
 * @returns people and the probability they give; `affected` is `null` with a note without a population,
 *   all but that where the people can't be counted
 * Supposes a random sample and a test that misses nobody.
 * Source: cannon1982
 */
export function atLeastOne(input: AtLeastOneInput, options: AtLeastOneOptions): Finding<AtLeastOneValues> {
  const { prevalence, population } = input;
  const affected = population === null ? null : roundUp(prevalence * population);
  const notes: Note[] =
    affected === null ? [note("no_population", "affected", "no size of the population was given")] : [];
  const chance = (total: number) =>
    population === null || affected === null
      ? -Math.expm1(total * Math.log1p(-prevalence))
      : hypergeometricCdf(0, affected, population - affected, total, "upper");
  const guess = Math.log1p(-options.assurance) / Math.log1p(-prevalence);
  const most = population ?? Number.MAX_SAFE_INTEGER;
  const total = fewestThat((people) => reaches(chance(people), options.assurance), guess, most);
  if (total !== null) return { values: { total, probability: chance(total), affected }, notes };
  const message =
    "more people than can be counted: look for a higher prevalence, or accept a lower assurance";
  for (const path of ["total", "probability"]) notes.push(note("beyond_horizon", path, message));
  return { values: { total: null, probability: null, affected }, notes };
}

export const planningAtLeastOne = defineMethod({
  id: "planning.at_least_one",
  version: 1,
  title: "People needed to find at least one",
  question: "How many people must be looked at to find at least one who is affected?",
  formula:
    "smallest n with 1 - (1 - prevalence)^n at or above the assurance; from a population of N with d affected (prevalence times N, rounded up): 1 - C(N - d, n) / C(N, n)",
  caution:
    "it takes a random sample, and a test that misses nobody: with a test of a sensitivity below 1 use prevalence times sensitivity. To find none does not show that there are none",
  sources: ["cannon1982"],
  input: Input,
  options: Options,
  values: Values,
  run: atLeastOne,
  examples: [
    {
      name: "1 % affected, 95 % assurance",
      input: { prevalence: 0.01 },
      expect: { total: 299 },
      tolerance: { relative: 0 },
      source: "cannon1982",
      recomputedBy: "R 4.2.2: ceiling(log(.05) / log(1 - p))",
      memory: true,
    },
    {
      name: "5 % affected, 95 % assurance",
      input: { prevalence: 0.05 },
      expect: { total: 59 },
      tolerance: { relative: 0 },
      source: "cannon1982",
      recomputedBy: "R 4.2.2: ceiling(log(.05) / log(1 - p))",
      memory: true,
    },
  ],
});
