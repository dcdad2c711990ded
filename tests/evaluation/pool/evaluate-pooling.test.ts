import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { Ajv } from "ajv";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { readPooling } from "../../../src/evaluation/pool/read.ts";
import { poolingTables } from "../../../src/evaluation/pool/tables.ts";
import { writePooling } from "../../../src/evaluation/pool/write.ts";
import { type PoolText, pooled, poolText, type StudyRow, withKinds, workedCase } from "./any-pool.ts";

const ROOT = resolve(import.meta.dirname, "../../..");
const read = (path: string) => readFileSync(resolve(ROOT, path), "utf8");
const relative = (value: number | null, wanted: number | undefined) =>
  Math.abs((value ?? Number.NaN) / (wanted ?? Number.NaN) - 1);
const codes = (pooling: ReturnType<typeof pooled>) => pooling.answer.warnings.map(({ code }) => code);

describe("twelve studies, against the worked example G-04 (R 4.2.2, own adaptive quadrature)", () => {
  const { rows, expected } = workedCase("G-04");
  const criteria = [
    { measure: "sensitivity", at_least: 0.8, source: "made up" },
    { measure: "specificity", at_least: 0.9, source: "made up" },
  ];
  const pooling = pooled(rows, poolText({ criteria }));
  const { answer } = pooling;

  it("summary, limits and spread", () => {
    const found = [
      [answer.sensitivity.summary.value, expected.sensitivity],
      [answer.sensitivity.summary.lower, expected.sensLower],
      [answer.sensitivity.summary.upper, expected.sensUpper],
      [answer.specificity.summary.value, expected.specificity],
      [answer.specificity.summary.lower, expected.specLower],
      [answer.specificity.betweenSd.value, expected.sdLogitSp],
      [answer.correlation.value, expected.rho],
    ] as const;
    for (const [value, wanted] of found) expect(relative(value, wanted)).toBeLessThan(1e-5);
  });

  // R 4.2.2: plogis(m + c(-1, 1) * qt(.975, 10) * sqrt(se^2 + sd^2)) of G-04's printed figures; pt() of the criteria.
  it("what a new place may see, and how likely it reaches a criterion", () => {
    expect(relative(answer.sensitivity.prediction.lower, 0.675958545532)).toBeLessThan(1e-5);
    expect(relative(answer.sensitivity.prediction.upper, 0.938704618603)).toBeLessThan(1e-5);
    expect(relative(answer.specificity.prediction.lower, 0.829078653119)).toBeLessThan(1e-5);
    expect(relative(answer.specificity.prediction.upper, 0.989874368391)).toBeLessThan(1e-5);
    expect(relative(answer.criteria[0]?.chance ?? null, 0.771252796325)).toBeLessThan(1e-5);
    expect(relative(answer.criteria[1]?.chance ?? null, 0.890420892647)).toBeLessThan(1e-5);
  });

  it("verdicts by limits: met at the middle, undecided in a new place", () => {
    expect(answer.criteria.map(({ summary, newPlace }) => [summary, newPlace])).toEqual([
      ["met", "undecided"],
      ["met", "undecided"],
    ]);
    // Leaving a study out may take the lower limit below 0.8: those, and no others, change the verdict.
    const below = pooling.influence?.values.without.filter(
      ({ sensitivity }) => (sensitivity.lower ?? 1) < 0.8,
    );
    expect(below?.length).toBeGreaterThan(0);
    expect(answer.criteria[0]?.changedBy).toEqual(below?.map(({ label }) => label));
    expect(codes(pooling)).toContain("verdict_hangs_on_one");
  });

  it("the approximations, against G-01 (R 4.2.2)", () => {
    const [ml, reml] = pooling.approximations;
    const at = (id: string) => workedCase(id).expected.sensitivity;
    expect(relative(ml?.values.summary.sensitivity.proportion.value ?? null, at("G-01-ML"))).toBeLessThan(
      2e-4,
    );
    expect(relative(reml?.values.summary.sensitivity.proportion.value ?? null, at("G-01-REML"))).toBeLessThan(
      2e-4,
    );
  });

  it("all people together: sums by hand", () => {
    expect(answer.sensitivity.together).toMatchObject({ count: 713, total: 848 });
    expect(answer.sensitivity.together.count).toBe(rows.reduce((sum, [tp]) => sum + Number(tp), 0));
  });
});

// A fit of its own by lme4 1.1-31 (glmer, Laplace, R 4.2.2) on the same rows. Laplace is an approximation of the
// quadrature used here: hence a tolerance of 0.01 on the logits, 0.02 on standard deviations, 0.5 on chi-squares.
describe("the published studies of data/pool, against lme4", () => {
  const pooling = pooled(read("data/pool/studies.csv"), parse(read("data/pool/pool.yaml")) as PoolText);
  const { summary, betweenStudies } = pooling.bivariate.values;
  const parts = pooling.covariate?.values.covariate;

  it("summary point and spread over all studies", () => {
    expect(Math.abs((summary.sensitivity.logit.value ?? 9) - 1.1453597)).toBeLessThan(0.01);
    expect(Math.abs((summary.specificity.logit.value ?? 9) - 3.4889482)).toBeLessThan(0.01);
    expect(Math.abs((betweenStudies.sensitivity.value ?? 9) - 1.47)).toBeLessThan(0.02);
    expect(Math.abs((betweenStudies.specificity.value ?? 9) - 1.1842)).toBeLessThan(0.02);
  });

  it("a summary point for each kind, and the likelihood-ratio test of both the same", () => {
    const [with_, without] = parts?.levels ?? [];
    expect([with_?.label, without?.label]).toEqual(["symptomatic", "asymptomatic"]);
    expect(Math.abs((with_?.sensitivity.logit.value ?? 9) - 2.2951698)).toBeLessThan(0.01);
    expect(Math.abs((without?.sensitivity.logit.value ?? 9) - (2.2951698 - 2.43214651))).toBeLessThan(0.01);
    expect(Math.abs((parts?.both.chiSquare ?? 0) - 32.93421)).toBeLessThan(0.5);
    expect(parts?.both.degreesOfFreedom).toBe(2);
  });

  it("warns that one summary hides a difference, in sensitivity alone, and of rows left out", () => {
    expect(pooling.answer.warnings).toMatchObject([
      { code: "levels_differ", measures: ["sensitivity"] },
      { code: "studies_differ", measures: ["sensitivity", "specificity"] },
      { code: "left_out" },
    ]);
  });

  it("a new place of one kind lies nearer than one of any kind", () => {
    const width = ({ lower, upper }: { lower: number | null; upper: number | null }) =>
      (upper ?? 1) - (lower ?? 0);
    const all = width(pooling.answer.sensitivity.prediction);
    for (const { sensitivity } of pooling.answer.levels) {
      expect(width(sensitivity.prediction)).toBeLessThan(all);
      expect(width(sensitivity.prediction)).toBeGreaterThan(width(sensitivity.summary));
    }
  });

  it("its tables have a row for each study, level and row left out", () => {
    const rows = Object.fromEntries(poolingTables(pooling).map(({ name, rows: all }) => [name, all.length]));
    expect(rows).toMatchObject({ studies: 32, summary: 2, "leave-one-out": 32, levels: 4, "left-out": 2 });
    for (const { columns, rows: all } of poolingTables(pooling)) {
      for (const row of all) expect(row).toHaveLength(columns.length);
    }
  });
});

describe("where the studies say too little", () => {
  const few: StudyRow[] = [
    [45, 6, 5, 94],
    [62, 3, 14, 137],
    [28, 12, 9, 88],
  ];

  it("three studies: figures, with the warning first", () => {
    const pooling = pooled(few);
    expect(pooling.answer.basis).toBe("bivariate");
    expect(codes(pooling)).toContain("few_studies");
  });

  it("one study: no model, all people together alone", () => {
    const pooling = pooled([[45, 6, 5, 94]]);
    expect(pooling.answer.basis).toBeNull();
    expect(codes(pooling)[0]).toBe("no_summary");
    expect(pooling.answer.sensitivity.summary.value).toBeNull();
    expect(pooling.answer.sensitivity.together).toMatchObject({ count: 45, total: 50, value: 0.9 });
  });

  it("no false positive anywhere: each measure by itself", () => {
    const pooling = pooled(few.map(([tp, , fn, tn]): StudyRow => [tp, 0, fn, tn]));
    expect(pooling.answer.basis).toBe("univariate");
    expect(pooling.answer.warnings[0]).toMatchObject({ code: "no_summary", measures: ["specificity"] });
    expect(pooling.answer.sensitivity.summary.value).toBeGreaterThan(0.7);
    expect(pooling.answer.specificity.summary.value).toBeNull();
  });

  // Riley and others 2007 print a correlation of -1 for these ten studies (worked example G-03; counts recalled).
  it("a correlation at its border is the first thing said", () => {
    const pooling = pooled(workedCase("G-03").rows);
    expect(pooling.answer.correlation.value).toBeCloseTo(-1, 2);
    expect(pooling.answer.warnings[0]?.code).toBe("boundary");
    expect(pooling.answer.warnings[0]?.message).toContain("the correlation is at its border");
  });

  it("a covariate of one level, or said by no study, gives no kinds and a reason", () => {
    const rows = few.map(([tp, fp, fn, tn]): StudyRow => [tp, fp, fn, tn, "a"]);
    const one = pooled(rows, withKinds());
    expect(one.answer.levels).toEqual([]);
    expect(one.covariate?.notes.map(({ code }) => code)).toContain("one_level");
    const none = pooled(few, withKinds());
    expect(none.covariate).toBeNull();
    expect(none.notes.map(({ code }) => code)).toContain("no_levels");
  });
});

describe("the document", () => {
  const pooling = pooled(workedCase("G-01-ML").rows.slice(0, 6));
  const fits = new Ajv({ strict: false, allErrors: true }).compile(
    JSON.parse(read("src/evaluation/pool/pooling.v1.schema.json")) as object,
  );

  it("fits its published schema and reads back the same; the same studies give the same bytes", () => {
    const text = writePooling(pooling);
    const back: unknown = JSON.parse(text);
    fits(back);
    expect(fits.errors ?? []).toEqual([]);
    expect(writePooling(readPooling(back))).toBe(text);
    expect(writePooling(pooled(workedCase("G-01-ML").rows.slice(0, 6)))).toBe(text);
  });

  it.each([
    ["another format", { format: "fourfold-other" }, "format"],
    ["a newer version", { version: 2 }, "a newer Fourfold"],
    ["a field too many", { extra: 1 }, "extra"],
  ])("%s is refused in words", (_, change, words) => {
    expect(() => readPooling({ ...pooling, ...change })).toThrow(words);
  });

  it("the files of data/pool and of the template fit the schema of the pooling file", () => {
    const file = new Ajv({ strict: false }).compile(
      JSON.parse(read("src/records/pool/pool.v1.schema.json")) as object,
    );
    for (const name of ["data/pool/pool.yaml", "data/template-pool/pool.yaml"]) {
      file(parse(read(name)));
      expect(file.errors ?? []).toEqual([]);
    }
  });
});

describe("what must be so", () => {
  it("another order of the studies changes nothing but the order", () => {
    const { rows } = workedCase("G-04");
    const turned = pooled([...rows].reverse());
    const straight = pooled(rows);
    expect(turned.answer.sensitivity.summary.value).toBeCloseTo(
      straight.answer.sensitivity.summary.value ?? 9,
      7,
    );
    expect(turned.answer.specificity.prediction.lower).toBeCloseTo(
      straight.answer.specificity.prediction.lower ?? 9,
      7,
    );
  });
});
