import { type CriterionOptions, criterionVerdict } from "../../../src/methods/proportion/criterion.ts";
import { binomialMasses } from "../enumeration.ts";

/** A criterion with what is expected in truth. */
export interface Expected {
  readonly expected: number;
  readonly threshold: number;
  readonly direction: "at_least" | "at_most";
}

/** The power of each total from 1 to the most, by the verdict on every result: place 0 is for nobody. */
export function powersByCounting(
  { expected, threshold, direction }: Expected,
  options: CriterionOptions,
  most: number,
): number[] {
  const powers = [0];
  for (let total = 1; total <= most; total += 1) {
    const masses = binomialMasses(total, expected);
    powers.push(
      masses.reduce((sum, mass, count) => {
        const verdict = criterionVerdict({ count, total, threshold, direction }, options);
        return verdict === "met" ? sum + mass : sum;
      }, 0),
    );
  }
  return powers;
}

/** The first total that reaches the power, and the one from which on every total up to the last does. */
export function sizesByCounting(powers: readonly number[], wanted: number) {
  const reached = powers.map((power, total) => total > 0 && power >= wanted - 1e-12);
  const first = reached.indexOf(true);
  const stays = reached.lastIndexOf(false) + 1;
  return { first: first < 0 ? null : first, stays: stays >= powers.length ? null : stays };
}
