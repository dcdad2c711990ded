import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { rocCutoff } from "../../../src/methods/roc/cutoff.ts";
import { rocEyeAgainstInstrument } from "../../../src/methods/roc/eye-against-instrument.ts";
import { rocIntensity } from "../../../src/methods/roc/intensity.ts";
import { normalCdf, normalQuantile } from "../../../src/numeric/normal.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { normals } from "./drawn-people.ts";

const direction = "higher" as const;
const person = fc.record({ reactive: fc.boolean(), reading: fc.integer({ min: 0, max: 8 }) });
const people = fc.array(person, { maxLength: 12 });

describe("the eye against an instrument", () => {
  it("is plain data whatever comes", () => {
    fc.assert(
      fc.property(
        people,
        people,
        fc.constantFrom("middle" as const, "best" as const),
        (positives, negatives, atSteps) => {
          const input = { positives, negatives, direction, atSteps };
          expect(faultsOf(compute(rocEyeAgainstInstrument, input, { replicates: 100 }))).toEqual([]);
        },
      ),
      { numRuns: 100 },
    );
  });

  it("finds no difference where the eye is the instrument at a cutoff", () => {
    const group = (readings: readonly number[]) =>
      readings.map((reading) => ({ reading, reactive: reading >= 5 }));
    const { atEyeSpecificity, atEyeSensitivity } = compute(
      rocEyeAgainstInstrument,
      {
        positives: group([3, 4, 5.5, 5.5, 8, 9]),
        negatives: group([1, 2, 3, 4.5, 5.5, 6, 1, 2]),
        direction,
        atSteps: "best",
      },
      { replicates: 100 },
    ).values;
    expect(atEyeSpecificity.difference.value).toBe(0);
    expect(atEyeSensitivity.difference.value).toBe(0);
    expect(atEyeSpecificity.cutoff.value).toBe(5.5);
  });

  it("is never worse by the best end of steps than by their middle", () => {
    fc.assert(
      fc.property(people, people, (positives, negatives) => {
        fc.pre(positives.length > 0 && negatives.length > 0);
        const at = (atSteps: "middle" | "best") =>
          compute(rocEyeAgainstInstrument, { positives, negatives, direction, atSteps }, { replicates: 100 })
            .values;
        const [middle, best] = [at("middle"), at("best")];
        expect(best.atEyeSpecificity.difference.value).toBeGreaterThanOrEqual(
          (middle.atEyeSpecificity.difference.value as number) - 1e-12,
        );
        expect(best.atEyeSensitivity.difference.value).toBeGreaterThanOrEqual(
          (middle.atEyeSensitivity.difference.value as number) - 1e-12,
        );
      }),
      { numRuns: 60 },
    );
  });

  it("holds the truth about as often as it says, in 200 drawn studies of 100 and 100", () => {
    // The line's strength is normal; the instrument sees it with half its noise, the eye with 0.7, calling above 1.5.
    const [studies, shift, call] = [200, 2, 1.5];
    const [spread, eyeSpread] = [Math.sqrt(1.25), Math.sqrt(1.49)];
    const eyeSensitivity = normalCdf((call - shift) / eyeSpread, "upper");
    const sameSpecificity = normalQuantile(normalCdf(call / eyeSpread));
    const truth = normalCdf(sameSpecificity - shift / spread, "upper") - eyeSensitivity;
    let hits = 0;
    for (let study = 0; study < studies; study += 1) {
      const normal = normals(51, study);
      const group = (mean: number) =>
        Array.from({ length: 100 }, () => {
          const strength = mean + normal();
          return { reading: strength + 0.5 * normal(), reactive: strength + 0.7 * normal() > call };
        });
      const input = { positives: group(shift), negatives: group(0), direction, atSteps: "middle" as const };
      const { difference } = compute(rocEyeAgainstInstrument, input, { replicates: 300 }).values
        .atEyeSpecificity;
      if ((difference.lower as number) <= truth && (difference.upper as number) >= truth) hits += 1;
    }
    // Four standard errors of 0.95 over 200 studies: 0.062.
    expect(Math.abs(hits / studies - 0.95)).toBeLessThan(0.062);
  });
});

describe("readings by truth and by minute", () => {
  const list = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { maxLength: 30 });

  it("are all in the bars, and plain data whatever comes", () => {
    fc.assert(
      fc.property(list, list, (positives, negatives) => {
        const found = compute(rocIntensity, { positives, negatives, minutes: null });
        expect(faultsOf(found)).toEqual([]);
        const sum = (group: "positives" | "negatives") =>
          found.values.histogram.reduce((total, bar) => total + bar[group], 0);
        expect(sum("positives")).toBe(positives.length);
        expect(sum("negatives")).toBe(negatives.length);
        for (const bar of found.values.histogram) expect(bar.to).toBeGreaterThanOrEqual(bar.from);
      }),
    );
  });

  it("have a largest gap that is the best Youden index, in the better direction", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 12 }),
        fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 1, maxLength: 12 }),
        (positives, negatives) => {
          const gap = compute(rocIntensity, { positives, negatives, minutes: null }).values.largestGap;
          const best = (["higher", "lower"] as const).map(
            (way) =>
              compute(
                rocCutoff,
                { positives, negatives, direction: way, rule: { kind: "youden" } },
                { replicates: 100, repeats: 1 },
              ).values.youden as number,
          );
          expectClose(gap, Math.max(...best), { absolute: 1e-12 });
        },
      ),
      { numRuns: 40 },
    );
  });

  it("overlap wholly where they are the same, not at all where bars part them", () => {
    const overlap = (positives: number[], negatives: number[]) =>
      compute(rocIntensity, { positives, negatives, minutes: null }, { bins: 10 }).values.overlap;
    expect(overlap([1, 2, 3], [1, 1, 2, 2, 3, 3])).toBe(1);
    expect(overlap([8, 9], [1, 2])).toBe(0);
  });

  it("fall into bands by their minute: lower edge held, the last band's upper edge too", () => {
    const { bands, outsideBands } = compute(rocIntensity, {
      positives: [1, 2, 3, 4],
      negatives: [5, 6],
      minutes: { positives: [10, 15, 20, 9], negatives: [14.9, 20.1], edges: [10, 15, 20] },
    }).values;
    expect(bands.map(({ readings, median }) => [readings, median])).toEqual([
      [1, 1],
      [2, 2.5],
      [1, 5],
      [0, null],
    ]);
    expect(outsideBands).toBe(2 / 6);
  });

  it("need a minute each, and edges that rise", () => {
    const input = { positives: [1], negatives: [2] };
    const minutes = (positives: number[], edges: number[]) => ({ positives, negatives: [1], edges });
    expect(() => compute(rocIntensity, { ...input, minutes: minutes([], [0, 1]) })).toThrow(InputError);
    expect(() => compute(rocIntensity, { ...input, minutes: minutes([1], [1, 1]) })).toThrow(
      "input.minutes.edges.1: expected more than 1, received 1",
    );
  });
});
