import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import { DifferenceStrip, marginMarks } from "../../src/report/figures/difference-strip.tsx";
import { coefficientDomain, differenceDomain } from "../../src/report/figures/strip-scale.ts";

const difference = { value: -0.02, lower: -0.08, upper: 0.03 };
const drawn = (props: Partial<Parameters<typeof DifferenceStrip>[0]> = {}) =>
  renderToString(<DifferenceStrip difference={difference} domain={[-0.1, 0.05]} width={150} {...props} />);

describe("a strip of a difference", () => {
  it("has a rule at zero, where zero lies on the scale", () => {
    // 150 pixels for 15 points: zero stands at pixel 100
    expect(drawn()).toContain('class="fig-zero" d="M100 0V26"');
    expect(drawn({ domain: [0.01, 0.1] })).not.toContain("fig-zero");
  });

  it("flags the margin on the side that was asked for: one for non-inferiority, two for equivalence", () => {
    expect(marginMarks({ margin: 0.05, kind: "noninferiority" })).toEqual([-0.05]);
    const one = drawn({ margin: { margin: 0.05, kind: "noninferiority", verdict: "undecided" } });
    expect(one.match(/class="fig-criterion"/g)).toHaveLength(1);
    const two = drawn({ margin: { margin: 0.05, kind: "equivalence", verdict: "undecided" } });
    expect(two.match(/class="fig-criterion"/g)).toHaveLength(2);
  });

  it("says in words what it shows", () => {
    const html = drawn({ margin: { margin: 0.05, kind: "noninferiority", verdict: "undecided" } });
    expect(html.replace(/[\u00a0\u202f]/g, " ")).toContain(
      "<title>difference −2.0 (−8.0 – +3.0) points, margin −5 points, undecided</title>",
    );
    const none = { value: null, lower: null, upper: null };
    expect(drawn({ difference: none })).toContain("<title>not estimable</title>");
  });
});

describe("its scale", () => {
  it("holds zero, the margins and the limits, and ends at round numbers", () => {
    expect(differenceDomain([difference], [-0.05])).toEqual([-0.08, 0.04]);
    const [from, to] = differenceDomain([{ value: 0.2, lower: 0.1, upper: 0.3 }], [-0.05]);
    expect(from).toBeLessThanOrEqual(-0.05);
    expect(to).toBeGreaterThanOrEqual(0.3);
    expect(differenceDomain([])).toEqual([-0.01, 0.01]);
    expect(differenceDomain([{ value: 1, lower: -1, upper: 1 }])).toEqual([-1, 1]);
  });

  it("of coefficients begins at 0, or below a negative one", () => {
    expect(coefficientDomain([{ value: 0.5, lower: 0.2, upper: 0.8 }])).toEqual([0, 1]);
    expect(coefficientDomain([{ value: 0.1, lower: -0.13, upper: 0.3 }])).toEqual([-0.2, 1]);
  });
});
