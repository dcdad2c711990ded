import { InputError } from "../../core/input-error.ts";
import type { RandomSource } from "../../core/random.ts";

/** Most people drawn in all replicates together. */
const MOST_DRAWS = 5e8;

/** @throws InputError where drawing would take minutes */
export function requireAffordable(people: number, replicates: number): void {
  if (people * replicates <= MOST_DRAWS) return;
  const most = Math.floor(MOST_DRAWS / people).toLocaleString("en-GB");
  throw new InputError(["options", "replicates"], `at most ${most} with this many people`, replicates);
}

/** As many people as there are, each drawn from all of them; counted on the rungs where they stand. */
export function redrawInto(counts: Float64Array, rungs: Uint32Array, random: RandomSource): void {
  counts.fill(0);
  const people = rungs.length;
  for (let draw = 0; draw < people; draw += 1) {
    const rung = rungs[Math.floor(random() * people)] as number;
    counts[rung] = (counts[rung] as number) + 1;
  }
}

/** The rung of each person, one entry a person, from people by rung. */
export function standing(people: Float64Array, total: number): Uint32Array {
  const rungs = new Uint32Array(total);
  let person = 0;
  for (let rung = 0; rung < people.length; rung += 1) {
    for (let here = people[rung] as number; here > 0; here -= 1) {
      rungs[person] = rung;
      person += 1;
    }
  }
  return rungs;
}

/** Mean and standard deviation of replicates. */
export function moments(replicates: Float64Array): { readonly mean: number; readonly deviation: number } {
  let sum = 0;
  for (const replicate of replicates) sum += replicate;
  const mean = sum / replicates.length;
  let squares = 0;
  for (const replicate of replicates) squares += Math.pow(replicate - mean, 2);
  return { mean, deviation: Math.sqrt(squares / (replicates.length - 1)) };
}
