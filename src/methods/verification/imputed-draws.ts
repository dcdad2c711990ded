import { randomBeta, randomBinomial } from "d3-random";
import { randomStream } from "../../core/random.ts";
import type { Part } from "./extreme-cases.ts";
import { type Cell, MEASURES, type Measure, peopleIn } from "./fields.ts";

const JEFFREYS = 0.5;

/** The measures of one completed table, as counts. */
export type CompletedCounts = Readonly<Record<Measure, Part>>;

/**
 * One imputation: the share of diseased in each cell is drawn from its posterior (Jeffreys prior), then the
 * diseased among the unverified from a binomial. Imputation number k has the random stream (seed, k) to itself.
 */
export function imputation(cells: readonly Cell[], seed: number, number: number): CompletedCounts {
  const random = randomStream(seed, number);
  const beta = randomBeta.source(random);
  const binomial = randomBinomial.source(random);
  const sums = { reactive: { diseased: 0, people: 0 }, nonreactive: { diseased: 0, people: 0 } };
  for (const cell of cells) {
    const sum = sums[cell.result];
    sum.people += peopleIn(cell);
    sum.diseased += cell.diseased;
    if (cell.unverified === 0) continue;
    const share = beta(cell.diseased + JEFFREYS, cell.nondiseased + JEFFREYS)();
    sum.diseased += binomial(cell.unverified, share)();
  }
  return countsOf(sums.reactive, sums.nonreactive);
}

interface Sum {
  readonly diseased: number;
  readonly people: number;
}

function countsOf(reactive: Sum, nonreactive: Sum): CompletedCounts {
  const wrong = reactive.people - reactive.diseased;
  const cleared = nonreactive.people - nonreactive.diseased;
  const diseased = reactive.diseased + nonreactive.diseased;
  return {
    sensitivity: { count: reactive.diseased, total: diseased },
    specificity: { count: cleared, total: cleared + wrong },
    prevalence: { count: diseased, total: reactive.people + nonreactive.people },
    ppv: { count: reactive.diseased, total: reactive.people },
    npv: { count: cleared, total: nonreactive.people },
  };
}

/** All imputations, by measure. */
export function imputations(
  cells: readonly Cell[],
  total: number,
  seed: number,
): Readonly<Record<Measure, readonly Part[]>> {
  const all = Array.from({ length: total }, (_, number) => imputation(cells, seed, number));
  return Object.fromEntries(
    MEASURES.map((measure) => [measure, all.map((completed) => completed[measure])]),
  ) as unknown as Record<Measure, readonly Part[]>;
}
