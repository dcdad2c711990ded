import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { rocCurve } from "../../../src/methods/roc/curve.ts";
import type { CurveValues } from "../../../src/methods/roc/curve-fields.ts";
import { normalCdf } from "../../../src/numeric/normal.ts";
import { normals, readings } from "./drawn-people.ts";

const STUDIES = 800;
const HIGH_SPECIFICITY = { of: "specificity" as const, from: 0.8, to: 1 };

/** Whether the band holds the true sensitivity and specificity at every cutoff, on both sides of every reading. */
function bandHolds({ points, band }: CurveValues, shift: number): boolean {
  const [sensitivityReach, specificityReach] = [band.sensitivity as number, band.specificity as number];
  return points.every(({ cutoff, sensitivity, specificity }, place) => {
    const before = points[place - 1];
    const truth = { sensitivity: normalCdf(cutoff - shift, "upper"), specificity: normalCdf(cutoff) };
    const near = (seen: number, truly: number, reach: number) => Math.abs(seen - truly) <= reach;
    return (
      near(sensitivity.value as number, truth.sensitivity, sensitivityReach) &&
      near(before?.sensitivity.value ?? 0, truth.sensitivity, sensitivityReach) &&
      near(specificity.value as number, truth.specificity, specificityReach) &&
      near(before?.specificity.value ?? 1, truth.specificity, specificityReach)
    );
  });
}

/** Four standard errors of a share of 0.95 among the studies. */
const SLACK = 4 * Math.sqrt((0.95 * 0.05) / STUDIES);

describe.each([
  { people: 40, shift: 1.5 },
  { people: 15, shift: 2 },
])("in 800 drawn studies of $people and $people people, means $shift apart", ({ people, shift }) => {
  const truth = normalCdf(shift / Math.SQRT2);
  const hits = { wald: 0, logit: 0, score: 0, band: 0 };
  for (let study = 0; study < STUDIES; study += 1) {
    const normal = normals(people, study);
    const { values } = compute(rocCurve, {
      positives: readings(normal, people, shift),
      negatives: readings(normal, people, 0),
      direction: "higher",
    });
    for (const kind of ["wald", "logit", "score"] as const) {
      const { lower, upper } = values.area[kind];
      if (lower !== null && upper !== null && lower <= truth && upper >= truth) hits[kind] += 1;
    }
    if (bandHolds(values, shift)) hits.band += 1;
  }

  it("logit and score limits hold the true area about as often as they say", () => {
    expect(hits.logit / STUDIES).toBeGreaterThan(0.95 - SLACK);
    expect(hits.score / STUDIES).toBeGreaterThan(0.95 - SLACK);
  });

  it("Wald limits hold it less often, as their note says of few people", () => {
    expect(hits.wald).toBeLessThan(hits.score);
  });

  it("the band holds the whole curve at least as often as it says", () => {
    expect(hits.band / STUDIES).toBeGreaterThan(0.95 - SLACK);
    expect(hits.band / STUDIES).toBeLessThan(1);
  });
});

describe("in 200 drawn studies of 60 and 60 people", () => {
  it("percentile limits of a part of the curve hold its true area about as often as they say", () => {
    const [studies, shift] = [200, 1.5];
    // The true part: sensitivity at each false positive share up to 0.2, by 4,000 strips.
    const strips = 4000;
    let truth = 0;
    for (let strip = 0; strip < strips; strip += 1) {
      truth += (sensitivityAt(((strip + 0.5) / strips) * 0.2, shift) * 0.2) / strips;
    }
    let hits = 0;
    for (let study = 0; study < studies; study += 1) {
      const normal = normals(61, study);
      const { drawn } = compute(
        rocCurve,
        {
          positives: readings(normal, 60, shift),
          negatives: readings(normal, 60, 0),
          direction: "higher",
        },
        { ranges: [HIGH_SPECIFICITY], replicates: 300, seed: study },
      ).values;
      const area = drawn?.ranges[0]?.area;
      if (area !== undefined && (area.lower as number) <= truth && (area.upper as number) >= truth) hits += 1;
    }
    expect(Math.abs(hits / studies - 0.95)).toBeLessThan(0.062);
  });
});

/** By halving: the cutoff that the share of people without the condition lies beyond. */
function sensitivityAt(falsePositiveShare: number, shift: number): number {
  let [low, high] = [-10, 10];
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (normalCdf(middle, "upper") > falsePositiveShare) low = middle;
    else high = middle;
  }
  return normalCdf(low - shift, "upper");
}
