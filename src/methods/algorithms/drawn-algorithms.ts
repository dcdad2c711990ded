import { compileAlgorithms } from "./compiled-paths.ts";
import { jointOf } from "./dependence.ts";
import type { Dependence } from "./fields.ts";
import { cellFiller, pairsRun, phiAllowed } from "./fill-cells.ts";
import { type Algorithm, TRUTHS } from "./model.ts";
import { evaluator, WIDTH } from "./path-evaluator.ts";
import { checkAlgorithm } from "./paths.ts";
import { prepareDependence } from "./prepared-dependence.ts";
import { centres, KIT_QUANTITIES, placesOf, type Quantity, quantitiesOf } from "./quantities.ts";
import type { Costs, UncertainKit, UncertainPrevalence } from "./uncertain-fields.ts";

/** What the methods that draw or vary have in common. */
export interface UncertainAsked {
  readonly kits: readonly UncertainKit[];
  readonly costs: Costs;
  readonly prevalences: readonly UncertainPrevalence[];
  readonly dependence: Dependence;
}

/** Algorithms made ready to be put through with any values of the uncertain quantities. */
export interface DrawnAlgorithms {
  readonly quantities: readonly Quantity[];
  readonly places: ReturnType<typeof placesOf>;
  /** Numbers that `evaluate` gives: WIDTH for each algorithm. */
  readonly size: number;
  /**
   * @param vector a value of every quantity
   * @param into   what the algorithms do with people of each truth, as `RESULT` places it
   * @returns whether the values allow every error correlation stated; if not, the nearest allowed is used
   */
  evaluate(vector: Float64Array, into: Float64Array): boolean;
}

/**
 * @param places where each algorithm stands in the input, for error messages
 * @param heldAtCentres whether the dependence must be possible at the centres
 * @throws InputError for a fault of an input, an algorithm, or a dependence not possible at the centres
 */
export function drawnAlgorithms(
  asked: UncertainAsked,
  algorithms: readonly Algorithm[],
  places: readonly (readonly (string | number)[])[],
  heldAtCentres = true,
): DrawnAlgorithms {
  const quantities = quantitiesOf(asked);
  for (const [at, algorithm] of algorithms.entries()) checkAlgorithm(algorithm, asked.kits, places[at]);
  const ids = asked.kits.map(({ id }) => id);
  const runs = asked.kits.map(({ id, invalid }) =>
    invalid.kind === "value" && invalid.value === 0 ? { id, invalid: 0 } : { id },
  );
  const compiled = compileAlgorithms(algorithms, runs);
  const models = {
    diseased: prepareDependence(ids, asked.dependence, "diseased"),
    nondiseased: prepareDependence(ids, asked.dependence, "nondiseased"),
  };
  if (heldAtCentres) requirePossible(asked, centres(quantities));
  const evaluate = evaluator(compiled, {
    diseased: cellFiller(compiled, models.diseased),
    nondiseased: cellFiller(compiled, models.nondiseased),
  });
  const shares = {
    sensitivity: new Float64Array(ids.length),
    specificity: new Float64Array(ids.length),
    invalid: new Float64Array(ids.length),
    price: new Float64Array(ids.length),
  };
  const reactive = new Float64Array(ids.length);
  const pairs = pairsRun(compiled);
  const allowed = () =>
    TRUTHS.every((truth) => {
      const model = models[truth];
      if (model.kind !== "pairs") return true;
      for (let kit = 0; kit < ids.length; kit += 1) {
        const right =
          truth === "diseased" ? shares.sensitivity[kit] : 1 - (shares.specificity[kit] as number);
        reactive[kit] = right as number;
      }
      return phiAllowed(model, pairs, reactive);
    });
  return {
    quantities,
    places: placesOf(ids.length),
    size: algorithms.length * WIDTH,
    evaluate: (vector, into) => {
      for (let kit = 0; kit < ids.length; kit += 1) {
        const from = kit * KIT_QUANTITIES.length;
        shares.sensitivity[kit] = vector[from] as number;
        shares.specificity[kit] = vector[from + 1] as number;
        shares.invalid[kit] = vector[from + 2] as number;
        shares.price[kit] = vector[from + 3] as number;
      }
      evaluate(shares, into);
      return allowed();
    },
  };
}

/** Asks for no joint probability: the check of the error correlations is what is wanted. */
function requirePossible({ kits, dependence }: UncertainAsked, centre: Float64Array): void {
  for (const truth of TRUTHS) {
    const reactive = kits.map(({ id }, at) => {
      const from = at * KIT_QUANTITIES.length;
      return {
        id,
        reactive: truth === "diseased" ? (centre[from] as number) : 1 - (centre[from + 1] as number),
      };
    });
    jointOf(reactive, dependence, truth);
  }
}
