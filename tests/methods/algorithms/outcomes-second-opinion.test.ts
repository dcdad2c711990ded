import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { algorithmsOutcomes, type OutcomesInput } from "../../../src/methods/algorithms/outcomes.ts";
import { expectClose } from "../../tolerance.ts";

/**
 * Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-algorithms-outcomes.R`: every device
 * a branch of its own, joint probabilities by formula or by `integrate`.
 */
interface Followed {
  readonly positive: number;
  readonly negative: number;
  readonly inconclusive: number;
  readonly lost: number;
  readonly reached: readonly number[];
  readonly devices: readonly (readonly number[])[];
}
interface Case {
  readonly name: string;
  readonly input: OutcomesInput;
  readonly diseased: Followed;
  readonly nondiseased: Followed;
}
const file = new URL("../../reference/second-opinion-algorithms-outcomes.json", import.meta.url);
const cases = JSON.parse(readFileSync(file, "utf8")) as readonly Case[];

/** R's integrate is asked for 1e-11; sums of products agree to rounding. */
const toleranceFor = ({ input }: Case) =>
  input.dependence.kind === "shared" ? { relative: 1e-8, absolute: 1e-11 } : { relative: 1e-12 };

describe.each(cases)("$name", (row) => {
  const found = () => compute(algorithmsOutcomes, row.input).values;
  const tolerance = toleranceFor(row);

  it.each(["diseased", "nondiseased"] as const)("what becomes of the %s", (truth) => {
    const values = found();
    for (const end of ["positive", "negative", "inconclusive", "lost"] as const) {
      expectClose(values.byTruth[truth][end], row[truth][end], tolerance, end);
    }
    row[truth].reached.forEach((reached, at) => {
      expectClose(values.runsAtStep[at]?.[truth], reached, tolerance, `step ${at}`);
    });
    row[truth].devices.forEach((devices, kit) => {
      const { mean, distribution } = values.byTruth[truth].runs[kit] ?? { mean: null, distribution: [] };
      expect(distribution.map(({ runs }) => runs)).toEqual(devices.map((_, at) => at));
      devices.forEach((probability, at) => {
        expectClose(distribution[at]?.probability, probability, tolerance, `kit ${kit}, ${at} devices`);
      });
      const expected = devices.reduce((sum, probability, at) => sum + at * probability, 0);
      expectClose(mean, expected, tolerance, `kit ${kit}, mean`);
    });
  });

  it("predictive values and devices at three prevalences", () => {
    for (const point of found().at) {
      const { prevalence } = point;
      const [present, absent] = [row.diseased, row.nondiseased];
      const both = (of: (one: Followed) => number) =>
        prevalence * of(present) + (1 - prevalence) * of(absent);
      const ppv = (prevalence * present.positive) / both(({ positive }) => positive);
      const npv = ((1 - prevalence) * absent.negative) / both(({ negative }) => negative);
      expectClose(point.ppv, ppv, tolerance, "ppv");
      expectClose(point.npv, npv, tolerance, "npv");
      expectClose(
        point.lost,
        both(({ lost }) => lost),
        tolerance,
        "lost",
      );
      const missed = 100_000 * prevalence * present.negative;
      expectClose(point.perPeople.missed, missed, tolerance, "missed");
    }
  });
});
