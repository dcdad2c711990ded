import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { bivariate } from "../../../src/methods/pooling/bivariate.ts";
import { influence } from "../../../src/methods/pooling/influence.ts";
import { faultsOf } from "../plain-values.ts";

const source = randomStream(99);
/** Tables of any kind: empty ones, ones with zeros, two results that hardly agree. */
const anyStudies = (largest: number) =>
  Array.from({ length: 1 + Math.floor(source() * 7) }, (_, place) => {
    const people = () => (source() < 0.25 ? 0 : Math.floor(source() * largest * (source() < 0.3 ? 0.1 : 1)));
    return {
      label: `${place}`,
      truePositives: people(),
      falsePositives: people(),
      falseNegatives: people(),
      trueNegatives: people(),
    };
  });
const LIKELIHOODS = [
  { kind: "binomial" as const },
  { kind: "normal_ml" as const, correction: "zero_cells" as const },
  { kind: "normal_reml" as const, correction: "all" as const },
];

describe("studies of any kind", () => {
  it.each([3, 10, 50, 2000])("give plain numbers, or null with a note (counts up to %d)", (largest) => {
    for (let draw = 0; draw < 8; draw += 1) {
      const studies = anyStudies(largest);
      const levels = studies.map((_, place) => (place % 2 === 0 ? "even" : "odd"));
      for (const likelihood of LIKELIHOODS) {
        const interval = likelihood.kind !== "normal_reml" && draw % 2 === 0 ? "profile" : "wald";
        const covariate = draw % 3 === 0 ? { name: "place", levels } : null;
        const found = compute(bivariate, { studies, covariate, likelihood }, { interval });
        expect(faultsOf(found), JSON.stringify(studies)).toEqual([]);
        const without = compute(influence, { studies, likelihood, criterion: null });
        expect(faultsOf(without), JSON.stringify(studies)).toEqual([]);
      }
    }
  });

  it("have no common middle where some are all right and others all wrong", () => {
    const studies = Array.from({ length: 6 }, (_, place) => ({
      label: `${place}`,
      truePositives: place % 2 === 0 ? 30 : 0,
      falseNegatives: place % 2 === 0 ? 0 : 30,
      falsePositives: 5 + place,
      trueNegatives: 95 - place,
    }));
    const found = compute(bivariate, { studies, covariate: null, likelihood: { kind: "binomial" } });
    expect(found.values.summary.sensitivity.proportion.value).toBeNull();
    expect(found.notes.map(({ code }) => code)).toContain("no_maximum");
  });
});
