import { randomBinomial } from "d3-random";
import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { type RandomSource, randomStream, taskNumber } from "../../core/random.ts";
import { percentileLimits } from "../clusters/bootstrap-limits.ts";
import { notesAt } from "../notes-at.ts";
import { climb, type Summit } from "./latent-climb.ts";
import type { LatentData, LatentGroup } from "./latent-data.ts";
import { expectationMaximisation } from "./latent-em.ts";
import type { LatentOptions } from "./latent-fields.ts";
import { classesExchanged, fromLogit, type LatentLayout, youdenSum } from "./latent-layout.ts";
import { summed } from "./latent-likelihood.ts";
import { type ClassTable, classTables } from "./latent-tables.ts";

/** People drawn from the fitted model and fitted again, many times. */
export interface DrawnAgain {
  /** Something made of the unknowns, with the percentile limits of its replicates. */
  readonly estimateOf: (valueAt: (theta: Float64Array) => number) => Estimate;
  readonly notes: readonly Note[];
}

/** If less than this share of the replicates can be fitted, the rest give no limits. */
const LEAST_FITTED = 0.5;

/**
 * The parametric bootstrap: as many people as were seen, with the same tests done, drawn from the fitted model and
 * fitted again. Every replicate has its own random stream, so that it is the same however they are split. Those whose
 * fit does not come to an end are left out, and counted in a note.
 *
 * Behaves badly where the fitted model has a share of 0 or 1: nobody is then drawn who would speak against it.
 * Source: efron1993
 */
export function drawnAgain(
  summit: Summit,
  data: LatentData,
  layout: LatentLayout,
  { level, replicates, seed }: Pick<LatentOptions, "level" | "replicates" | "seed">,
): DrawnAgain {
  const chances = chancesOf(summit.theta, data, layout);
  const fitted = Array.from({ length: replicates }, (_, replicate) =>
    replicateOf(replicate, { summit, chances, data, layout, seed }),
  );
  const thetas = fitted.filter((theta) => theta !== null);
  return {
    estimateOf: (valueAt) => {
      const value = valueAt(summit.theta);
      if (thetas.length < LEAST_FITTED * replicates) return { value, lower: null, upper: null };
      return { value, ...percentileLimits(Float64Array.from(thetas, valueAt).sort(), level) };
    },
    notes: notesOn(thetas.length, replicates),
  };
}

/** What replicates are drawn from. */
interface Drawing {
  readonly summit: Summit;
  readonly chances: readonly (readonly number[])[];
  readonly data: LatentData;
  readonly layout: LatentLayout;
  readonly seed: number;
}

/** The unknowns fitted to one replicate; `null` where the fit does not come to an end. */
export function replicateOf(
  replicate: number,
  { summit, chances, data, layout, seed }: Drawing,
): Float64Array | null {
  const random = randomStream(seed, (taskNumber("latent class bootstrap") + replicate) >>> 0);
  const groups = data.groups.map((group, place) => drawnGroup(group, chances[place] ?? [], random));
  // A share at its border may leave it in a replicate.
  const start = summit.theta.map((unknown) => Math.min(NEAR_BORDER, Math.max(-NEAR_BORDER, unknown)));
  return fittedAgain(start, { ...data, groups }, layout);
}

function notesOn(fitted: number, replicates: number): Note[] {
  const failed = replicates - fitted;
  if (fitted < LEAST_FITTED * replicates) {
    const message = `only ${fitted} of ${replicates} replicates could be fitted: no limits`;
    return notesAt("no_limits", ["tests", "populations", "couplings"], message);
  }
  if (failed === 0) return [];
  const message = `${failed} of ${replicates} replicates could not be fitted and are left out of the limits`;
  return [note("failed_replicates", "tests", message)];
}

const NEAR_BORDER = 5;

/** For each group, the chance of each of its patterns. */
export function chancesOf(theta: Float64Array, data: LatentData, layout: LatentLayout): number[][] {
  const tables = classTables(theta, data, layout);
  return data.groups.map(({ population, cells }) => {
    const prevalence = fromLogit(theta[layout.prevalence(population)] as number);
    const within = (table: ClassTable, complete: Int32Array) => summed(table.cells, complete);
    return cells.map(
      ({ complete }) =>
        prevalence * within(tables[0], complete) + (1 - prevalence) * within(tables[1], complete),
    );
  });
}

/** Pattern after pattern from a binomial distribution given those before it, the likeliest first. */
function drawnGroup(group: LatentGroup, chances: readonly number[], random: RandomSource): LatentGroup {
  const binomial = randomBinomial.source(random);
  const order = [...chances.keys()].sort((a, b) => (chances[b] as number) - (chances[a] as number));
  const people = new Array<number>(chances.length).fill(0);
  let left = group.people;
  let rest = chances.reduce((sum, chance) => sum + chance, 0);
  for (const place of order) {
    if (left === 0) break;
    const chance = chances[place] as number;
    const drawn = chance >= rest * (1 - 1e-12) ? left : binomial(left, chance / rest)();
    people[place] = drawn;
    left -= drawn;
    rest -= chance;
  }
  return {
    ...group,
    cells: group.cells.map((cell, place) => ({ ...cell, people: people[place] as number })),
  };
}

/** From the fitted model itself; by way of expectation and maximisation where that does not end. */
function fittedAgain(start: Float64Array, data: LatentData, layout: LatentLayout): Float64Array | null {
  const nobodyHeld = new Array<boolean>(layout.size).fill(false);
  let summit = climb(start, nobodyHeld, data, layout, "scoring");
  if (!summit.converged) {
    summit = climb(expectationMaximisation(start, data, layout), nobodyHeld, data, layout, "scoring");
  }
  if (!summit.converged) return null;
  return youdenSum(summit.theta, data, layout) < 0
    ? classesExchanged(summit.theta, data, layout)
    : summit.theta;
}
