import { parse } from "csv-parse/sync";
import jstat from "jstat";
import * as v from "valibot";
import { describe, expect, it } from "vitest";
import { writeCsv } from "../../src/evaluation/csv.ts";
import type { LatentClass } from "../../src/evaluation/document.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { evaluationTables } from "../../src/evaluation/tables.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import { LatentClass as LatentFields } from "../../src/records/latent-class-fields.ts";
import type { Pair, PairedSet } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { person, setOf, tinyInputs, tinyRecords, tinyStudy } from "./tiny-study.ts";

type Model = Study["latent_class"][number];
type Rapid = Pair["rapid"];
type Reference = Pair["reference"];

const MODEL: Model = {
  id: "m",
  title: "Two tests",
  analyte: "one",
  tests: [
    { id: "rapid", title: "Kit", reference: false },
    { id: "lab", title: "Laboratory", reference: true },
  ],
  populations: "site",
  dependence: "independent",
};
const strata = [{ id: "site", title: "Site", column: "site", planned: true }];

function evaluated(sets: readonly PairedSet[], model: Partial<Model> = {}, study: Partial<Study> = {}) {
  const read = { ...tinyStudy.records, columns: { reader: "reader" } } as Study["records"];
  const records = tinyRecords(sets, {
    study: { strata, records: read, latent_class: [{ ...MODEL, ...model }], ...study },
  });
  return { records, document: evaluate(records, tinyInputs) };
}

const only = (document: { readonly latentClass: readonly LatentClass[] }): LatentClass => {
  const [first] = document.latentClass;
  if (first === undefined) throw new Error("no model");
  return first;
};

const some = (
  site: string | null,
  weight: number,
  rapid: Rapid,
  reference: Reference,
  changes: Partial<Pair> = {},
) => person({ weight, rapid, reference, strata: { site }, ...changes });

/** The two tests in two populations of Hui and Walter 1980 (numbers recalled): rapid and laboratory here. */
const HUI_WALTER = [
  some("children", 14, "reactive", "positive"),
  some("children", 4, "reactive", "negative"),
  some("children", 9, "nonreactive", "positive"),
  some("children", 528, "nonreactive", "negative"),
  some("patients", 887, "reactive", "positive"),
  some("patients", 31, "reactive", "negative"),
  some("patients", 37, "nonreactive", "positive"),
  some("patients", 367, "nonreactive", "negative"),
];

describe("a model in which no test is beyond doubt", () => {
  const model = only(evaluated([setOf(HUI_WALTER)]).document);

  it("gives the printed estimates of a published study", () => {
    // hui1980, table 2 (memory), recomputed with R 4.2.2 optim
    const { tests, populations, fit } = model.likelihood ?? {};
    expect(tests?.[0]?.sensitivity.estimate.value).toBeCloseTo(1 - 0.0339, 4);
    expect(tests?.[1]?.sensitivity.estimate.value).toBeCloseTo(1 - 0.0312, 4);
    expect(tests?.[0]?.specificity.estimate.value).toBeCloseTo(1 - 0.0067, 4);
    expect(populations?.map(({ label }) => label)).toEqual(["children", "patients"]);
    expect(populations?.[1]?.prevalence.estimate.value).toBeCloseTo(0.7168, 4);
    expect(fit?.degreesOfFreedom).toBe(0);
  });

  it("stands beside what is seen as if the reference never erred", () => {
    expect(model.naive).toMatchObject([
      { test: "rapid", sensitivity: { count: 901, total: 947 }, specificity: { count: 895, total: 930 } },
    ]);
  });

  it("has no posterior where no prior is stated", () => {
    expect(model).toMatchObject({
      bayesian: null,
      priorSensitivity: null,
      source: null,
      prevalencePrior: null,
    });
    expect(model.tests.map(({ prior }) => prior)).toEqual([null, null]);
  });

  it("says so where the counts can't tell, and is warned of", () => {
    const { document } = evaluated([setOf(HUI_WALTER)], { populations: undefined });
    expect(only(document).likelihood?.tests[0]?.sensitivity.estimate.value).toBeNull();
    expect(document.referenceWarnings).toEqual([
      { code: "not_identified", subject: "m", facts: { rank: 3, unknowns: 5 } },
    ]);
  });
});

describe("the people of a model", () => {
  const odd = [
    some("children", 3, "reactive", "not_done"),
    some("children", 2, "not_done", "positive"),
    some("patients", 5, "invalid", "negative"),
    some("patients", 7, "nonreactive", "indeterminate"),
    some("patients", 4, "reactive", "positive", { window: "late" }),
    some(null, 11, "reactive", "positive"),
    some("patients", 6, "invalid", "not_done"),
    some("children", 8, "not_done", "not_done"),
  ];
  const treatment = { invalid: "failure", outside_window: "set_aside", repeat: "last" } as const;
  const { document } = evaluated([setOf([...HUI_WALTER, ...odd])], {}, { treatment });
  const model = only(document);
  const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);

  it("add up: asked, counted and set aside", () => {
    expect(model.people).toEqual({
      asked: 1877 + 46,
      counted: 1877 + 21,
      setAside: [
        { reason: "no_result", people: 14 },
        { reason: "no_population", people: 11 },
      ],
    });
  });

  it("add up for each test, with what is as if not done", () => {
    const [rapid, lab] = model.tests.map(({ people }) => people);
    expect(rapid).toEqual({
      reactive: 939,
      nonreactive: 948,
      invalid: 5,
      outsideWindow: 4,
      indeterminate: 0,
      notDone: 2,
    });
    expect(lab).toEqual({
      reactive: 953,
      nonreactive: 935,
      invalid: 0,
      outsideWindow: 0,
      indeterminate: 7,
      notDone: 3,
    });
    for (const { people } of model.tests) expect(sum(Object.values(people))).toBe(model.people.counted);
  });

  it("are those of the patterns and of the populations", () => {
    const { patterns, populations } = model.likelihood ?? { patterns: [], populations: [] };
    expect(sum(patterns.map(({ observed }) => observed ?? 0))).toBe(model.people.counted);
    expect(sum(populations.map(({ people }) => people ?? 0))).toBe(model.people.counted);
    const alone = patterns.find(
      ({ population, results }) => population === "patients" && results.join() === "nonreactive,not_done",
    );
    expect(alone?.observed).toBe(7);
  });

  it("are joined person by person across sets, whoever is missing in one", () => {
    const named = (who: string, rapid: Rapid, reference: Reference) =>
      person({ person: who, rapid, reference, strata: { site: "north" } });
    const first = setOf([named("a", "reactive", "positive"), named("b", "nonreactive", "negative")]);
    const second = setOf(
      [
        named("c", "reactive", "negative"),
        named("b", "reactive", "negative"),
        named("a", "invalid", "positive"),
      ],
      { reader: "R2" },
    );
    const tests = [...MODEL.tests, { id: "second", title: "Second eye", reader: "R2", reference: false }];
    const joined = only(evaluated([first, second], { tests, dependence: "random_effect" }).document);
    expect(joined.people).toEqual({ asked: 3, counted: 3, setAside: [] });
    expect(
      joined.tests.map(({ people }) => [people.reactive, people.nonreactive, people.invalid, people.notDone]),
    ).toEqual([
      [1, 1, 0, 1],
      [1, 1, 0, 1],
      [2, 0, 1, 0],
    ]);
    expect(joined.tests.map(({ side }) => side?.reader ?? null)).toEqual(["R1", null, "R2"]);
  });

  it("may be nobody, or have too many populations: notes, no crash", () => {
    expect(only(evaluated([setOf([])]).document)).toMatchObject({
      likelihood: null,
      people: { asked: 0, counted: 0 },
    });
    const scattered = Array.from({ length: 11 }, (_, place) => some(`s${place}`, 3, "reactive", "positive"));
    const many = only(evaluated([setOf(scattered)]).document);
    expect(many.likelihood).toBeNull();
    expect(many.notes.map(({ code }) => code)).toEqual(["too_many_populations"]);
    const absent = only(
      evaluated([setOf(HUI_WALTER)], {
        tests: MODEL.tests.map((test) => (test.reference ? test : { ...test, specimen: "plasma" })),
      }).document,
    );
    expect(absent.notes[0]).toMatchObject({ code: "no_observations", path: "tests" });
  });
});

/** Priors as a study file states them, and where they come from. */
const withPriors = (priors: Readonly<Record<string, unknown>>): Partial<Model> =>
  v.parse(LatentFields, { ...MODEL, priors, source: "made up" });
const STATED = {
  rapid: {
    sensitivity: { mean: 0.95, percentile: 0.85, chance: 0.05 },
    specificity: { median: 0.98, percentile: 0.95, chance: 0.05 },
  },
  lab: { sensitivity: { alpha: 20, beta: 2 }, specificity: { mode: 0.99, percentile: 0.95, chance: 0.05 } },
  prevalence: { alpha: 1, beta: 1 },
};
const PRIORS = withPriors(STATED);

describe("a model with priors", () => {
  const { document, records } = evaluated([setOf(HUI_WALTER)], PRIORS);
  const model = only(document);

  it("turns what was stated into beta distributions that say the same", () => {
    const [rapid, lab] = model.tests.map(({ prior }) => prior);
    const { alpha = 0, beta = 0 } = rapid?.sensitivity ?? {};
    // jstat 1.9.6, a second opinion on the beta distribution
    expect(alpha / (alpha + beta)).toBeCloseTo(0.95, 9);
    expect(jstat.jStat.beta.cdf(0.85, alpha, beta)).toBeCloseTo(0.05, 6);
    const median = rapid?.specificity ?? { alpha: 0, beta: 0 };
    expect(jstat.jStat.beta.cdf(0.98, median.alpha, median.beta)).toBeCloseTo(0.5, 6);
    expect(jstat.jStat.beta.cdf(0.95, median.alpha, median.beta)).toBeCloseTo(0.05, 6);
    expect(lab?.sensitivity).toEqual({ alpha: 20, beta: 2 });
    expect(model.prevalencePrior).toEqual({ alpha: 1, beta: 1 });
  });

  it("has the posterior beside the likelihood, drawn by chains that agree", () => {
    const { bayesian, likelihood } = model;
    // With 1,877 people the priors move little: a posterior mean lies within its own standard deviation or two.
    for (const [place, test] of (bayesian?.tests ?? []).entries()) {
      const found = likelihood?.tests[place]?.sensitivity;
      const apart = Math.abs((test.sensitivity.mean ?? 0) - (found?.estimate.value ?? 9));
      expect(apart).toBeLessThan(2 * (test.sensitivity.standardDeviation ?? 0));
    }
    expect(bayesian?.tests.map(({ name }) => name)).toEqual(["rapid", "lab"]);
    expect(bayesian?.search).toMatchObject({ chains: 4, draws: 2000 });
    expect(bayesian?.search.fewestEffective ?? 0).toBeGreaterThan(2000);
    expect(bayesian?.search.worstRHat ?? 9).toBeLessThan(1.01);
    for (const chain of bayesian?.tests[0]?.sensitivity.trace ?? []) expect(chain).toHaveLength(100);
  });

  it("stands under other priors too, named by what was done", () => {
    const alternatives = model.priorSensitivity?.alternatives ?? [];
    expect(alternatives.map(({ name }) => name)).toEqual([
      "as_stated",
      "half_weight",
      "double_weight",
      "flat_accuracy",
      ...["tests.0.sensitivity", "tests.0.specificity", "tests.1.sensitivity", "tests.1.specificity"].map(
        (share) => `flat_alone.${share}`,
      ),
    ]);
    const places = model.notes.filter(({ path }) => path.startsWith("priorSensitivity."));
    for (const { path } of places)
      expect(path).toMatch(/^priorSensitivity\.alternatives(\.\d+(\.shares\.\d+)?)?$/);
    const [stated, ...others] = alternatives;
    expect(stated?.largestShift).toBe(0);
    for (const { shares, largestShift } of others) {
      const sizes = shares.map(({ shift }) => Math.abs(shift ?? 0));
      expect(Math.abs(largestShift ?? 0)).toBe(Math.max(...sizes));
      for (const [place, { median, shift }] of shares.entries()) {
        const before = stated?.shares[place]?.median ?? 9;
        expect(Math.sign(shift ?? 0)).toBe(Math.sign((median ?? 0) - before));
      }
    }
  });

  it("is read back as written, and gives the same bytes again", () => {
    expect(readEvaluation(JSON.parse(writeEvaluation(document)))).toEqual(document);
    expect(writeEvaluation(evaluated([setOf(HUI_WALTER)], PRIORS).document)).toBe(writeEvaluation(document));
  });

  it("has tables whose people add up", () => {
    const tables = Object.fromEntries(
      evaluationTables(document, records).map((one) => [
        one.name,
        parse(writeCsv(one), { columns: true }) as Record<string, string>[],
      ]),
    );
    const people = (of: string) =>
      (tables.latent_people ?? [])
        .filter(({ test }) => test === of)
        .reduce((sum, row) => sum + Number(row.people), 0);
    expect([people("rapid"), people("lab")]).toEqual([1877, 1877]);
    const estimates = tables.latent_class?.filter(
      ({ of, measure }) => of === "rapid" && measure === "sensitivity",
    );
    expect(estimates?.map(({ by }) => by)).toEqual(["naive", "likelihood", "prior", "posterior"]);
    const seen = (tables.latent_patterns ?? []).filter(({ by }) => by === "likelihood");
    expect(seen.reduce((sum, row) => sum + Number(row.observed), 0)).toBe(1877);
    expect(seen.map(({ results }) => results).slice(0, 4)).toEqual(["[--]", "[+-]", "[-+]", "[++]"]);
  });

  it("says what no beta distribution says, and goes without", () => {
    const priors = { ...STATED, prevalence: { mean: 0.5, percentile: 0.99, chance: 0.01 } };
    const without = only(evaluated([setOf(HUI_WALTER)], withPriors(priors)).document);
    expect(without.bayesian).toBeNull();
    expect(without.likelihood).not.toBeNull();
    expect(without.notes).toContainEqual(
      expect.objectContaining({ code: "no_such_prior", path: "priors.prevalence" }),
    );
  });
});

describe("warnings of a model with priors", () => {
  it("tell where the data alone can't, and where they speak against a prior", () => {
    const against = withPriors({
      ...STATED,
      lab: { sensitivity: { alpha: 20, beta: 80 }, specificity: { alpha: 99, beta: 1 } },
    });
    const alone = evaluated([setOf(HUI_WALTER)], { ...PRIORS, populations: undefined }).document;
    expect(alone.referenceWarnings.map(({ code }) => code)).toContain("rests_on_priors");
    expect(alone.referenceWarnings.map(({ code }) => code)).not.toContain("not_identified");
    // One population: the chains move slowly there, and are drawn longer.
    expect(only(alone).bayesian?.search.draws).toBe(5000);
    const { referenceWarnings } = evaluated([setOf(HUI_WALTER)], against).document;
    const conflict = referenceWarnings.find(({ code }) => code === "prior_conflict");
    expect(conflict).toMatchObject({ subject: "m", facts: { parameter: "tests.1.sensitivity" } });
  });
});
