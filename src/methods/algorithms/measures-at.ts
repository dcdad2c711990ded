import { WIDTH } from "./path-evaluator.ts";

/** What an algorithm does at one prevalence, per person tested. */
export interface MeasuresAt {
  sensitivity: number;
  specificity: number;
  /** NaN where nobody ends positive; never leaves a method. */
  ppv: number;
  /** NaN where nobody ends negative; never leaves a method. */
  npv: number;
  missed: number;
  falsePositives: number;
  inconclusive: number;
  cost: number;
}

/** What is paid besides the kits. */
export interface OtherCosts {
  readonly perPerson: number;
  readonly perInconclusive: number;
}

/**
 * @param results    as the evaluator gives them
 * @param algorithm  its place among the algorithms
 * @param prevalence share of diseased among those tested
 * @returns shares of all people tested; a missed person is diseased and ends negative; the inconclusive
 *   include the lost, of whom nothing is settled or paid
 */
export function measuresAt(
  results: Float64Array,
  algorithm: number,
  prevalence: number,
  costs: OtherCosts,
): MeasuresAt {
  const at = algorithm * WIDTH;
  const others = 1 - prevalence;
  const number = (place: number) => results[at + place] as number;
  const [truePositives, falsePositives] = [prevalence * number(0), others * number(5)];
  const [missed, trueNegatives] = [prevalence * number(1), others * number(6)];
  const undecided = prevalence * number(2) + others * number(7);
  const lost = prevalence * number(3) + others * number(8);
  const kits = prevalence * number(4) + others * number(9);
  return {
    sensitivity: number(0),
    specificity: number(6),
    ppv: truePositives / (truePositives + falsePositives),
    npv: trueNegatives / (trueNegatives + missed),
    missed,
    falsePositives,
    inconclusive: undecided + lost,
    cost: costs.perPerson + kits + costs.perInconclusive * undecided,
  };
}

/** What must be reached; `null` is not asked for. */
export interface Limits {
  readonly minimumPpv: number | null;
  readonly minimumNpv: number | null;
  readonly mostInconclusive: number | null;
}

/** Whether each limit is kept. A predictive value that nobody has does not reach one. */
export function keeps(measures: MeasuresAt, limits: Limits) {
  const ppv = limits.minimumPpv === null || measures.ppv >= limits.minimumPpv;
  const npv = limits.minimumNpv === null || measures.npv >= limits.minimumNpv;
  const inconclusive = limits.mostInconclusive === null || measures.inconclusive <= limits.mostInconclusive;
  return { ppv, npv, inconclusive, all: ppv && npv && inconclusive };
}
