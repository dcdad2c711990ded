import { binomialMass } from "../../numeric/binomial.ts";
import type { Look } from "./looks.ts";

/** Probabilities of the numbers right, from `from` on, among studies that are still going on. */
export interface Alive {
  readonly from: number;
  readonly mass: Float64Array;
}

/** Nobody seen yet. */
export const START: Alive = { from: 0, mass: Float64Array.of(1) };

/** Probabilities up to this are left out at both ends. */
const NEGLIGIBLE = 1e-30;

/** The binomial probabilities of a step, but for ends that hardly ever happen. */
function binomialStep(people: number, truth: number): Alive {
  const middle = Math.min(people, Math.floor((people + 1) * truth));
  let [from, to] = [middle, middle];
  while (from > 0 && binomialMass(from - 1, people, truth) > NEGLIGIBLE) from -= 1;
  while (to < people && binomialMass(to + 1, people, truth) > NEGLIGIBLE) to += 1;
  const mass = Float64Array.from({ length: to - from + 1 }, (_, at) =>
    binomialMass(from + at, people, truth),
  );
  return { from, mass };
}

/** The steps of one true proportion by their number of people, each found once. */
export type Steps = (people: number) => Alive;

export function stepsOf(truth: number): Steps {
  const known = new Map<number, Alive>();
  return (people) => {
    const found = known.get(people) ?? binomialStep(people, truth);
    known.set(people, found);
    return found;
  };
}

/** The numbers right after one more step. */
export function advance(alive: Alive, step: Alive): Alive {
  const before = alive.mass;
  const more = step.mass;
  if (before.length === 0) return alive;
  const mass = new Float64Array(before.length + more.length - 1);
  for (let at = 0; at < before.length; at += 1) {
    const here = before[at] as number;
    for (let by = 0; by < more.length; by += 1) {
      mass[at + by] = (mass[at + by] as number) + here * (more[by] as number);
    }
  }
  return trimmed(alive.from + step.from, mass);
}

/** Without the ends that hardly ever happen. */
function trimmed(from: number, mass: Float64Array): Alive {
  let [first, end] = [0, mass.length];
  while (first < end && (mass[first] as number) <= NEGLIGIBLE) first += 1;
  while (end > first && (mass[end - 1] as number) <= NEGLIGIBLE) end -= 1;
  return { from: from + first, mass: mass.subarray(first, end) };
}

/** What stops at a look, and what goes on. */
export function stopAt(
  alive: Alive,
  { failAt, passFrom }: Pick<Look, "failAt" | "passFrom">,
): { readonly fail: number; readonly pass: number; readonly alive: Alive } {
  const { from, mass } = alive;
  const within = (place: number) => Math.min(Math.max(place, 0), mass.length);
  const first = failAt === null ? 0 : within(failAt + 1 - from);
  const end = passFrom === null ? mass.length : within(passFrom - from);
  let [fail, pass] = [0, 0];
  for (let at = 0; at < first; at += 1) fail += mass[at] as number;
  for (let at = mass.length - 1; at >= end; at -= 1) pass += mass[at] as number;
  return { fail, pass, alive: { from: from + first, mass: mass.slice(first, Math.max(end, first)) } };
}

/** Where studies end, look by look. */
export interface RulePaths {
  /** Probability of passing, and of failing, at each look. */
  readonly pass: readonly number[];
  readonly fail: readonly number[];
  readonly passes: number;
  readonly fails: number;
  readonly expectedTotal: number;
}

/**
 * Follows a stopping rule for one true proportion, exactly: the numbers right among studies still going on,
 * from look to look.
 * @param looks a rule that `requireRule` accepts
 * @param truth true proportion right, 0 to 1
 * Source: schultz1973
 */
export function rulePaths(looks: readonly Look[], truth: number): RulePaths {
  const pass: number[] = [];
  const fail: number[] = [];
  const steps = stepsOf(truth);
  let alive = START;
  let [seen, expectedTotal] = [0, 0];
  for (const look of looks) {
    const stopped = stopAt(advance(alive, steps(look.total - seen)), look);
    pass.push(stopped.pass);
    fail.push(stopped.fail);
    expectedTotal += look.total * (stopped.pass + stopped.fail);
    alive = stopped.alive;
    seen = look.total;
  }
  const sum = (parts: readonly number[]) =>
    Math.min(
      1,
      parts.reduce((so, part) => so + part, 0),
    );
  return { pass, fail, passes: sum(pass), fails: sum(fail), expectedTotal };
}
