import * as v from "valibot";
import { choice, openProportion, seed, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { whole } from "../planning/fields.ts";
import { Dependence } from "./fields.ts";
import { MOST_REPEATS } from "./model.ts";
import { Costs, criteriaFields, uncertainKitFields } from "./uncertain-fields.ts";

/** What `algorithms.frontier` is asked. */

/** With more, there are too many algorithms to be compared. */
const MOST_KITS = 8;
const MOST_PREVALENCES = 201;

function minutes(meaning: string) {
  return v.pipe(
    v.number(),
    v.minValue(0, "expected 0 or more"),
    v.maxValue(100_000, "expected at most 100,000"),
    v.description(meaning),
  );
}

const SearchedKit = v.strictObject({
  ...uncertainKitFields,
  minutes: minutes("minutes from the timed step to the reading"),
  group: v.nullable(text("what it has in common with others, such as antigen or maker; null: not known")),
});

export const FrontierInput = v.strictObject({
  kits: v.pipe(
    v.array(SearchedKit),
    v.minLength(1, "expected one kit or more"),
    v.maxLength(MOST_KITS, `expected at most ${MOST_KITS} kits`),
    v.description("the kits to choose from, each with its own id"),
  ),
  dependence: Dependence(),
  prevalences: v.pipe(
    v.array(openProportion("a prevalence")),
    v.minLength(1, "expected one prevalence or more"),
    v.maxLength(MOST_PREVALENCES, `expected at most ${MOST_PREVALENCES} prevalences`),
    v.description("shares of diseased among those tested, ascending"),
  ),
  costs: Costs,
  constraints: v.pipe(
    v.strictObject({
      ...criteriaFields,
      mostMinutes: v.nullable(minutes("longest time that an algorithm may take; null: not asked for")),
      differentGroups: v.pipe(
        v.boolean(),
        v.description("whether no two tests of an algorithm may be of the same group"),
      ),
    }),
    v.description("what an algorithm must reach to be the best"),
  ),
  inconclusiveDiseased: choice(
    ["apart", "missed"],
    "whether a diseased person who ends inconclusive counts as missed, or is told apart",
  ),
  mostTests: v.optional(whole(1, 3, "most tests of one algorithm"), 3),
  again: v.optional(whole(0, MOST_REPEATS, "how often an invalid run is repeated at once"), 1),
  people: v.optional(whole(1, 1_000_000_000, "people tested, for the numbers of people"), 100_000),
});
export type FrontierInput = v.InferOutput<typeof FrontierInput>;

export const FrontierOptions = v.strictObject({
  draws: v.optional(
    v.nullable(whole(100, 100_000, "number of random draws; null: only the centres are looked at")),
    null,
  ),
  seed: seed(1),
});
export type FrontierOptions = v.InferOutput<typeof FrontierOptions>;

/** @throws InputError where prevalences do not ascend, or a group is needed and not known */
export function requireSearchable({ kits, prevalences, constraints }: FrontierInput): void {
  for (const [at, prevalence] of prevalences.entries()) {
    const before = prevalences[at - 1];
    if (before === undefined || prevalence > before) continue;
    throw new InputError(["input", "prevalences", at], `more than the one before, ${before}`, prevalence);
  }
  if (!constraints.differentGroups) return;
  for (const [at, { group }] of kits.entries()) {
    if (group !== null) continue;
    throw new InputError(["input", "kits", at, "group"], "a group, as they must differ", group);
  }
}
