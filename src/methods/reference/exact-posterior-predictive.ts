import {
  type Characteristic,
  characteristicCdf,
  characteristicDensity,
  expitMoments,
} from "../../numeric/characteristic.ts";
import { gammaTurn, type PolarTable } from "../../numeric/complex-gamma.ts";
import { logGamma } from "../../numeric/gamma-function.ts";
import type { ShareDistribution } from "./exact-posterior-share.ts";
import { type ConditionTable, nothingOf } from "./exact-posterior-weights.ts";
import type { BetaPrior } from "./prior-fields.ts";

/** The priors of one test and of the prevalence. */
export interface TestPriors {
  readonly prevalence: BetaPrior;
  readonly sensitivity: BetaPrior;
  readonly specificity: BetaPrior;
}

/** The negative predictive value is the positive one of the mirrored table under these. */
export function mirroredPriors({ prevalence, sensitivity, specificity }: TestPriors): TestPriors {
  const turned = { alpha: prevalence.beta, beta: prevalence.alpha };
  return { prevalence: turned, sensitivity: specificity, specificity: sensitivity };
}

/** Nobody: for predictive values by the priors alone. */
export const NO_PEOPLE: ConditionTable = { reactive: 0, nonreactive: 0, weights: Float64Array.of(1) };

/** Tails of e^-30 are let go. */
const LOG_TAIL = 30;
/** The logistic variable by which means are had needs as much room on either side. */
const LOGISTIC_ROOM = 32;
const DIED_AWAY = 1e-14;
const MOST_PLACES = 30_000;
const MOST_WORK = 5e9;

/**
 * The positive predictive value. Given how the people are shared out, its log odds are those of the prevalence plus
 * the log of a sensitivity less the log of a share of false positives: a sum of independent logs of beta variables,
 * whose characteristic functions are quotients of gamma functions. Mixed over all ways, then turned back into a
 * distribution.
 *
 * @returns `null` where shapes so small would need a sum too long
 */
export function predictiveValue(table: ConditionTable, priors: TestPriors): ShareDistribution | null {
  const ways = kept(table);
  const { least, most } = reachOf(table, ways, priors);
  const room = Math.max(most - least, Math.max(Math.abs(least), Math.abs(most)) + LOGISTIC_ROOM);
  // The function never dies away before about t = 10.
  if (room > MOST_PLACES / 2) return null;
  const characteristic = characteristicOf(table, ways, priors, (2 * Math.PI) / room);
  if (characteristic === null) return null;
  return {
    ...expitMoments(characteristic),
    cdf: (logOdds) => {
      if (logOdds <= least) return 0;
      return logOdds >= most ? 1 : characteristicCdf(characteristic, logOdds);
    },
    density: (share) => {
      const overOdds = characteristicDensity(characteristic, Math.log(share / (1 - share)));
      return Math.max(0, overOdds) / (share * (1 - share));
    },
  };
}

/** Log odds beyond which no chance worth naming lies: Chernoff's bound at several powers. */
function reachOf(table: ConditionTable, ways: Ways, priors: TestPriors): { least: number; most: number } {
  const { prevalence, sensitivity, specificity } = priors;
  let [mostUp, mostDown] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  ways.right.forEach((right, way) => {
    const present = ways.present[way] as number;
    const absent = table.reactive + table.nonreactive - present;
    mostUp = Math.min(mostUp, prevalence.beta + absent, specificity.beta + table.reactive - right);
    mostDown = Math.min(mostDown, prevalence.alpha + present, sensitivity.alpha + right);
  });
  const powers = [0.5, 1, 2, 4, 8, 16, 32, 64, 128];
  const bound = (side: 1 | -1, limit: number) =>
    Math.min(
      ...[...powers.filter((power) => power < 0.9 * limit), 0.5 * limit, 0.9 * limit].map(
        (power) => (logMoment(table, ways, priors, side * power) + LOG_TAIL) / power,
      ),
    );
  return { least: -bound(-1, mostDown), most: bound(1, mostUp) };
}

/** Ways of some weight: people with the condition among those reactive, in all, and the weight. */
interface Ways {
  readonly right: Int32Array;
  readonly present: Int32Array;
  readonly weight: Float64Array;
}

function kept({ reactive, weights }: ConditionTable): Ways {
  const places: number[] = [];
  const nothing = nothingOf(weights);
  weights.forEach((weight, place) => {
    if (weight > nothing) places.push(place);
  });
  const right = Int32Array.from(places, (place) => place % (reactive + 1));
  return {
    right,
    present: right.map((i, way) => i + ((places[way] as number) - i) / (reactive + 1)),
    weight: Float64Array.from(places, (place) => weights[place] as number),
  };
}

/** log of E[odds^power] of the predictive value. */
function logMoment(table: ConditionTable, ways: Ways, priors: TestPriors, power: number): number {
  const { prevalence, sensitivity, specificity } = priors;
  const { reactive, nonreactive } = table;
  const people = reactive + nonreactive;
  const raised = (shape: number, by: number, steps: number) =>
    Float64Array.from({ length: steps + 1 }, (_, k) =>
      shape + k + by > 0 ? logGamma(shape + k + by) - logGamma(shape + k) : Number.NaN,
    );
  const right = raised(sensitivity.alpha, power, reactive);
  const wrong = raised(specificity.beta, -power, reactive);
  const ill = raised(sensitivity.alpha + sensitivity.beta, power, people);
  const well = raised(specificity.alpha + specificity.beta, -power, people);
  const present = raised(prevalence.alpha, power, people);
  const absent = raised(prevalence.beta, -power, people);
  const at = (values: Float64Array, place: number) => values[place] as number;
  const logs = ways.weight.map((weight, way) => {
    const [i, k] = [ways.right[way] as number, ways.present[way] as number];
    const forPresent = at(present, k) + at(absent, people - k) - at(ill, k) - at(well, people - k);
    return Math.log(weight) + at(right, i) + at(wrong, reactive - i) + forPresent;
  });
  const peak = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  return peak + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - peak), 0));
}

function characteristicOf(
  table: ConditionTable,
  ways: Ways,
  priors: TestPriors,
  step: number,
): Characteristic | null {
  const real: number[] = [];
  const imaginary: number[] = [];
  for (let faded = 0; faded < 16; ) {
    const [x, y] = characteristicAt(table, ways, priors, (real.length + 0.5) * step);
    real.push(x);
    imaginary.push(y);
    faded = Math.hypot(x, y) < DIED_AWAY ? faded + 1 : 0;
    if (real.length > MOST_PLACES) return null;
    if (real.length * (ways.weight.length + 100 * (table.reactive + table.nonreactive)) > MOST_WORK)
      return null;
  }
  return { step, real: Float64Array.from(real), imaginary: Float64Array.from(imaginary) };
}

/** E[exp(i t log odds)]: a part that hangs on i alone, times one that hangs on i + j alone, summed over the table. */
function characteristicAt(
  { reactive, nonreactive }: ConditionTable,
  ways: Ways,
  { prevalence, sensitivity, specificity }: TestPriors,
  t: number,
): [number, number] {
  const people = reactive + nonreactive;
  const byRight = product(reactive, [
    [gammaTurn(sensitivity.alpha, t, reactive), 1, (i) => i],
    [gammaTurn(specificity.beta, -t, reactive), 1, (i) => reactive - i],
  ]);
  const byPresent = product(people, [
    [gammaTurn(sensitivity.alpha + sensitivity.beta, t, people), -1, (k) => k],
    [gammaTurn(specificity.alpha + specificity.beta, -t, people), -1, (k) => people - k],
    [gammaTurn(prevalence.alpha, t, people), 1, (k) => k],
    [gammaTurn(prevalence.beta, -t, people), 1, (k) => people - k],
  ]);
  // One factor may be as small as the other is large: their sizes are evened out at the middle way.
  const middle = byPresent.logSize[ways.present[ways.present.length >> 1] as number] as number;
  const [first, second] = [rectangular(byRight, middle), rectangular(byPresent, -middle)];
  let [x, y] = [0, 0];
  for (let way = 0; way < ways.weight.length; way += 1) {
    const [i, k] = [2 * (ways.right[way] as number), 2 * (ways.present[way] as number)];
    const [a, b] = [first[i] as number, first[i + 1] as number];
    const [c, d] = [second[k] as number, second[k + 1] as number];
    const weight = ways.weight[way] as number;
    x += weight * (a * c - b * d);
    y += weight * (a * d + b * c);
  }
  return [x, y];
}

/** Real and imaginary parts in turn, the size multiplied by e^`shift`. */
function rectangular({ logSize, angle }: PolarTable, shift: number): Float64Array {
  const parts = new Float64Array(2 * logSize.length);
  logSize.forEach((log, place) => {
    const size = Math.exp(Math.min(300, log + shift));
    parts[2 * place] = size * Math.cos(angle[place] as number);
    parts[2 * place + 1] = size * Math.sin(angle[place] as number);
  });
  return parts;
}

type Factor = readonly [PolarTable, 1 | -1, (place: number) => number];

function product(steps: number, factors: readonly Factor[]): PolarTable {
  const logSize = new Float64Array(steps + 1);
  const angle = new Float64Array(steps + 1);
  for (let place = 0; place <= steps; place += 1) {
    for (const [table, power, at] of factors) {
      logSize[place] = (logSize[place] as number) + power * (table.logSize[at(place)] as number);
      angle[place] = (angle[place] as number) + power * (table.angle[at(place)] as number);
    }
  }
  return { logSize, angle };
}
