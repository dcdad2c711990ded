import * as v from "valibot";
import { choice, draws, level, seed, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { whole } from "../planning/fields.ts";
import { Dependence } from "./fields.ts";
import { algorithmFields } from "./model.ts";
import { Costs, Criteria, MOST_KITS, money, UncertainKit, UncertainPrevalence } from "./uncertain-fields.ts";

/** What `algorithms.uncertain` is asked. */

const MOST_ALGORITHMS = 10;
const MOST_PREVALENCES = 50;

/** The kits of which something is known. */
export const UncertainKits = v.pipe(
  v.array(UncertainKit),
  v.minLength(1, "expected one kit or more"),
  v.maxLength(MOST_KITS, `expected at most ${MOST_KITS} kits`),
  v.description("the kits, each with its own id"),
);

export const OBJECTIVES = ["cheapest", "least_loss"] as const;

export const UncertainInput = v.strictObject({
  kits: UncertainKits,
  algorithms: v.pipe(
    v.array(v.strictObject({ id: text("short name of the algorithm"), ...algorithmFields })),
    v.minLength(1, "expected one algorithm or more"),
    v.maxLength(MOST_ALGORITHMS, `expected at most ${MOST_ALGORITHMS} algorithms`),
    v.description("the algorithms to be compared, each with its own id"),
  ),
  dependence: Dependence(),
  prevalences: v.pipe(
    v.array(UncertainPrevalence),
    v.minLength(1, "expected one prevalence or more"),
    v.maxLength(MOST_PREVALENCES, `expected at most ${MOST_PREVALENCES} prevalences`),
    v.description("the prevalences, uncertain or a grid of values, each with its own label"),
  ),
  costs: Costs,
  criteria: Criteria,
  objective: choice(
    OBJECTIVES,
    "what makes an algorithm the best: the lowest cost among those that meet the criteria, or among these the lowest expected loss",
  ),
  losses: v.pipe(
    v.nullable(
      v.strictObject({
        missed: money("loss for each diseased person who ends negative"),
        falsePositive: money("loss for each nondiseased person who ends positive"),
        inconclusive: money("loss for each person who ends inconclusive, besides what settling it costs"),
      }),
    ),
    v.description(
      "losses in the money of the prices, added to the cost; null unless the objective needs them",
    ),
  ),
  people: v.optional(whole(1, 1_000_000_000, "people tested, for the numbers of people"), 100_000),
});
export type UncertainInput = v.InferOutput<typeof UncertainInput>;

export const UncertainOptions = v.strictObject({
  level: level(),
  draws: draws("number of random draws", 10_000, 100_000),
  seed: seed(1),
});
export type UncertainOptions = v.InferOutput<typeof UncertainOptions>;

/** @throws InputError where losses are needed and not given, or given and not used */
export function requireLosses({ objective, losses }: UncertainInput): void {
  if (objective === "least_loss" && losses === null) {
    throw new InputError(["input", "losses"], "losses, as the least loss is the objective", losses);
  }
  if (objective === "cheapest" && losses !== null) {
    throw new InputError(["input", "losses"], "null, as the lowest cost is the objective", losses);
  }
}
