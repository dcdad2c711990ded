import * as v from "valibot";
import { openProportion, proportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { whole } from "../planning/fields.ts";
import {
  approximateMoreThan,
  exactEffort,
  exactMoreThan,
  type MoreThan,
  momentsOf,
  skewOf,
} from "./runs-needed.ts";

const Input = v.strictObject({
  clients: whole(1, 100_000_000, "people who will go through the algorithm"),
  situations: v.pipe(
    v.array(
      v.strictObject({
        weight: v.pipe(
          v.number(),
          v.gtValue(0, "expected a number above 0"),
          v.maxValue(1e9, "expected at most 1e9"),
          v.description("how likely this situation is, relative to the others"),
        ),
        perPerson: v.pipe(
          v.array(
            v.strictObject({
              runs: whole(0, 40, "devices of this kit that a person uses up"),
              probability: proportion("share of people who use up so many"),
            }),
          ),
          v.minLength(1, "expected one entry or more"),
          v.maxLength(41, "expected at most 41 entries"),
          v.description("devices of this kit per person; the probabilities add up to 1"),
        ),
      }),
    ),
    v.minLength(1, "expected one situation or more"),
    v.maxLength(1001, "expected at most 1001 situations"),
    v.description("one situation where the prevalence is known; else several, e.g. one per prevalence"),
  ),
  waste: v.pipe(
    v.number(),
    v.minValue(0, "expected a proportion from 0 to below 1"),
    v.ltValue(1, "expected a proportion from 0 to below 1"),
    v.description("share of devices lost before use: expired, damaged, spent on controls"),
  ),
  packSize: whole(1, 10_000, "devices in a pack"),
});
const Options = v.strictObject({
  stockOutRisk: v.optional(openProportion("accepted probability that the devices run out"), 0.05),
});
const Order = (meaning: string) =>
  v.pipe(
    v.strictObject({
      runs: quantity("count", "devices that can be used up"),
      kits: quantity("count", "devices to have, with those that will be lost"),
      packs: quantity("count", "packs to order"),
      runsOut: quantity("probability", "probability that more would be used up than so many runs"),
    }),
    v.description(meaning),
  );
const Values = v.strictObject({
  mean: quantity("count", "mean number of devices used up"),
  standardDeviation: quantity("count", "standard deviation of that number"),
  ordered: Order("fewest with the accepted probability of running out"),
  orderedByMean: Order("what would be ordered for the mean, to compare with"),
  method: v.pipe(
    v.picklist(["exact", "cornish_fisher"]),
    v.description("exact: the distribution itself; cornish_fisher: from its first four moments"),
  ),
});
export type StockInput = v.InferOutput<typeof Input>;
export type StockOptions = v.InferOutput<typeof Options>;
export type StockValues = v.InferOutput<typeof Values>;

/** How far probabilities may be from adding up to 1. */
const ROUNDING = 1e-9;
/** Multiplications up to which the distribution itself is computed. */
const MOST_EFFORT = 1e8;
/** A sum more skewed than this is never taken from its moments; it has few devices, and is soon computed. */
const MOST_SKEW = 0.05;
/** As near to a whole number of kits as this counts as that number. */
const NEARLY = 1e-9;

/**
 * How many devices and packs of a kit to have, so that they run out with at most a stated probability.
 *
 * The number used up is a sum over people, each using up some with known probabilities (for a kit within an
 * algorithm, from `algorithms.outcomes`). Several situations, e.g. one per possible prevalence, are mixed by weight.
 *
 * @param input   people, devices per person in each situation, share lost, devices in a pack
 * @param options stockOutRisk: accepted probability of running out, in (0, 1)
 * @returns whole devices and packs; exact, or by four moments where the exact sum would take long
 * @throws InputError where the probabilities of a situation don't add up to 1, or name a number twice
 * Behaves badly where people come in clusters or demand itself is a guess: the spread is then larger than told.
 * Source: cornish1938
 */
export function stockOf(input: StockInput, { stockOutRisk }: StockOptions): Finding<StockValues> {
  requireDistributions(input);
  const { clients } = input;
  const weights = input.situations.reduce((sum, { weight }) => sum + weight, 0);
  const situations = input.situations.map(({ weight, perPerson }) => {
    return { weight: weight / weights, perPerson, moments: momentsOf(perPerson) };
  });
  const most = MOST_EFFORT / situations.length;
  const parts = situations.map(({ weight, perPerson, moments }) => {
    const exact = exactEffort(moments, clients) <= most || skewOf(moments, clients) > MOST_SKEW;
    const moreThan = exact
      ? exactMoreThan(perPerson, moments, clients)
      : approximateMoreThan(moments, clients);
    return { weight, exact, moreThan };
  });
  const moreThan: MoreThan = (runs) =>
    Math.min(
      1,
      parts.reduce((sum, part) => sum + part.weight * part.moreThan(runs), 0),
    );
  const mean = situations.reduce((sum, { weight, moments }) => sum + weight * moments.mean, 0) * clients;
  const variance = situations.reduce(
    (sum, { weight, moments }) =>
      sum + weight * (moments.variance * clients + Math.pow(moments.mean * clients - mean, 2)),
    0,
  );
  const largest = Math.max(...situations.map(({ moments }) => moments.least + moments.span * moments.steps));
  const order = (runs: number) => orderOf(runs, moreThan, input);
  const values: StockValues = {
    mean,
    standardDeviation: Math.sqrt(variance),
    ordered: order(fewestWith(moreThan, stockOutRisk, clients * largest)),
    orderedByMean: order(Math.ceil(mean * (1 - 4 * Number.EPSILON))),
    method: parts.every(({ exact }) => exact) ? "exact" : "cornish_fisher",
  };
  return { values, notes: notesOn(values) };
}

/** @throws InputError naming the situation */
function requireDistributions({ situations }: StockInput): void {
  for (const [place, { perPerson }] of situations.entries()) {
    const path = ["input", "situations", place, "perPerson"];
    const sum = perPerson.reduce((total, { probability }) => total + probability, 0);
    if (Math.abs(sum - 1) > ROUNDING) throw new InputError(path, "probabilities that add up to 1", sum);
    const numbers = perPerson.map(({ runs }) => runs);
    if (new Set(numbers).size < numbers.length) {
      throw new InputError(path, "every number of devices only once", numbers);
    }
  }
}

/** Fewest runs that are exceeded with at most this probability. */
function fewestWith(moreThan: MoreThan, risk: number, most: number): number {
  let [low, high] = [0, most];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (moreThan(middle) <= risk * (1 + 1e-12)) high = middle;
    else low = middle + 1;
  }
  return low;
}

function orderOf(runs: number, moreThan: MoreThan, { waste, packSize }: StockInput): StockValues["ordered"] {
  const kits = Math.ceil((runs / (1 - waste)) * (1 - NEARLY));
  return { runs, kits, packs: Math.ceil(kits / packSize), runsOut: moreThan(runs) };
}

function notesOn({ method, orderedByMean }: StockValues): Note[] {
  if (method === "exact") return [];
  const message =
    "from four moments, as the exact sum would take long; where both were computed the devices were the same, and the probability within .0001";
  return [
    note("approximate", "ordered", message),
    ...(orderedByMean.runsOut === null ? [] : [note("approximate", "orderedByMean.runsOut", message)]),
  ];
}

const CONFIRMED = [
  { runs: 0, probability: 0.9 },
  { runs: 1, probability: 0.1 },
];

export const stock = defineMethod({
  id: "algorithms.stock",
  version: 1,
  title: "Devices and packs to have",
  question: "How many devices of this kit are needed, so that they hardly ever run out?",
  formula:
    "runs = sum over people of the devices each uses up. Fewest r with P(runs > r) <= risk; the distribution of the sum by doubling, exact; for very many people by the expansion of Cornish and Fisher from four moments. Kits = r / (1 - waste), packs = kits / pack size, both rounded up",
  caution:
    "ordering for the mean runs out about every second time. An uncertain prevalence adds far more spread than chance does: give several situations. Loss is taken as a fixed share. The runs-out probability is of the runs stated; a pack only partly needed lowers it",
  sources: ["cornish1938"],
  input: Input,
  options: Options,
  values: Values,
  run: stockOf,
  examples: [
    {
      name: "1,000 people, one in ten tested again, 3 % lost, packs of 25",
      input: {
        clients: 1000,
        situations: [{ weight: 1, perPerson: CONFIRMED }],
        waste: 0.03,
        packSize: 25,
      },
      expect: {
        mean: 100,
        standardDeviation: 9.486832980505138,
        "ordered.runs": 116,
        "ordered.kits": 120,
        "ordered.packs": 5,
      },
      tolerance: { relative: 1e-12 },
      source: "no publication: a binomial distribution",
      recomputedBy: "R 4.2.2 qbinom(.95, 1000, .1)",
    },
    {
      name: "the same where 5 %, 10 % or 15 % may need it",
      input: {
        clients: 1000,
        situations: [0.05, 0.1, 0.15].map((share) => ({
          weight: 1,
          perPerson: [
            { runs: 0, probability: 1 - share },
            { runs: 1, probability: share },
          ],
        })),
        waste: 0.03,
        packSize: 25,
      },
      expect: { mean: 100, "ordered.runs": 162 },
      tolerance: { relative: 1e-12 },
      source: "no publication: a mixture of three binomial distributions",
      recomputedBy: "R 4.2.2: the smallest r with mean(pbinom(r, 1000, c(.05, .1, .15))) of .95 or more",
    },
  ],
});
