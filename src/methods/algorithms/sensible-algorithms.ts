import type { Preset } from "../../core/preset-names.ts";
import type { Dependence } from "./fields.ts";
import type { Step } from "./model.ts";
import { presetSteps } from "./presets.ts";

/** A kit as the search sees it. */
export interface SearchedKit {
  readonly id: string;
  readonly minutes: number;
  /** What it has in common with others, such as its antigen; `null`: not known. */
  readonly group: string | null;
}

/** An algorithm worth looking at. */
export interface SensibleAlgorithm {
  /** Its kind and its kits. */
  readonly id: string;
  readonly preset: Preset;
  readonly kits: readonly string[];
  readonly steps: Step[];
  /** Longest way through it, no run invalid; kits run on everybody are run at the same time. */
  readonly minutes: number;
}

interface Shape {
  readonly preset: Preset;
  readonly tests: number;
  /** So many first kits are run on everybody: their order makes no difference, the list's is taken. */
  readonly together: number;
}

const SHAPES: readonly Shape[] = [
  { preset: "single", tests: 1, together: 1 },
  { preset: "serial_confirm", tests: 2, together: 1 },
  { preset: "parallel", tests: 2, together: 2 },
  { preset: "consecutive_two", tests: 2, together: 1 },
  { preset: "serial_confirm", tests: 3, together: 1 },
  { preset: "tie_breaker", tests: 3, together: 2 },
  { preset: "consecutive_three", tests: 3, together: 1 },
];

/** What narrows the search. */
export interface SearchLimits {
  readonly mostTests: number;
  readonly mostMinutes: number | null;
  readonly differentGroups: boolean;
}

/**
 * The usual algorithms with every choice and order of kits: one test; one after the other, two or three, an
 * unconfirmed reactive result negative or inconclusive; two at once; two and a third where they differ.
 * A kit comes twice in one only where the dependence states what a repeat of it is worth.
 *
 * @param again how often an invalid run is repeated; then the person ends inconclusive
 */
export function sensibleAlgorithms(
  kits: readonly SearchedKit[],
  dependence: Dependence,
  again: 0 | 1 | 2 | 3,
  limits: SearchLimits,
): SensibleAlgorithm[] {
  const repeatable = kits.map(({ id }) => repeatStated(id, dependence));
  const shapes = SHAPES.filter(({ tests }) => tests <= limits.mostTests);
  return shapes.flatMap((shape) =>
    ordersOf(kits, repeatable, shape)
      .filter((order) => !limits.differentGroups || groupsDiffer(order))
      .map((order) => made(shape, order, again))
      .filter(({ minutes }) => limits.mostMinutes === null || minutes <= limits.mostMinutes),
  );
}

/** Whether something is stated of two runs of this kit in one person. */
function repeatStated(id: string, dependence: Dependence): boolean {
  if (dependence.kind === "independent") return false;
  if (dependence.kind === "shared") return dependence.sameKit !== undefined;
  return dependence.pairs.some(({ first, second }) => first === id && second === id);
}

function ordersOf(
  kits: readonly SearchedKit[],
  repeatable: readonly boolean[],
  shape: Shape,
): SearchedKit[][] {
  let orders: number[][] = [[]];
  for (let test = 0; test < shape.tests; test += 1) {
    orders = orders.flatMap((order) => {
      const previous = order[order.length - 1] ?? 0;
      const least = test > 0 && test < shape.together ? previous : 0;
      return kits
        .map((_, kit) => kit)
        .filter((kit) => kit >= least && (!order.includes(kit) || repeatable[kit] === true))
        .map((kit) => [...order, kit]);
    });
  }
  return orders.map((order) => order.map((kit) => kits[kit] as SearchedKit));
}

function groupsDiffer(order: readonly SearchedKit[]): boolean {
  return new Set(order.map(({ group }) => group)).size === order.length;
}

function made({ preset, together }: Shape, order: readonly SearchedKit[], again: 0 | 1 | 2 | 3) {
  const kits = order.map(({ id }) => id);
  const minutes = order.map((kit) => kit.minutes);
  const first = Math.max(...minutes.slice(0, together));
  const later = minutes.slice(together).reduce((sum, one) => sum + one, 0);
  const steps = presetSteps(preset, kits, { again });
  return { id: `${preset}: ${kits.join(", ")}`, preset, kits, steps, minutes: first + later };
}
