import { randomStream, taskNumber } from "../../core/random.ts";
import { climb, type Summit } from "./latent-climb.ts";
import type { LatentData } from "./latent-data.ts";
import { expectationMaximisation } from "./latent-em.ts";
import { randomPlace } from "./latent-identified.ts";
import { classesExchanged, fromLogit, type LatentLayout, youdenSum } from "./latent-layout.ts";

export interface Found {
  readonly best: Summit;
  /** Starts that ended as high as the best. */
  readonly reachedBest: number;
  /** Whether starts ended equally high with different shares: the maximum is not one place. */
  readonly several: boolean;
}

/** Log-likelihoods this close are the same. */
const SAME_HEIGHT = 1e-6;
/** Shares further apart than this are different answers. */
const APART = 1e-3;

/**
 * The highest of many climbs, each from its own random place: expectation and maximisation first, Newton steps
 * to finish. The classes are named so that sensitivities + specificities - tests is above 0.
 */
export function searchOf(data: LatentData, layout: LatentLayout, starts: number, seed: number): Found {
  const task = taskNumber("latent class starts");
  const nobodyHeld = new Array<boolean>(layout.size).fill(false);
  const summits = Array.from({ length: starts }, (_, start): Summit => {
    const random = randomStream(seed, (task + start) >>> 0);
    const begun = expectationMaximisation(randomPlace(random, data, layout), data, layout);
    const summit = climb(begun, nobodyHeld, data, layout, "scoring");
    const theta = summit.theta;
    const named = youdenSum(theta, data, layout) < 0 ? classesExchanged(theta, data, layout) : theta;
    return { ...summit, theta: named };
  });
  const best = summits.reduce((a, b) => (b.logLikelihood > a.logLikelihood ? b : a));
  const asHigh = summits.filter(({ logLikelihood }) => logLikelihood > best.logLikelihood - SAME_HEIGHT);
  const several = asHigh.some(
    ({ theta, converged }) => converged && distance(theta, best.theta, data) > APART,
  );
  const finished = climb(best.theta, nobodyHeld, data, layout, "newton");
  return { best: finished, reachedBest: asHigh.length, several };
}

function distance(a: Float64Array, b: Float64Array, { populations, tests }: LatentData): number {
  let most = 0;
  for (let place = 0; place < populations + 2 * tests; place += 1) {
    most = Math.max(most, Math.abs(fromLogit(a[place] as number) - fromLogit(b[place] as number)));
  }
  return most;
}
