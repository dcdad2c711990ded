import * as v from "valibot";
import { level, quantity, text } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { type OutcomeOf, oneOutcomeFields, outcomeOf } from "./one-outcome.ts";
import { centres, isUncertain, type Quantity, quantileOf } from "./quantities.ts";
import { tornadoExamples } from "./tornado-examples.ts";

const Input = v.strictObject(oneOutcomeFields);
const Options = v.strictObject({ level: level() });
const number = (meaning: string) => quantity("statistic", meaning);
const Bar = v.strictObject({
  input: text("which input is moved"),
  low: number("its lower percentile"),
  high: number("its upper percentile"),
  atLow: number("the outcome there, all else at the medians"),
  atHigh: number("the outcome at the upper percentile"),
  swing: number("distance between the two outcomes"),
});
const Values = v.strictObject({
  centre: number("the outcome with every input at its median"),
  independent: number("the same if all runs erred independently"),
  bars: v.pipe(v.array(Bar), v.description("one for each uncertain input, the largest swing first")),
});
export type TornadoInput = v.InferOutput<typeof Input>;
export type TornadoOptions = v.InferOutput<typeof Options>;
export type TornadoValues = v.InferOutput<typeof Values>;
type BarValues = v.InferOutput<typeof Bar>;

/**
 * Which input an outcome hangs on most: each uncertain input is moved from its lower to its upper percentile
 * while the others stay at their medians.
 *
 * @param input   one algorithm, what is known of kits, prevalence and costs, and the outcome looked at
 * @param options level of the percentiles
 * @returns outcomes at both ends, the largest swing first; `null` where nobody ends so
 * Behaves badly where inputs act together: two that are low at once may do more than the two bars show
 */
export function tornadoOf(input: TornadoInput, options: TornadoOptions): Finding<TornadoValues> {
  const outcome = outcomeOf(input);
  const middle = centres(outcome.prepared.quantities);
  const notes: Note[] = [];
  const bars = outcome.prepared.quantities.flatMap((quantity, at) => {
    if (!isUncertain(quantity)) return [];
    const { bar, possible } = barOf(outcome, middle, quantity, at, options.level);
    if (!possible) notes.push(cutNote(quantity));
    return [bar];
  });
  bars.sort((one, other) => (other.swing ?? -1) - (one.swing ?? -1));
  const independent = outcomeOf({ ...input, dependence: { kind: "independent" } }).at(middle).value;
  const centre = outcome.at(middle).value;
  if (centre === null) notes.push(note("undefined_outcome", "centre", "nobody ends so, at the medians"));
  return { values: { centre, independent, bars }, notes };
}

function barOf(outcome: OutcomeOf, middle: Float64Array, moved: Quantity, at: number, level: number) {
  const ends = [(1 - level) / 2, (1 + level) / 2].map((probability) => {
    const vector = middle.slice();
    const place = quantileOf(moved, probability);
    vector[at] = place;
    return { place, ...outcome.at(vector) };
  });
  const [low, high] = ends as [(typeof ends)[number], (typeof ends)[number]];
  const swing = low.value === null || high.value === null ? null : Math.abs(high.value - low.value);
  const bar: BarValues = {
    input: moved.name,
    low: low.place,
    high: high.place,
    atLow: low.value,
    atHigh: high.value,
    swing,
  };
  return { bar, possible: low.possible && high.possible };
}

function cutNote({ name }: Quantity): Note {
  const message = `at an end of ${name} the kits do not allow an error correlation stated; the nearest that they allow was used`;
  return note("dependence_cut", "bars", message);
}

export const algorithmsTornado = defineMethod({
  id: "algorithms.tornado",
  version: 1,
  title: "What an algorithm's outcome hangs on",
  question: "Which uncertain input moves the outcome of an algorithm most?",
  formula:
    "outcome at the (1 - level)/2 and (1 + level)/2 quantiles of one input, the others at their medians; counts as beta(right + 1/2, total - right + 1/2), ranges uniform",
  caution:
    "one input at a time: inputs that act together are not seen, see algorithms.two_way. A wide bar says that the input is poorly known, or that it matters much, or both. The dependence is held as stated; the outcome without it stands beside",
  sources: ["brown2001"],
  input: Input,
  options: Options,
  values: Values,
  run: tornadoOf,
  examples: tornadoExamples,
});
