import { InputError } from "../../core/input-error.ts";
import { type Algorithm, isStatus, type Result, STATUSES, type Status, type Step } from "./model.ts";

/** What a path finds at one of its steps. */
export interface PathPart {
  /** Index into the steps of the algorithm. */
  readonly step: number;
  /** Index into the kits. */
  readonly kit: number;
  readonly result: Result;
}

/** One way through an algorithm, from the first step to a status. */
export interface Path {
  readonly parts: readonly PathPart[];
  readonly status: Status;
}

/** Most paths of one pass: beyond it an algorithm is too entangled to be followed path by path. */
export const MOST_PATHS = 5_000;

const BRANCHES = ["reactive", "nonreactive", "invalid"] as const;

/**
 * Whether an algorithm can be followed: every kit and step that is named exists, every path ends, no step is
 * passed twice and none is left out.
 * @param place where the algorithm stands, for the error messages
 * @throws InputError naming the step and the field at fault
 */
export function checkAlgorithm(
  algorithm: Algorithm,
  kits: readonly { readonly id: string }[],
  place: readonly (string | number)[] = ["input"],
): void {
  const { steps } = algorithm;
  requireIds(kits, [...place, "kits"], "kit");
  requireIds(steps, [...place, "steps"], "step");
  requireNames(steps, kits, place);
  requireNoCycle(steps, place);
  const reached = reachedFrom(steps);
  steps.forEach(({ id }, at) => {
    if (reached.has(id)) return;
    throw new InputError(
      [...place, "steps", at, "id"],
      `a step that some path reaches from the first step, "${steps[0]?.id}"`,
      id,
    );
  });
}

/** Each id once; none that stands for a status. */
function requireIds(
  some: readonly { readonly id: string }[],
  place: readonly (string | number)[],
  what: "kit" | "step",
) {
  some.forEach(({ id }, at) => {
    if (what === "step" && isStatus(id)) {
      throw new InputError([...place, at, "id"], `an id other than ${STATUSES.join(", ")}`, id);
    }
    if (some.findIndex((other) => other.id === id) < at) {
      throw new InputError([...place, at, "id"], `an id that no other ${what} has`, id);
    }
  });
}

function requireNames(
  steps: readonly Step[],
  kits: readonly { readonly id: string }[],
  place: readonly (string | number)[],
) {
  const known = steps.map(({ id }) => id);
  steps.forEach((step, at) => {
    const here = [...place, "steps", at];
    if (!kits.some(({ id }) => id === step.kit)) {
      const choices = kits.map(({ id }) => id).join(", ");
      throw new InputError([...here, "kit"], `one of the kits (${choices}) at step "${step.id}"`, step.kit);
    }
    for (const branch of BRANCHES) {
      const next = step[branch];
      if (isStatus(next) || known.includes(next)) continue;
      throw new InputError(
        [...here, branch],
        `a step (${known.join(", ")}) or one of ${STATUSES.join(", ")} after step "${step.id}"`,
        next,
      );
    }
  });
}

/** Follows every branch once; a step met again while it is still being followed closes a circle. */
function requireNoCycle(steps: readonly Step[], place: readonly (string | number)[]) {
  const index = new Map(steps.map(({ id }, at) => [id, at]));
  const done = new Set<string>();
  const follow = (step: Step, passed: readonly string[]) => {
    const so = [...passed, step.id];
    for (const branch of BRANCHES) {
      const next = step[branch];
      if (isStatus(next) || done.has(next)) continue;
      if (so.includes(next)) {
        const circle = [...so.slice(so.indexOf(next)), next].join(" > ");
        throw new InputError(
          [...place, "steps", index.get(step.id) ?? 0, branch],
          `a way on from step "${step.id}" that does not lead back (${circle})`,
          next,
        );
      }
      follow(stepOf(steps, next), so);
    }
    done.add(step.id);
  };
  for (const step of steps) if (!done.has(step.id)) follow(step, []);
}

function reachedFrom(steps: readonly Step[]): ReadonlySet<string> {
  const reached = new Set<string>();
  const waiting = [steps[0]?.id ?? ""];
  while (waiting.length > 0) {
    const id = waiting.pop() as string;
    if (reached.has(id) || isStatus(id)) continue;
    reached.add(id);
    const step = stepOf(steps, id);
    waiting.push(...BRANCHES.map((branch) => step[branch]));
  }
  return reached;
}

function stepOf(steps: readonly Step[], id: string): Step {
  return steps.find((step) => step.id === id) as Step;
}

/**
 * Every path of one pass through an algorithm that `checkAlgorithm` accepts: reactive before non-reactive
 * before invalid, depth first. A run repeated because it was invalid is no branch of its own: a step finds
 * reactive, non-reactive, or invalid to the last repeat.
 * @param kits those of which no run is ever invalid (`invalid` 0) give no such branch; without the field
 *   every kit may give one
 * @throws InputError beyond 5,000 paths
 */
export function pathsOf(
  algorithm: Algorithm,
  kits: readonly { readonly id: string; readonly invalid?: number }[],
  place: readonly (string | number)[] = ["input"],
): Path[] {
  const { steps } = algorithm;
  const stepIndex = new Map(steps.map(({ id }, at) => [id, at]));
  const kitIndex = new Map(kits.map(({ id }, at) => [id, at]));
  const paths: Path[] = [];
  const follow = (at: number, before: readonly PathPart[]) => {
    const step = steps[at] as Step;
    const kit = kitIndex.get(step.kit) as number;
    for (const result of BRANCHES) {
      if (result === "invalid" && kits[kit]?.invalid === 0) continue;
      const parts = [...before, { step: at, kit, result }];
      const next = step[result];
      if (isStatus(next)) paths.push({ parts, status: next });
      else follow(stepIndex.get(next) as number, parts);
      if (paths.length > MOST_PATHS) {
        throw new InputError([...place, "steps"], `at most ${MOST_PATHS} paths in one pass`, paths.length);
      }
    }
  };
  follow(0, []);
  return paths;
}
