import { randomBinomial } from "d3-random";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { referenceCorrected } from "../../../src/methods/reference/corrected.ts";
import { sensitivityLimits, specificityLimits } from "../../../src/methods/reference/known-errors-limits.ts";
import { counted, expectedTable, NONE, TRUTHS, type Truth } from "./errors-cases.ts";

describe("coverage of corrected accuracies, by simulation", () => {
  function drawnTable(truth: Truth, people: number, stream: () => number) {
    const cells = expectedTable(truth);
    let [left, share] = [people, 1];
    return [cells.bothReactive, cells.kitOnly, cells.referenceOnly].map((cell) => {
      const taken = left === 0 ? 0 : randomBinomial.source(stream)(left, Math.min(1, cell / share))();
      left -= taken;
      share -= cell;
      return taken;
    });
  }

  // 3 standard errors of a coverage of .95 in 1,500 studies are .017; tables are discrete. Measured: .939 to .966.
  it.each(TRUTHS)("likelihood limits cover in about 95 of 100 studies (%#)", (truth) => {
    const studies = 1500;
    const covered = { sensitivity: 0, specificity: 0 };
    const stream = randomStream(17);
    for (let study = 0; study < studies; study += 1) {
      const [bothReactive = 0, kitOnly = 0, referenceOnly = 0] = drawnTable(truth, 800, stream);
      const neither = 800 - bothReactive - kitOnly - referenceOnly;
      const counts = { bothReactive, kitOnly, referenceOnly, neither };
      const errors = { reference: truth.reference, covariance: truth.covariance };
      const inside = (limits: { lower: number; upper: number } | null, share: number) =>
        limits !== null && limits.lower <= share && share <= limits.upper;
      if (inside(sensitivityLimits(counts, errors, 0.95), truth.kit.sensitivity)) covered.sensitivity += 1;
      if (inside(specificityLimits(counts, errors, 0.95), truth.kit.specificity)) covered.specificity += 1;
    }
    expect(Math.abs(covered.sensitivity / studies - 0.95)).toBeLessThan(0.02);
    expect(Math.abs(covered.specificity / studies - 0.95)).toBeLessThan(0.02);
  });

  // 3 standard errors of a coverage of .95 in 400 studies are .033. Measured: .953 and .955.
  it("simulated limits cover with a reference estimated from its own study", () => {
    const truth = TRUTHS[0] as Truth;
    const studies = 400;
    const covered = { sensitivity: 0, specificity: 0 };
    const stream = randomStream(23);
    for (let study = 0; study < studies; study += 1) {
      const [bothReactive = 0, kitOnly = 0, referenceOnly = 0] = drawnTable(truth, 800, stream);
      const { sensitivity, specificity } = compute(
        referenceCorrected,
        {
          counts: {
            bothReactive,
            kitOnly,
            referenceOnly,
            neither: 800 - bothReactive - kitOnly - referenceOnly,
          },
          reference: {
            sensitivity: counted(randomBinomial.source(stream)(150, truth.reference.sensitivity)(), 150),
            specificity: counted(randomBinomial.source(stream)(300, truth.reference.specificity)(), 300),
          },
          covariance: NONE,
        },
        { draws: 800, seed: study },
      ).values.corrected;
      const inside = ({ lower, upper }: typeof sensitivity, share: number) =>
        (lower ?? 2) <= share && share <= (upper ?? -1);
      if (inside(sensitivity, truth.kit.sensitivity)) covered.sensitivity += 1;
      if (inside(specificity, truth.kit.specificity)) covered.specificity += 1;
    }
    expect(covered.sensitivity / studies).toBeGreaterThan(0.917);
    expect(covered.specificity / studies).toBeGreaterThan(0.917);
  });
});
