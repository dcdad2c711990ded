import { randomBinomial } from "d3-random";
import { type RandomSource, randomStream } from "../../core/random.ts";
import { kappaEstimate } from "../agreement/kappa-estimate.ts";
import { sharesOf } from "../agreement/square-shares.ts";
import { weightsFor } from "../agreement/weights.ts";
import type { ReadersTable } from "./readers-table.ts";

/** What studies of one size give. */
export interface SimulatedKappa {
  readonly halfWidth: number | null;
  readonly asPrecise: number;
  readonly coverage: number;
  readonly withoutInterval: number;
}

interface Wanted {
  readonly kappa: number;
  readonly halfWidth: number;
  /** Standard errors from the middle of the interval to its end. */
  readonly multiple: number;
}

/** A half-width longer than wanted by less than this share of it is not longer. */
const ROUNDING = 1e-12;

/**
 * Draws studies of so many items and evaluates each as `agreement.kappa` does. A study without an interval
 * (readers who agree on all items, or with one category only) neither contains kappa nor is precise.
 */
export function simulateKappa(
  shares: ReadersTable,
  total: number,
  { kappa, halfWidth, multiple }: Wanted,
  { draws, seed }: { readonly draws: number; readonly seed: number },
): SimulatedKappa {
  const weights = weightsFor("none", 2);
  let [widths, precise, covering, without] = [0, 0, 0, 0];
  for (let draw = 0; draw < draws; draw += 1) {
    const found = kappaEstimate(sharesOf(drawTable(shares, total, randomStream(seed, draw))), weights);
    if (found.kappa === null || !found.standardError) {
      without += 1;
      continue;
    }
    const reach = multiple * found.standardError;
    widths += reach;
    if (reach <= halfWidth * (1 + ROUNDING)) precise += 1;
    if (Math.abs(found.kappa - kappa) <= reach) covering += 1;
  }
  return {
    halfWidth: without === draws ? null : widths / (draws - without),
    asPrecise: precise / draws,
    coverage: covering / draws,
    withoutInterval: without / draws,
  };
}

/** One table: cell after cell from a binomial distribution given those before it. */
function drawTable(shares: ReadersTable, total: number, random: RandomSource): number[][] {
  const binomial = randomBinomial.source(random);
  let left = total;
  let rest = 1;
  const draw = (share: number) => {
    const drawn = left === 0 || share <= 0 ? 0 : share >= rest ? left : binomial(left, share / rest)();
    left -= drawn;
    rest -= share;
    return drawn;
  };
  const firstOnly = draw(shares.firstOnly);
  const secondOnly = draw(shares.secondOnly);
  const both = draw(shares.both);
  return [
    [both, firstOnly],
    [secondOnly, left],
  ];
}
