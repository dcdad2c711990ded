import { InputError } from "../../core/input-error.ts";
import { jointOf } from "./dependence.ts";
import type { Dependence } from "./fields.ts";
import type { Algorithm, Kit, Truth } from "./model.ts";
import { followPaths, type PathPlan, type TruthOutcome, validRuns } from "./path-outcomes.ts";
import { checkAlgorithm, type Path, pathsOf } from "./paths.ts";

/** Most valid runs that one person may have, both passes together. */
export const MOST_RUNS = 12;
/** The same where the dependence is stated by pairs. */
export const MOST_RUNS_BY_PAIRS = 5;
/** Most combinations of a first and a second pass. */
const MOST_COMBINED = 100_000;

/** An algorithm added up for both truths: all that prevalence does not touch. */
export interface FollowedAlgorithm extends Readonly<Record<Truth, TruthOutcome>> {
  readonly plan: PathPlan;
}

/**
 * Lays an algorithm out path by path.
 * @param place where kits, steps and dependence stand, for the error messages
 * @throws InputError where it can't be followed (see `checkAlgorithm`), or one person may have too many runs
 */
export function layOut(
  kits: readonly Kit[],
  { steps, retest }: Algorithm,
  place: readonly (string | number)[] = ["input"],
): PathPlan {
  checkAlgorithm({ steps, retest }, kits, place);
  const paths = pathsOf({ steps, retest }, kits, place);
  const plan = { kits, steps, retest, paths };
  const runs = mostRuns(plan);
  if (runs > MOST_RUNS) {
    throw new InputError([...place, "steps"], `at most ${MOST_RUNS} valid runs for one person`, runs);
  }
  const combined = retest === null ? 0 : inconclusive(paths).length * paths.length;
  if (combined > MOST_COMBINED) {
    const expected = `at most ${MOST_COMBINED.toLocaleString("en-GB")} ways through both passes`;
    throw new InputError([...place, "retest"], expected, combined);
  }
  return plan;
}

/**
 * Adds an algorithm up under a dependence.
 * @param kits, dependence, place as of `layOut`
 * @throws InputError for a dependence that the kits don't allow; where a statement by pairs would have to reach
 *   more than five valid runs of one person
 */
export function followAlgorithm(
  plan: PathPlan,
  dependence: Dependence,
  place: readonly (string | number)[] = ["input"],
): FollowedAlgorithm {
  const runs = mostRuns(plan);
  if (dependence.kind === "pairs" && runs > MOST_RUNS_BY_PAIRS) {
    const twice = plan.retest === null ? "" : ", both passes together";
    throw new InputError(
      [...place, "dependence", "kind"],
      `"shared" (or "independent") where one person may have ${runs} valid runs${twice}: pairs reach ${MOST_RUNS_BY_PAIRS}`,
      dependence.kind,
    );
  }
  const shares = (of: (kit: Kit) => number) => plan.kits.map((kit) => ({ id: kit.id, reactive: of(kit) }));
  return {
    plan,
    diseased: followPaths(
      plan,
      jointOf(
        shares(({ sensitivity }) => sensitivity),
        dependence,
        "diseased",
      ),
    ),
    nondiseased: followPaths(
      plan,
      jointOf(
        shares(({ specificity }) => 1 - specificity),
        dependence,
        "nondiseased",
      ),
    ),
  };
}

function inconclusive(paths: readonly Path[]): Path[] {
  return paths.filter(({ status }) => status === "inconclusive");
}

/** Most valid runs that one person may have, both passes together. */
export function mostRuns({ paths, retest }: Pick<PathPlan, "paths" | "retest">): number {
  const longest = (some: readonly Path[]) =>
    some.reduce((most, path) => Math.max(most, validRuns(path).length), 0);
  const returning = inconclusive(paths);
  if (retest === null || returning.length === 0) return longest(paths);
  return longest(returning) + longest(paths);
}
