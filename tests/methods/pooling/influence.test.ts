import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { bivariate } from "../../../src/methods/pooling/bivariate.ts";
import { TWELVE } from "../../../src/methods/pooling/bivariate-examples.ts";
import { influence } from "../../../src/methods/pooling/influence.ts";
import type { Study } from "../../../src/methods/pooling/study-fields.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { drawnStudies, USUAL } from "./drawn-studies.ts";

const BINOMIAL = { kind: "binomial" as const };
type Likelihood = Parameters<typeof influence.run>[0]["likelihood"];
type Criterion = Parameters<typeof influence.run>[0]["criterion"];
const asked = (studies: readonly Study[], likelihood: Likelihood = BINOMIAL, criterion: Criterion = null) =>
  compute(influence, { studies: [...studies], likelihood, criterion });

/** Made by R 4.2.2 with `tests/reference/scripts/second-opinion-pooling-bivariate.R`: a fit without each study. */
interface Opinion {
  readonly kind: "binomial" | "normal_ml" | "normal_reml";
  /** Two means, two standard deviations, correlation, one row per study left out. */
  readonly without?: readonly (readonly [number, number, number, number, number])[];
}
const file = new URL("../../reference/second-opinion-pooling-bivariate.json", import.meta.url);
const opinions = (JSON.parse(readFileSync(file, "utf8")) as { fits: readonly Opinion[] }).fits;
const logit = (share: number | null | undefined) => (share == null ? null : Math.log(share / (1 - share)));

describe("each study left out", () => {
  it.each(opinions.filter(({ without }) => without !== undefined))(
    "gives what R gives ($kind)",
    (opinion) => {
      if (opinion.kind === "binomial") throw new Error("not made by R");
      const { without } = asked(TWELVE, { kind: opinion.kind, correction: "zero_cells" }).values;
      opinion.without?.forEach(([first, second, one, two, correlation], place) => {
        const here = without[place];
        expectClose(logit(here?.sensitivity.value), first, { relative: 1e-5 }, `sensitivity ${place}`);
        expectClose(logit(here?.specificity.value), second, { relative: 1e-5 }, `specificity ${place}`);
        expectClose(here?.spread.sensitivity, one, { relative: 1e-4 }, `spread ${place}`);
        expectClose(here?.spread.specificity, two, { relative: 1e-4 }, `spread ${place}`);
        expectClose(here?.spread.correlation, correlation, { relative: 1e-4 }, `correlation ${place}`);
      });
    },
  );

  it("gives what the bivariate model gives without it", () => {
    const found = asked(TWELVE);
    const rest = TWELVE.filter((_, place) => place !== 6);
    const { summary } = compute(
      bivariate,
      { studies: rest, covariate: null, likelihood: BINOMIAL },
      { spread: "none" },
    ).values;
    const { lower, upper } = found.values.without[6]?.sensitivity ?? {};
    expectClose(lower, summary.sensitivity.proportion.lower ?? Number.NaN, { relative: 1e-7 });
    expectClose(upper, summary.sensitivity.proportion.upper ?? Number.NaN, { relative: 1e-7 });
    expect(faultsOf(found)).toEqual([]);
  });
});

describe("a study that stands out", () => {
  const usual = drawnStudies(14, USUAL, 21);
  const strange = {
    label: "strange",
    truePositives: 60,
    falseNegatives: 60,
    falsePositives: 4,
    trueNegatives: 180,
  };
  const found = asked([...usual, strange]);

  it("moves the summary point farthest, and lies far below its prediction", () => {
    expect(found.values.farthest).toBe("strange");
    const last = found.values.without.at(-1);
    expect(last?.residual.sensitivity).toBeLessThan(-2.5);
    expect(Math.abs(last?.residual.specificity ?? 9)).toBeLessThan(2);
    expect(faultsOf(found)).toEqual([]);
  });

  it("changes a verdict whose border lies between", () => {
    const [withIt, without] = [found.values.whole, found.values.without.at(-1)];
    const sensitivity = ((withIt.sensitivity.lower ?? 0) + (without?.sensitivity.lower ?? 0)) / 2;
    const judged = asked([...usual, strange], BINOMIAL, { sensitivity, specificity: 0.5 });
    expect(judged.values.whole.verdict).toBe("not_met");
    expect(judged.values.without.at(-1)).toMatchObject({ verdict: "met", changesVerdict: true });
    expect(judged.notes.find(({ code }) => code === "verdict_changes")?.message).toContain("strange");
    const high = asked([...usual, strange], BINOMIAL, { sensitivity: 0.999, specificity: 0.5 });
    expect(high.values.without.some(({ changesVerdict }) => changesVerdict)).toBe(false);
  });
});

describe("residuals", () => {
  it("are about normal where the model is true", () => {
    const { without } = asked(drawnStudies(60, USUAL, 8)).values;
    for (const measure of ["sensitivity", "specificity"] as const) {
      const scores = without.map(({ residual }) => residual[measure] ?? Number.NaN);
      const mean = scores.reduce((sum, score) => sum + score, 0) / scores.length;
      const square = scores.reduce((sum, score) => sum + score * score, 0) / scores.length;
      // Standard errors of the two are 0.13 and 0.18.
      expect(Math.abs(mean)).toBeLessThan(0.4);
      expect(Math.abs(square - 1)).toBeLessThan(0.6);
    }
  });
});

describe("what can't be had", () => {
  it("is said of a study that alone has a wrong result, and of two studies", () => {
    const single = TWELVE.map((study, place) => (place === 4 ? study : { ...study, falsePositives: 0 }));
    const found = asked(single);
    expect(found.notes.map(({ code, path }) => `${code} ${path}`)).toContain("no_variation without.4");
    expect(found.values.without[4]).toMatchObject({ verdict: "not_estimable", distance: null });
    expect(faultsOf(found)).toEqual([]);
    const two = asked(TWELVE.slice(0, 2));
    expect(two.values.farthest).toBeNull();
    expect(faultsOf(two)).toEqual([]);
    const one = asked(TWELVE.slice(0, 1));
    expect(one.values.whole.verdict).toBe("not_estimable");
    expect(faultsOf(one)).toEqual([]);
  });
});
