import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { elicitedBetaMethod } from "../../../src/methods/reference/elicited-beta.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { exactOpinions } from "./exact-opinions.ts";

const asked = (kind: "mean" | "median" | "mode", value: number, at: number, chance: number) =>
  compute(elicitedBetaMethod, { middle: { kind, value }, percentile: { at, chance } });

describe("betas from a middle and a percentile", () => {
  it.each(exactOpinions.elicited)("$kind $value, chance $chance below $at: as R's roots", (opinion) => {
    const found = asked(opinion.kind, opinion.value, opinion.at, opinion.chance);
    expect(faultsOf(found)).toEqual([]);
    const { alpha, beta, median, quantiles } = found.values;
    expectClose(alpha, opinion.alpha, { relative: 1e-10 }, "alpha");
    expectClose(beta, opinion.beta, { relative: 1e-10 }, "beta");
    expectClose(median, opinion.median, { relative: 1e-10 }, "median");
    expectClose(quantiles[1]?.at, opinion.lower, { relative: 1e-9 }, "2.5 %");
  });

  it("says the other way round what was said one way round", () => {
    const one = asked("mode", 0.9, 0.8, 0.1).values;
    const turned = asked("mode", 1 - 0.9, 1 - 0.8, 1 - 0.1).values;
    expectClose(turned.alpha, one.beta ?? -1, { relative: 1e-10 });
    expectClose(turned.beta, one.alpha ?? -1, { relative: 1e-10 });
  });

  it("tells of the second beta where there are two, and takes the heavier", () => {
    const found = asked("mean", 0.9, 0.88, 0.25);
    expect(found.values.alpha).toBeGreaterThan(50);
    const told = found.notes.find(({ code }) => code === "other_beta")?.message ?? "";
    const [alpha = 0, beta = 0] = [...told.matchAll(/(?:alpha|beta) ([\d.]+\d)/g)].map(([, n]) => Number(n));
    expectClose(alpha / (alpha + beta), 0.9, { absolute: 1e-3 });
    expect(alpha).toBeLessThan(10);
  });

  it("a density adds up to the chance it covers", () => {
    const { density } = asked("mean", 0.95, 0.9, 0.05).values;
    expect(density).toHaveLength(61);
    const width = ((density[60]?.at ?? 0) - (density[0]?.at ?? 0)) / 60;
    // Simpson's rule.
    const weight = (k: number) => (k === 0 || k === 60 ? 1 : k % 2 === 1 ? 4 : 2);
    const area = density.reduce((sum, point, k) => sum + (weight(k) * width * point.density) / 3, 0);
    expectClose(area, 0.998, { absolute: 1e-5 });
  });

  it.each<["mean" | "median" | "mode", number, number, number]>([
    ["mode", 0.95, 0.9, 0.95],
    ["median", 0.8, 0.7, 0.6],
    ["mean", 0.5, 0.4, 0.9],
  ])("no beta: %s %d, below %d with chance %d", (...wanted) => {
    const found = asked(...wanted);
    expect(found.values.alpha).toBeNull();
    expect(faultsOf(found)).toEqual([]);
    expect(found.notes[0]).toMatchObject({ code: "no_such_beta" });
  });

  it("refuses a percentile that is the median over again", () => {
    expect(() => asked("median", 0.8, 0.8, 0.5)).toThrow("input.percentile.at: ");
  });

  it("a beta without an inner mode says so", () => {
    const found = asked("median", 0.5, 0.1, 0.25);
    expect(found.values.mode).toBeNull();
    expect(found.notes.map(({ code }) => code)).toContain("no_mode");
  });
});
