import * as v from "valibot";
import { choice } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { whole } from "../planning/fields.ts";
import { type DrawnAlgorithms, drawnAlgorithms } from "./drawn-algorithms.ts";
import { Dependence } from "./fields.ts";
import { type MeasuresAt, measuresAt } from "./measures-at.ts";
import { type Algorithm, algorithmFields } from "./model.ts";
import { Costs, UncertainShare } from "./uncertain-fields.ts";
import { UncertainKits } from "./uncertain-input.ts";

/** One outcome of one algorithm, as its inputs vary: shared by `algorithms.tornado` and `algorithms.two_way`. */

export const OUTCOMES = [
  "ppv",
  "npv",
  "sensitivity",
  "specificity",
  "missed",
  "falsePositives",
  "inconclusive",
  "cost",
] as const satisfies readonly (keyof MeasuresAt)[];
export type Outcome = (typeof OUTCOMES)[number];

/** What both methods are asked, to be spread into their input. */
export const oneOutcomeFields = {
  kits: UncertainKits,
  ...algorithmFields,
  dependence: Dependence(),
  prevalence: UncertainShare("share of diseased among those tested"),
  costs: Costs,
  outcome: choice(
    OUTCOMES,
    "what is looked at: a share, people among those stated (missed, falsePositives, inconclusive), or the cost per person",
  ),
  people: v.optional(whole(1, 1_000_000_000, "people tested, for the numbers of people"), 100_000),
};
const Fields = v.strictObject(oneOutcomeFields);
export type OneOutcomeAsked = v.InferOutput<typeof Fields>;

/** An outcome for any values of the quantities. */
export interface OutcomeOf {
  readonly prepared: DrawnAlgorithms;
  /** `value` is `null` where nobody ends so; `possible`: the values allow every error correlation stated. */
  at(vector: Float64Array): { readonly value: number | null; readonly possible: boolean };
}

const PEOPLE: readonly Outcome[] = ["missed", "falsePositives", "inconclusive"];

/**
 * @param heldAtCentres whether the dependence must be possible with every input at its centre
 * @throws InputError for any fault of the input, its paths those of these fields
 */
export function outcomeOf(asked: OneOutcomeAsked, heldAtCentres = true): OutcomeOf {
  const { steps, retest, outcome, people } = asked;
  const algorithm: Algorithm = { steps, retest };
  const prepared = preparedAlone(asked, algorithm, heldAtCentres);
  const results = new Float64Array(prepared.size);
  const scale = PEOPLE.includes(outcome) ? people : 1;
  const { places } = prepared;
  return {
    prepared,
    at: (vector) => {
      const possible = prepared.evaluate(vector, results);
      const costs = {
        perPerson: vector[places.perPerson] as number,
        perInconclusive: vector[places.perInconclusive] as number,
      };
      const measures = measuresAt(results, 0, vector[places.prevalences] as number, costs);
      const found = measures[outcome] * scale;
      return { value: Number.isNaN(found) ? null : found, possible };
    },
  };
}

/** The prevalence is a list of one for the drawing, but not for whoever reads an error. */
function preparedAlone(
  asked: OneOutcomeAsked,
  algorithm: Algorithm,
  heldAtCentres: boolean,
): DrawnAlgorithms {
  const prevalences = [{ label: "prevalence", share: asked.prevalence }];
  try {
    return drawnAlgorithms({ ...asked, prevalences }, [algorithm], [["input"]], heldAtCentres);
  } catch (error) {
    if (!(error instanceof InputError) || error.path[1] !== "prevalences") throw error;
    throw new InputError(["input", "prevalence", ...error.path.slice(4)], error.expected, error.received);
  }
}
