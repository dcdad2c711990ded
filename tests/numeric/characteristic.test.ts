import { describe, it } from "vitest";
import {
  type Characteristic,
  characteristicCdf,
  characteristicDensity,
  expitMoments,
} from "../../src/numeric/characteristic.ts";
import { normalCdf } from "../../src/numeric/normal.ts";
import { expectClose } from "../tolerance.ts";

/** The function given, at as many places as there are until it has died away. */
function sampled(step: number, at: (t: number) => [number, number], places: number): Characteristic {
  const values = Array.from({ length: places }, (_, k) => at((k + 0.5) * step));
  return {
    step,
    real: Float64Array.from(values, ([real]) => real),
    imaginary: Float64Array.from(values, ([, imaginary]) => imaginary),
  };
}
const size = (t: number) => (Math.PI * t) / Math.sinh(Math.PI * t);

describe("distributions from characteristic functions", () => {
  it("a logistic variable, moved: tails and density as they are written", () => {
    const logistic = sampled(0.08, (t) => [size(t) * Math.cos(2 * t), size(t) * Math.sin(2 * t)], 160);
    for (const x of [-9, -3, 0, 1.9, 2, 6, 15]) {
      const share = 1 / (1 + Math.exp(2 - x));
      expectClose(characteristicCdf(logistic, x), share, { absolute: 1e-13 });
      expectClose(characteristicDensity(logistic, x), share * (1 - share), { absolute: 1e-13 });
    }
  });

  it("a normal variable with spread 0.05: by the normal distribution of this project", () => {
    const normal = sampled(0.15, (t) => [Math.exp(-((0.05 * t) ** 2) / 2), 0], 1200);
    for (const x of [-0.2, -0.01, 0.07]) {
      expectClose(characteristicCdf(normal, x), normalCdf(x / 0.05), { absolute: 1e-13 });
    }
  });

  it("turns a logistic variable back into an even share: mean 1/2, variance 1/12", () => {
    const { mean, standardDeviation } = expitMoments(sampled(0.08, (t) => [size(t), 0], 160));
    expectClose(mean, 0.5, { absolute: 1e-14 });
    expectClose(standardDeviation, Math.sqrt(1 / 12), { relative: 1e-12 });
  });

  it("turns the larger of two into a beta(2, 1) share: mean 2/3, variance 1/18", () => {
    const { mean, standardDeviation } = expitMoments(sampled(0.08, (t) => [size(t), t * size(t)], 160));
    expectClose(mean, 2 / 3, { relative: 1e-13 });
    expectClose(standardDeviation, Math.sqrt(1 / 18), { relative: 1e-12 });
  });
});
