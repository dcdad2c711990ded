import { InputError } from "../../core/input-error.ts";
import { cheapestFirst } from "./cheapest.ts";
import { type DrawnAlgorithms, drawnAlgorithms } from "./drawn-algorithms.ts";
import { type FrontierInput, requireSearchable } from "./frontier-input.ts";
import { strongestFirst } from "./not-beaten.ts";
import { centres } from "./quantities.ts";
import { type SensibleAlgorithm, sensibleAlgorithms } from "./sensible-algorithms.ts";
import { emptyStandings, type StandingRules, type Standings, standInto } from "./standings.ts";

/** The algorithms searched, ready to be compared with any values of the uncertain quantities. */
export interface FrontierSearch {
  readonly algorithms: readonly SensibleAlgorithm[];
  readonly prepared: DrawnAlgorithms;
  readonly prevalences: Float64Array;
  readonly rules: StandingRules;
  /** At the centres: every quantity, the results, and what is compared. */
  readonly centre: {
    readonly vector: Float64Array;
    readonly results: Float64Array;
    readonly standings: Standings;
  };
  /** The order in which to compare: those that beat many first, and the cheap first. */
  readonly order: { readonly strongest: Int32Array; readonly cheapest: Int32Array };
}

/** @throws InputError for a fault of the input, or where the constraints leave no algorithm */
export function frontierSearch(input: FrontierInput): FrontierSearch {
  requireSearchable(input);
  const { kits, dependence, constraints, mostTests, again } = input;
  const limits = { mostTests, ...constraints };
  const algorithms = sensibleAlgorithms(kits, dependence, again as 0 | 1 | 2 | 3, limits);
  if (algorithms.length === 0) {
    throw new InputError(["input", "constraints"], "constraints that some algorithm can keep", constraints);
  }
  const asked = { ...input, prevalences: [] };
  const prepared = drawnAlgorithms(
    asked,
    algorithms.map(({ steps }) => ({ steps, retest: null })),
    algorithms.map(() => ["input"]),
  );
  const rules = { ...constraints, inconclusiveMissed: input.inconclusiveDiseased === "missed" };
  const prevalences = Float64Array.from(input.prevalences);
  const vector = centres(prepared.quantities);
  const results = new Float64Array(prepared.size);
  const standings = emptyStandings(algorithms.length);
  prepared.evaluate(vector, results);
  standInto(standings, results, costsOf(prepared, vector), rules);
  const middle = prevalences[prevalences.length >> 1] as number;
  const order = {
    strongest: strongestFirst(standings, middle),
    cheapest: cheapestFirst(standings, middle),
  };
  return { algorithms, prepared, prevalences, rules, centre: { vector, results, standings }, order };
}

/** The costs besides kits in one draw. */
export function costsOf({ places }: DrawnAlgorithms, vector: Float64Array) {
  return {
    perPerson: vector[places.perPerson] as number,
    perInconclusive: vector[places.perInconclusive] as number,
  };
}
