import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { writeCsv } from "../../src/evaluation/csv.ts";
import type { Evaluation } from "../../src/evaluation/document.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { readEvaluation } from "../../src/evaluation/read.ts";
import { evaluationTables } from "../../src/evaluation/tables.ts";
import { writeEvaluation } from "../../src/evaluation/write.ts";
import type { Pair } from "../../src/records/model.ts";
import type { Study } from "../../src/records/study.ts";
import { person, setOf, tinyInputs, tinyRecords, tinyStudy } from "./tiny-study.ts";

type Errors = NonNullable<Study["analytes"][number]["reference"]["errors"]>;
type Criterion = Study["criteria"][number];

const INDEPENDENT = { diseased: 0, nondiseased: 0 };
const known = (value: number) => ({ believed: value, from: value, to: value });

/** Kit result by reference result: both, kit only, reference only, neither. */
function table(both: number, kitOnly: number, referenceOnly: number, neither: number): Pair[] {
  const some = (weight: number, rapid: "reactive" | "nonreactive", reference: "positive" | "negative") =>
    person({ weight, rapid, reference });
  return [
    some(both, "reactive", "positive"),
    some(kitOnly, "reactive", "negative"),
    some(referenceOnly, "nonreactive", "positive"),
    some(neither, "nonreactive", "negative"),
  ];
}

const criterion = (changes: Partial<Criterion>): Criterion => ({
  id: "c",
  analyte: "one",
  measure: "sensitivity",
  rule: "interval",
  importance: "primary",
  source: "made up",
  ...changes,
});

function evaluated(pairs: readonly Pair[], errors: Partial<Errors>, criteria: Criterion[] = []): Evaluation {
  const [analyte] = tinyStudy.analytes;
  if (analyte === undefined) throw new Error("no analyte");
  const stated: Errors = { covariance: INDEPENDENT, source: "made up", ...errors };
  const analytes = [{ ...analyte, reference: { ...analyte.reference, errors: stated } }];
  return evaluate(tinyRecords([setOf(pairs)], { study: { analytes, criteria } }), tinyInputs);
}

const only = <Item>(items: readonly Item[]): Item => {
  const [first] = items;
  if (first === undefined || items.length > 1) throw new Error(`${items.length} instead of one`);
  return first;
};

/** People expected of a kit and a reference that err independently: the four products, added up over the truth. */
function expectedTable(
  people: number,
  prevalence: number,
  kit: [number, number],
  reference: [number, number],
) {
  const cell = (kitReactive: boolean, referencePositive: boolean) => {
    const share = (right: number, says: boolean, has: boolean) => (says === has ? right : 1 - right);
    const among = (has: boolean) =>
      share(kit[has ? 0 : 1], kitReactive, has) * share(reference[has ? 0 : 1], referencePositive, has);
    return Math.round(people * (prevalence * among(true) + (1 - prevalence) * among(false)));
  };
  return table(cell(true, true), cell(true, false), cell(false, true), cell(false, false));
}

describe("behind the stated errors of the reference", () => {
  it("stands what made the table: a known kit, prevalence and reference are found again", () => {
    const pairs = expectedTable(10_000_000, 0.2, [0.9, 0.95], [0.92, 0.97]);
    const { corrected, formula, naive } = only(
      evaluated(pairs, { sensitivity: known(0.92), specificity: known(0.97) }).referenceErrors,
    );
    expect(corrected.sensitivity.value).toBeCloseTo(0.9, 6);
    expect(corrected.specificity.value).toBeCloseTo(0.95, 6);
    expect(corrected.prevalence.value).toBeCloseTo(0.2, 6);
    expect(formula.sensitivity).toBe(corrected.sensitivity.value);
    // By hand: (0.2 x 0.9 x 0.92 + 0.8 x 0.05 x 0.03) / (0.2 x 0.92 + 0.8 x 0.03) = 0.1668 / 0.208
    expect(naive.sensitivity.value).toBeCloseTo(0.1668 / 0.208, 6);
  });

  it("a reference that never errs changes nothing, and no range without width is drawn", () => {
    const document = evaluated(table(45, 3, 5, 147), { sensitivity: known(1), specificity: known(1) });
    const { corrected, naive, simulated, criteria } = only(document.referenceErrors);
    expect(corrected.sensitivity.value).toBeCloseTo(0.9, 12);
    expect(corrected.specificity.value).toBeCloseTo(147 / 150, 12);
    // R 4.2.2: uniroot on twice the log-likelihood lost, 45 of 50, chi-square quantile at 95 %
    expect(corrected.sensitivity.lower).toBeCloseTo(0.7972639589, 8);
    expect(corrected.sensitivity.upper).toBeCloseTo(0.9629332512, 8);
    expect(naive.sensitivity).toEqual(document.accuracy[0]?.sensitivity);
    expect([naive.prevalence.count, naive.prevalence.total]).toEqual([50, 200]);
    expect(simulated).toBeNull();
    expect(criteria).toEqual([]);
  });

  it("of two tests is reckoned from them", () => {
    const tests = [
      { title: "EIA", sensitivity: 0.8, specificity: 0.95 },
      { title: "PCR", sensitivity: 0.9, specificity: 0.9 },
    ];
    const covariance = { diseased: 0.01, nondiseased: 0.02 };
    const believed = (rule: "any_positive" | "both_positive") => {
      const composite = { rule, tests, covariance };
      return only(evaluated(table(45, 3, 5, 147), { composite }).referenceErrors);
    };
    // By hand: 1 - (0.2 x 0.1 + 0.01) and 0.95 x 0.9 + 0.02; 0.8 x 0.9 + 0.01 and 1 - (0.05 x 0.1 + 0.02)
    expect(believed("any_positive").believed.sensitivity.believed).toBeCloseTo(0.97, 12);
    expect(believed("any_positive").believed.specificity.believed).toBeCloseTo(0.875, 12);
    expect(believed("both_positive").believed.sensitivity.believed).toBeCloseTo(0.73, 12);
    expect(believed("both_positive").believed.specificity.believed).toBeCloseTo(0.975, 12);
    expect(believed("any_positive").composite).toEqual({ rule: "any_positive", tests, covariance });
  });

  it("has wider limits when the ranges are drawn too", () => {
    const sensitivity = { believed: 0.95, from: 0.9, to: 1 };
    const specificity = { believed: 0.995, from: 0.99, to: 1 };
    const pairs = table(3000, 300, 1000, 95_700);
    const { simulated, corrected } = only(evaluated(pairs, { sensitivity, specificity }).referenceErrors);
    const width = ({ lower, upper }: { lower: number | null; upper: number | null }) =>
      (upper ?? Number.NaN) - (lower ?? Number.NaN);
    expect(width(simulated?.sensitivity ?? { lower: 0, upper: 0 })).toBeGreaterThan(
      width(corrected.sensitivity),
    );
  });
});

const STATED = {
  sensitivity: { believed: 0.95, from: 0.9, to: 0.98 },
  specificity: { believed: 0.998, from: 0.99, to: 1 },
};

describe("a verdict and the reference", () => {
  const pairs = table(190, 6, 10, 1794);
  const criteria = [
    criterion({ id: "se", at_least: 0.95 }),
    criterion({ id: "sp", measure: "specificity", at_least: 0.9 }),
    criterion({ id: "inv", measure: "invalid_rate", at_most: 0.1 }),
  ];
  const document = evaluated(pairs, STATED, criteria);
  const { criteria: judged } = only(document.referenceErrors);
  const [se, sp] = judged;
  if (se === undefined || sp === undefined) throw new Error("two criteria expected");

  it("is told for the criteria on accuracy only, with the answer's own verdict beside", () => {
    expect(judged.map((one) => one.criterion)).toEqual(["se", "sp"]);
    expect(judged.map((one) => one.naive)).toEqual(
      document.answers.filter(({ measure }) => measure !== "invalid_rate").map(({ verdict }) => verdict),
    );
  });

  it("has a map of one letter for each pair, what is stated among them", () => {
    const { sensitivities, specificities, verdicts, fits } = se.grid;
    expect(verdicts).toHaveLength(sensitivities.length);
    expect(fits).toHaveLength(sensitivities.length);
    for (const row of [...verdicts, ...fits]) expect(row).toHaveLength(specificities.length);
    expect(verdicts.join("")).toMatch(/^[mnux]+$/);
    expect(fits.join("")).toMatch(/^[01]+$/);
    for (const at of Object.values(STATED.sensitivity)) expect(sensitivities).toContain(at);
    for (const at of Object.values(STATED.specificity)) expect(specificities).toContain(at);
    expect(sensitivities).toEqual([...sensitivities].sort((one, other) => one - other));
    const letter = { met: "m", not_met: "n", undecided: "u", not_estimable: "x" };
    const at = verdicts[sensitivities.indexOf(0.95)]?.[specificities.indexOf(0.998)];
    expect(at).toBe(letter[se.believed]);
    expect(verdicts.at(-1)?.at(-1)).toBe(letter[se.perfect]);
  });

  it("changes on the map where the border says", () => {
    const { below, above } = se.borders.referenceSpecificity;
    const { sensitivities, specificities, verdicts } = se.grid;
    const row = verdicts[sensitivities.indexOf(0.95)] ?? "";
    const letter = { met: "m", not_met: "n", undecided: "u", not_estimable: "x" };
    specificities.forEach((at, column) => {
      if (below.at !== null && at < below.at) return;
      if (above.at !== null && at > above.at) return;
      expect(row[column]).toBe(letter[se.believed]);
    });
    expect(below.at !== null || above.at !== null).toBe(true);
  });

  it("holds throughout exactly where every letter within what is stated is the same", () => {
    for (const { grid, throughout } of judged) {
      const letters = grid.sensitivities.flatMap((one, row) =>
        grid.specificities.flatMap((other, column) =>
          one >= 0.9 && one <= 0.98 && other >= 0.99 ? [grid.verdicts[row]?.[column]] : [],
        ),
      );
      const told = new Set(letters.filter((one) => one !== "x"));
      expect(throughout === null).toBe(told.size > 1);
    }
    expect(sp.throughout).toBe("met");
  });

  it("is warned of where it hangs on the reference, and nowhere else", () => {
    expect(se.perfect === se.believed && se.throughout === se.believed).toBe(false);
    expect(document.referenceWarnings).toMatchObject([
      {
        code: "verdict_hangs_on_reference",
        subject: "se",
        specimen: "serum",
        facts: { believed: se.believed },
      },
    ]);
  });

  it("by the estimate alone follows the corrected estimate; one-sided limits are nearer", () => {
    const point = only(
      only(evaluated(pairs, STATED, [criterion({ at_least: 0.95, rule: "point" })]).referenceErrors).criteria,
    );
    expect(point.believed).toBe((point.estimates.believed.value ?? 0) >= 0.95 ? "met" : "not_met");
    const sided = only(
      only(evaluated(pairs, STATED, [criterion({ at_least: 0.95, rule: "one_sided" })]).referenceErrors)
        .criteria,
    );
    expect(sided.estimates.believed.lower ?? 0).toBeGreaterThan(se.estimates.believed.lower ?? 1);
  });
});

describe("documents and tables", () => {
  const document = evaluated(table(190, 6, 10, 1794), STATED, [criterion({ at_least: 0.95 })]);

  it("are read back as written", () => {
    expect(readEvaluation(JSON.parse(writeEvaluation(document)))).toEqual(document);
  });

  it("of before the reference was looked at still open, with nothing of it", () => {
    const plain = JSON.parse(writeEvaluation(evaluate(tinyRecords(), tinyInputs))) as Record<string, unknown>;
    const later = ["referenceErrors", "verification", "discrepant", "latentClass", "referenceWarnings"];
    const older = Object.fromEntries(Object.entries(plain).filter(([key]) => !later.includes(key)));
    const { latent_class: _, ...study } = plain.study as Record<string, unknown>;
    const read = readEvaluation({ ...older, study });
    expect(later.map((key) => read[key as keyof Evaluation])).toEqual([[], [], null, [], []]);
    expect(writeEvaluation(read)).toBe(writeEvaluation(evaluate(tinyRecords(), tinyInputs)));
  });

  it("carry the numbers and as many rows as the map has references", () => {
    const tables = Object.fromEntries(
      evaluationTables(document, tinyRecords()).map((one) => [
        one.name,
        parse(writeCsv(one), { columns: true }) as Record<string, string>[],
      ]),
    );
    const { grid } = only(only(document.referenceErrors).criteria);
    expect(tables.reference_map).toHaveLength(grid.sensitivities.length * grid.specificities.length);
    expect(tables.reference_tipping).toHaveLength(8);
    const row = tables.reference_errors?.find(
      ({ measure, by }) => measure === "sensitivity" && by === "naive",
    );
    expect(row).toMatchObject({ count: "190", total: "200", value: "0.95" });
    expect(
      evaluationTables(evaluate(tinyRecords(), tinyInputs), tinyRecords()).map(({ name }) => name),
    ).not.toContain("reference_map");
  });
});

describe("retesting only those who disagree", () => {
  const alarm = { code: "discrepant_only_retested", count: 9, total: 10, subjects: ["one"] } as const;

  it("is shown on supposed people where the records raise the alarm, never otherwise", () => {
    const records = tinyRecords([setOf(table(45, 3, 5, 147))], { alarms: [alarm] });
    const { discrepant, referenceWarnings } = evaluate(records, tinyInputs);
    const { supposed, resolved, everybody, gain, retested } = discrepant?.demonstration ?? {};
    expect(discrepant?.alarms).toEqual([{ subjects: ["one"], count: 9, total: 10 }]);
    expect(supposed?.kit).toEqual({ sensitivity: 0.9, specificity: 0.98 });
    expect(supposed?.prevalence).toBe(0.25);
    // A third test that never errs, done in everybody, shows the truth.
    expect(everybody?.sensitivity).toBeCloseTo(0.9, 12);
    // By hand, kit and comparator alike: found by either 0.9 x 0.9 + 2 x 0.9 x 0.1, of which the kit had 0.9, of
    // the truly positive; both wrong together 0.02 x 0.02 of the others.
    const positive = 0.25 * (0.81 + 0.18) + 0.75 * 0.0004;
    expect(resolved?.sensitivity).toBeCloseTo((0.25 * 0.9 + 0.75 * 0.0004) / positive, 12);
    expect(gain?.sensitivity).toBeCloseTo((resolved?.sensitivity ?? 0) - 0.9, 12);
    expect(retested).toBeCloseTo(0.25 * 0.18 + 0.75 * 2 * 0.98 * 0.02, 12);
    expect(referenceWarnings.map(({ code }) => code)).toEqual(["discrepant_only_retested"]);
    expect(evaluate(tinyRecords(), tinyInputs).discrepant).toBeNull();
  });
});
