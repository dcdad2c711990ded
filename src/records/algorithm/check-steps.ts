import { named } from "../named.ts";
import { suggestion } from "../nearest.ts";
import type { Fault } from "../yaml-file.ts";
import { STATUSES } from "./algorithm-fields.ts";
import type { FileStep } from "./algorithm-schema.ts";

type Path = readonly (string | number)[];

const BRANCHES = ["reactive", "nonreactive", "invalid"] as const;
const isStatus = (name: string) => (STATUSES as readonly string[]).includes(name);

/**
 * Whether an algorithm of one's own can be followed: every name is defined, every path ends, no step is passed
 * twice, and none is left out. All faults are found at once; each names its step.
 *
 * @param kits the kits that may be used here, and what they are called in a fault
 */
export function checkSteps(
  steps: readonly FileStep[],
  path: Path,
  kits: { readonly usable: readonly string[]; readonly what: string },
  unknown: Fault,
  wrong: Fault,
): void {
  const ids = steps.map(({ id }) => id);
  steps.forEach((step, at) => {
    const here = [...path, at];
    if (isStatus(step.id)) unknown([...here, "id"], "a name that is no status", step.id);
    if (ids.indexOf(step.id) < at) unknown([...here, "id"], "each step once", step.id);
    named([...here, "kit"], step.kit, kits.usable, kits.what, unknown);
    for (const branch of BRANCHES) {
      const next = step[branch];
      if (isStatus(next) || ids.includes(next)) continue;
      const known = [...STATUSES, ...ids];
      const expected = `positive, negative, inconclusive or a step of this algorithm after step ${step.id}${suggestion(next, known)}`;
      unknown([...here, branch], expected, next);
    }
  });
  const loop = firstLoop(steps);
  if (loop !== null) {
    const { at, branch, circle } = loop;
    const expected = `a way on from step ${steps[at]?.id} that doesn't lead back to it (${circle})`;
    wrong([...path, at, branch], expected, steps[at]?.[branch]);
  }
  const reached = reachedFrom(steps, ids[0] ?? "");
  steps.forEach(({ id }, at) => {
    if (ids.indexOf(id) < at || reached.has(id)) return;
    wrong([...path, at, "id"], `a step that one comes to from the first, ${ids[0]}`, id);
  });
}

function reachedFrom(steps: readonly FileStep[], start: string): ReadonlySet<string> {
  const reached = new Set<string>();
  const waiting = [start];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    const step = steps.find((one) => one.id === id);
    if (step === undefined || reached.has(id)) continue;
    reached.add(id);
    waiting.push(...BRANCHES.map((branch) => step[branch]));
  }
  return reached;
}

interface Loop {
  readonly at: number;
  readonly branch: (typeof BRANCHES)[number];
  readonly circle: string;
}

/** The first way on from which one comes back to the step that it starts from. */
function firstLoop(steps: readonly FileStep[]): Loop | null {
  for (const [at, step] of steps.entries()) {
    for (const branch of BRANCHES) {
      const way = wayBack(steps, step[branch], step.id, new Set());
      if (way !== null) return { at, branch, circle: [step.id, ...way].join(" to ") };
    }
  }
  return null;
}

/** The steps from one to another, both named; `null` where there is no way. */
function wayBack(steps: readonly FileStep[], from: string, to: string, seen: Set<string>): string[] | null {
  if (from === to) return [to];
  const step = steps.find(({ id }) => id === from);
  if (step === undefined || seen.has(from)) return null;
  seen.add(from);
  for (const branch of BRANCHES) {
    const rest = wayBack(steps, step[branch], to, seen);
    if (rest !== null) return [from, ...rest];
  }
  return null;
}
