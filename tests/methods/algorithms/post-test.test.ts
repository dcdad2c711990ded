import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { postTest } from "../../../src/methods/algorithms/post-test.ts";
import { predictiveValues } from "../../../src/methods/predictive/bayes.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });

describe("the probability after several tests", () => {
  it("is the predictive value of a single test", () => {
    fc.assert(
      fc.property(share, share, share, (sensitivity, specificity, pretest) => {
        const { ppv, npv } = predictiveValues(sensitivity, specificity, pretest);
        const knowing = (ratio: number) => compute(postTest, { pretest, ratios: [ratio] }).values.after;
        expectClose(knowing(sensitivity / (1 - specificity)), ppv ?? -1, { relative: 1e-11 });
        expectClose(knowing((1 - sensitivity) / specificity), 1 - (npv ?? -1), { relative: 1e-9 });
      }),
    );
  });

  it("does not depend on the order of the results, and 1 changes nothing", () => {
    // Six of them together stay within the 1e12 that one ratio may have.
    const ratio = fc.double({ min: 1e-2, max: 99, noNaN: true });
    fc.assert(
      fc.property(share, fc.array(ratio, { minLength: 1, maxLength: 6 }), (pretest, ratios) => {
        const { values } = compute(postTest, { pretest, ratios });
        const turned = compute(postTest, { pretest, ratios: [1, ...ratios.toReversed()] }).values;
        expectClose(turned.after, values.after ?? -1, { relative: 1e-12 });
        const product = compute(postTest, { pretest, ratios: [values.combined ?? -1] }).values;
        expectClose(product.after, values.after ?? -1, { relative: 1e-11 });
        for (const [place, step] of values.steps.entries()) {
          expect(step.before).toBe(place === 0 ? values.steps[0]?.before : values.steps[place - 1]?.after);
        }
      }),
    );
  });

  it("counts people: 150 of 1,000 with it; a result in 80 % of them and 10 % of the others", () => {
    const { after } = compute(postTest, { pretest: 0.15, ratios: [0.8 / 0.1] }).values;
    expectClose(after, 120 / (120 + 85), { relative: 1e-13 });
  });

  it("stays where there is no doubt, and says where results contradict it", () => {
    expect(compute(postTest, { pretest: 0, ratios: [8, 1000] }).values.after).toBe(0);
    expect(compute(postTest, { pretest: 1, ratios: [0.1] }).values.after).toBe(1);
    expect(compute(postTest, { pretest: 0.5, ratios: [0, 1e12] }).values.after).toBe(0);
    const found = compute(postTest, { pretest: 1, ratios: [2, 0, 3] });
    expect(faultsOf(found)).toEqual([]);
    expect(found.values.steps.map(({ after }) => after)).toEqual([1, null, null]);
    expect(found.notes.every(({ code }) => code === "contradiction")).toBe(true);
  });

  it.each([
    [{ pretest: 1.5, ratios: [2] }, "input.pretest"],
    [{ pretest: 0.5, ratios: [] }, "input.ratios"],
    [{ pretest: 0.5, ratios: [2, -1] }, "input.ratios.1"],
    [{ pretest: 0.5, ratios: [1e13] }, "input.ratios.0"],
  ])("refuses %j", (input, path) => {
    expect(() => compute(postTest, input)).toThrow(InputError);
    expect(() => compute(postTest, input)).toThrow(`${path}: `);
  });
});
