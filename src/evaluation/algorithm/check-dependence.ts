import { InputError } from "../../core/input-error.ts";
import { followAlgorithm, layOut } from "../../methods/algorithms/followed.ts";
import { frontierSearch } from "../../methods/algorithms/frontier-search.ts";
import type { AlgorithmFile } from "../../records/algorithm/algorithm-schema.ts";
import type { Fault } from "../../records/yaml-file.ts";
import type { FollowedAlgorithm } from "./document.ts";
import { followedAlgorithms, type RunTogether, runTogether } from "./follow.ts";
import { boundsOf, pairStated } from "./pairs.ts";
import { searchedKits, searchedTogether } from "./searched.ts";
import { searchInput } from "./sections/frontier.ts";
import { algorithmWorktop } from "./worktop.ts";

/** Two kits that somebody may be tested with, and what does so. */
interface Needed extends RunTogether {
  readonly analyte: string;
  readonly by: string;
}

/**
 * Faults of what an algorithm file says of dependence, found by following its algorithms: whether it covers every two
 * runs that one person may have (independence has to be named, it is never assumed), and whether the kits allow it.
 */
export function checkDependence(file: AlgorithmFile, fault: Fault): void {
  const followed = followedAlgorithms(file);
  let faults = 0;
  const found: Fault = (path, expected, received) => {
    faults += 1;
    fault(path, expected, received);
  };
  const needed = neededPairs(file, followed, found);
  if (faults === 0) checkStated(file, needed, found);
  if (faults === 0) checkBounds(file, needed, found);
  if (faults === 0) checkPossible(file, followed, found);
}

function neededPairs(file: AlgorithmFile, followed: readonly FollowedAlgorithm[], fault: Fault): Needed[] {
  const needed: Needed[] = [];
  followed.forEach((one, at) => {
    const by = `algorithm ${one.algorithm}`;
    attempt(by, ["algorithms", at, "steps"], "more", fault, () => {
      for (const pair of runTogether(file, one)) needed.push({ ...pair, analyte: one.analyte, by });
    });
  });
  return [...needed, ...searchedTogether(file).map((pair) => ({ ...pair, by: "the search" }))];
}

/** Whether something is said of every two runs. */
function checkStated(file: AlgorithmFile, needed: readonly Needed[], fault: Fault): void {
  const { dependence } = file;
  const [any] = needed;
  if (any === undefined || dependence?.kind === "independent") return;
  if (dependence === undefined) {
    const expected = `how far kits are wrong about the same people (kind: pairs, shared or independent), as ${any.by} may run ${named(any)} on one person`;
    fault(["dependence"], expected, undefined);
    return;
  }
  if (dependence.kind === "shared") {
    const repeat = needed.find(({ first, second }) => first === second);
    if (repeat === undefined || dependence.same_kit !== undefined) return;
    const expected = `same_kit, as ${repeat.by} may run ${named(repeat)} on one person (0 and 0 if nothing more is shared)`;
    fault(["dependence"], expected, undefined);
    return;
  }
  const told = new Set<string>();
  for (const pair of needed) {
    const key = `${pair.analyte} ${pair.first} ${pair.second}`;
    if (told.has(key) || pairStated(file, pair.analyte, pair.first, pair.second) !== null) continue;
    told.add(key);
    const expected = `the pair ${named(pair)} for ${pair.analyte}, as ${pair.by} may run both on one person (0 and 0 if their errors are independent)`;
    fault(["dependence", "pairs"], expected, undefined);
  }
}

const named = ({ first, second }: RunTogether) =>
  first === second ? `${first} and ${first} again` : `${first} and ${second}`;

const TRUTHS = [
  { field: "positive", truth: "diseased" },
  { field: "negative", truth: "nondiseased" },
] as const;

/** How far a correlation may be beyond a bound by rounding alone. */
const ROUNDING = 1e-12;

/** Two results that are each mostly right can't hang together in every degree. */
function checkBounds(file: AlgorithmFile, needed: readonly Needed[], fault: Fault): void {
  const { dependence } = file;
  if (dependence?.kind !== "pairs") return;
  const told = new Set<string>();
  for (const { analyte, first, second } of [...allStated(file), ...needed]) {
    const stated = pairStated(file, analyte, first, second);
    if (stated === null || stated.source === "estimated" || told.has(`${analyte} ${first} ${second}`))
      continue;
    told.add(`${analyte} ${first} ${second}`);
    const bounds = boundsOf(file, analyte, first, second);
    for (const { field, truth } of TRUTHS) {
      const { least, most } = bounds[truth];
      const phi = stated[truth];
      if (phi >= least - ROUNDING && phi <= most + ROUNDING) continue;
      const expected = `${short(least)} to ${short(most)}, all that the accuracies of ${first} and ${second} for ${analyte} allow`;
      fault([...placeOf(file, analyte, first, second), field], expected, phi);
    }
  }
}

/** Every pair that the file names, with each analyte that both kits show. */
function allStated({ dependence, analytes, kits }: AlgorithmFile) {
  if (dependence?.kind !== "pairs") return [];
  const shows = (id: string, analyte: string) =>
    Object.hasOwn(kits.find((kit) => kit.id === id)?.analytes ?? {}, analyte);
  return dependence.pairs.flatMap(({ kits: [first, second], analyte: only }) =>
    analytes
      .filter(({ id }) => (only === undefined || only === id) && shows(first, id) && shows(second, id))
      .map(({ id }) => ({ analyte: id, first, second })),
  );
}

function placeOf({ dependence }: AlgorithmFile, analyte: string, first: string, second: string) {
  const pairs = dependence?.kind === "pairs" ? dependence.pairs : [];
  const at = pairs.findIndex(
    ({ kits, analyte: only }) =>
      (only === undefined || only === analyte) &&
      ((kits[0] === first && kits[1] === second) || (kits[0] === second && kits[1] === first)),
  );
  if (at >= 0) return ["dependence", "pairs", at];
  return ["dependence", first === second ? "repeat" : "others"];
}

/** Whether the algorithms, and those searched, can be followed with it: correlations that fit each other, and not too many runs. */
function checkPossible(file: AlgorithmFile, followed: readonly FollowedAlgorithm[], fault: Fault): void {
  const worktop = algorithmWorktop(file);
  for (const one of followed) {
    const at = file.algorithms.findIndex(({ id }) => id === one.algorithm);
    attempt(`algorithm ${one.algorithm}`, ["algorithms", at], one.algorithm, fault, () => {
      const kits = worktop.kitsOf(one.analyte, one.kits);
      const retest = one.retested === null ? null : { share: 1 };
      followAlgorithm(layOut(kits, { steps: [...one.steps], retest }), worktop.dependenceOf([one]));
    });
  }
  if (file.search === undefined) return;
  for (const { id } of file.analytes.filter((analyte) => searchedKits(file, analyte.id).length > 0)) {
    attempt(`the search for ${id}`, ["search"], file.search, fault, () => {
      frontierSearch(searchInput(worktop, id));
    });
  }
}

/** A fault where something can't be reckoned; targets that leave nothing to search are none. */
function attempt(
  what: string,
  path: readonly (string | number)[],
  received: unknown,
  fault: Fault,
  run: () => void,
): void {
  try {
    run();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    if (error.path.at(-1) === "constraints") return;
    const ofDependence = error.path.includes("dependence");
    fault(
      ofDependence ? ["dependence"] : path,
      `for ${what}: ${error.expected}`,
      ofDependence ? undefined : received,
    );
  }
}

const short = (phi: number) => String(Math.trunc(phi * 1e6) / 1e6);
