import { InputError } from "../../core/input-error.ts";
import { type CompiledAlgorithms, compileAlgorithms, type KitRuns } from "./compiled-paths.ts";
import { jointOf } from "./dependence.ts";
import type { Dependence } from "./fields.ts";
import { cellFiller, pairsRun, phiAllowed } from "./fill-cells.ts";
import { type Algorithm, TRUTHS, type Truth } from "./model.ts";
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

/** Most runs on one path, both passes together: tables of their joint results double with each. */
const MOST_RUNS = 10;

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
  const { kits, dependence } = asked;
  const quantities = quantitiesOf(asked);
  for (const [at, algorithm] of algorithms.entries()) checkAlgorithm(algorithm, kits, places[at]);
  const compiled = compileAlgorithms(algorithms, kits.map(runsOf));
  const longest = Math.max(...compiled.tables.map((table) => table.kits.length));
  if (longest > MOST_RUNS) {
    throw new InputError(places[0] ?? [], `at most ${MOST_RUNS} runs on a path, retests included`, longest);
  }
  if (heldAtCentres) requirePossible(asked, compiled, centres(quantities));
  const ids = kits.map(({ id }) => id);
  const models = {
    diseased: prepareDependence(ids, dependence, "diseased"),
    nondiseased: prepareDependence(ids, dependence, "nondiseased"),
  };
  const evaluate = evaluator(compiled, {
    diseased: cellFiller(compiled, models.diseased),
    nondiseased: cellFiller(compiled, models.nondiseased),
  });
  const shares = emptyShares(kits.length);
  const pairs = pairsRun(compiled);
  const reactive = new Float64Array(kits.length);
  return {
    quantities,
    places: placesOf(kits.length),
    size: algorithms.length * WIDTH,
    evaluate: (vector, into) => {
      takeShares(vector, shares);
      evaluate(shares, into);
      return TRUTHS.every((truth) => {
        const model = models[truth];
        if (model.kind !== "pairs") return true;
        for (let kit = 0; kit < reactive.length; kit += 1) reactive[kit] = reactiveShare(vector, kit, truth);
        return phiAllowed(model, pairs, reactive);
      });
    },
  };
}

/** A kit of which no run is ever invalid has fewer paths. */
function runsOf({ id, invalid }: UncertainKit): KitRuns {
  return invalid.kind === "value" && invalid.value === 0 ? { id, invalid: 0 } : { id };
}

function emptyShares(kits: number) {
  return {
    sensitivity: new Float64Array(kits),
    specificity: new Float64Array(kits),
    invalid: new Float64Array(kits),
    price: new Float64Array(kits),
  };
}

function takeShares(vector: Float64Array, into: ReturnType<typeof emptyShares>): void {
  for (let kit = 0; kit < into.price.length; kit += 1) {
    const from = kit * KIT_QUANTITIES.length;
    into.sensitivity[kit] = vector[from] as number;
    into.specificity[kit] = vector[from + 1] as number;
    into.invalid[kit] = vector[from + 2] as number;
    into.price[kit] = vector[from + 3] as number;
  }
}

function reactiveShare(vector: Float64Array, kit: number, truth: Truth): number {
  const from = kit * KIT_QUANTITIES.length;
  return truth === "diseased" ? (vector[from] as number) : 1 - (vector[from + 1] as number);
}

/** Asks for every table once, for the faults of the dependence that come to light. */
function requirePossible(
  { kits, dependence }: UncertainAsked,
  { tables }: CompiledAlgorithms,
  centre: Float64Array,
): void {
  for (const truth of TRUTHS) {
    const reactive = kits.map(({ id }, at) => ({ id, reactive: reactiveShare(centre, at, truth) }));
    const joint = jointOf(reactive, dependence, truth);
    for (const table of tables) joint(table.kits.map((kit) => ({ kit, reactive: true })));
  }
}
