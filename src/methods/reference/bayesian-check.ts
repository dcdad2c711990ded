import { randomStream, taskNumber } from "../../core/random.ts";
import { deviance } from "../../numeric/deviance.ts";
import { type Dice, diceOf } from "../../numeric/dice.ts";
import type { Chain } from "./bayesian-chain.ts";
import type { BayesianInput, BayesianValues } from "./bayesian-fields.ts";
import { type BayesianModel, reordered } from "./bayesian-model.ts";
import { fillTable } from "./bayesian-tables.ts";
import { fromLogit } from "./latent-layout.ts";

const MOST_REPETITIONS = 2000;
const FEWEST_REPETITIONS = 200;
/** Counts held at a time, all repetitions together. */
const ROOM = 4_000_000;

/**
 * What would people like these show if the study were done again, and are the people seen like that? At 2,000 draws
 * (fewer where patterns are many), evenly taken from the chains, people are drawn anew; G² of those drawn and of
 * those seen is taken against what that draw expects.
 *
 * Source: gelman1996 for the predictive p of a discrepancy (memory)
 */
export function predictiveCheck(
  input: BayesianInput,
  model: BayesianModel,
  chains: readonly Chain[],
  level: number,
  seed: number,
): BayesianValues["check"] {
  const groups = model.data.groups.map(({ population, people, cells }) => ({
    population,
    people,
    observed: cells.map((cell) => cell.people),
    places: cells.map(({ complete }) => complete.map((x) => reordered(x, model.order))),
  }));
  const size = groups.reduce((sum, { observed }) => sum + observed.length, 0);
  const repetitions = repetitionsOf(chains, size);
  const drawn = Array.from({ length: size }, () => new Float64Array(repetitions));
  const expected = new Float64Array(size);
  const dice = diceOf(randomStream(seed, taskNumber("latent class repetitions")));
  let asFar = 0;
  for (let repetition = 0; repetition < repetitions; repetition += 1) {
    const chances = chancesAt(model, chains, repetition, repetitions);
    let cell = 0;
    let seen = 0;
    let again = 0;
    for (const { population, people, observed, places } of groups) {
      const shares = places.map((complete) => chances(population, complete));
      const counts = multinomial(people, shares, dice);
      for (const [k, share] of shares.entries()) {
        const mean = people * share;
        expected[cell] = (expected[cell] as number) + mean / repetitions;
        (drawn[cell] as Float64Array)[repetition] = counts[k] as number;
        if (mean > 0) {
          seen += 2 * deviance(observed[k] as number, mean);
          again += 2 * deviance(counts[k] as number, mean);
        }
        cell += 1;
      }
    }
    if (again >= seen) asFar += 1;
  }
  return {
    patterns: patternsOf(input, model, drawn, expected, level),
    overall: { p: size > 0 ? asFar / repetitions : null },
  };
}

function repetitionsOf(chains: readonly Chain[], size: number): number {
  const draws = chains.length * (chains[0]?.logits[0]?.length ?? 0);
  const room = Math.max(FEWEST_REPETITIONS, Math.floor(ROOM / Math.max(1, size)));
  return Math.min(draws, room, MOST_REPETITIONS);
}

/** P(pattern) in a population at one of the draws, which are taken evenly from all chains. */
function chancesAt(model: BayesianModel, chains: readonly Chain[], repetition: number, repetitions: number) {
  const length = chains[0]?.logits[0]?.length ?? 0;
  const draw = Math.floor(((repetition + 0.5) * chains.length * length) / repetitions);
  const { logits } = chains[Math.floor(draw / length)] as Chain;
  const shares = Float64Array.from(logits, (column) => fromLogit(column[draw % length] as number));
  const size = 2 ** model.data.tests;
  const tables = ([0, 1] as const).map((condition) => {
    const table = new Float64Array(size);
    fillTable(model, shares, condition, table, new Float64Array(size));
    return table;
  });
  return (population: number, places: Int32Array) => {
    const present = shares[model.layout.prevalence(population)] as number;
    let sum = 0;
    for (const place of places) {
      sum += present * (tables[0]?.[place] as number) + (1 - present) * (tables[1]?.[place] as number);
    }
    return Math.min(1, sum);
  };
}

function multinomial(people: number, shares: readonly number[], dice: Dice): number[] {
  let left = people;
  let chance = 1;
  return shares.map((share, k) => {
    const last = k === shares.length - 1 || share >= chance;
    const drawn = last ? left : dice.binomial(left, Math.min(1, share / chance));
    left -= drawn;
    chance -= share;
    return drawn;
  });
}

function patternsOf(
  input: BayesianInput,
  { data }: BayesianModel,
  drawn: readonly Float64Array[],
  expected: Float64Array,
  level: number,
): BayesianValues["check"]["patterns"] {
  const tail = (1 - level) / 2;
  const cells = data.groups.flatMap(({ population, done, cells }) =>
    cells.map(({ results, people }) => ({ population, done, results, people })),
  );
  return cells.map(({ population, done, results, people }, cell) => {
    const sorted = (drawn[cell] as Float64Array).sort();
    const below = sorted.filter((count) => count <= people).length / sorted.length;
    const above = sorted.filter((count) => count >= people).length / sorted.length;
    return {
      population: input.populations[population]?.label ?? "",
      results: input.tests.map((_, test) => wordOf(done >> test, results >> test)),
      observed: people,
      expected: expected[cell] as number,
      lower: sorted[Math.floor(tail * sorted.length)] as number,
      upper: sorted[Math.ceil((1 - tail) * sorted.length) - 1] as number,
      p: Math.min(1, 2 * Math.min(below, above)),
    };
  });
}

function wordOf(done: number, reactive: number) {
  if (done % 2 === 0) return "not_done";
  return reactive % 2 === 1 ? "reactive" : "nonreactive";
}
