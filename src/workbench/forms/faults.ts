import type { GenericSchema } from "valibot";
import { check, type Fault } from "../../core/check.ts";
import type { Path } from "./edit.ts";

export type { Fault } from "../../core/check.ts";

/** What the schema finds wrong with a value, each fault once. */
export function faultsOf(schema: GenericSchema, value: unknown): readonly Fault[] {
  const checked = check(schema, value);
  return checked.ok ? [] : once(checked.faults);
}

/** Faults of this very place. */
export function faultsAt(faults: readonly Fault[], path: Path): Fault[] {
  return faults.filter((fault) => fault.path.length === path.length && begins(fault.path, path));
}

/** How many faults there are at this place and below it. */
export function faultsWithin(faults: readonly Fault[], path: Path): number {
  return faults.filter((fault) => begins(fault.path, path)).length;
}

function begins(path: Path, head: Path): boolean {
  return head.every((step, place) => String(path[place]) === String(step));
}

function once(faults: readonly Fault[]): Fault[] {
  const key = (fault: Fault) => `${fault.path.join("\u0001")}\u0001${fault.expected}`;
  return [...new Map(faults.map((fault) => [key(fault), fault])).values()];
}
