import { describe, expect, it } from "vitest";
import { headline } from "../../src/cli/headline.ts";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import type { Study } from "../../src/records/study.ts";
import { setOf, tinyInputs, tinyKit, tinyRecords, twentyPeople } from "../evaluation/tiny-study.ts";

const pairs = twentyPeople();
const other = { ...tinyKit, id: "other-kit", title: "Another kit" };

/** Two kits, both with 8 of 9 right on either side, on the same people. */
function lines(study: Partial<Study>): string[] {
  const made = tinyRecords([setOf(pairs), setOf(pairs, { kit: "other-kit" })], { study });
  return headline(evaluate({ ...made, kits: [...made.kits, other] }, tinyInputs)).split("\n");
}

const criterion = {
  analyte: "one",
  measure: "sensitivity" as const,
  rule: "interval" as const,
  importance: "primary" as const,
  source: "made up",
};
const criteria = [
  { ...criterion, id: "low", at_least: 0.5 },
  { ...criterion, id: "high", at_least: 0.95, kit: "other-kit" },
];
const comparison = {
  id: "kits",
  title: "Kits",
  analyte: "one",
  first: { kit: "other-kit", reader: "R1" },
  second: { reader: "R1" },
  source: "made up",
};

describe("the answers in a few lines", () => {
  it("name the kit where there are several", () => {
    expect(lines({ criteria })).toEqual(
      expect.arrayContaining([
        "met            Analyte one, A made-up kit, Serum, R1: sensitivity 8 / 9 = 88.9 % (51.8 – 99.7), asked at least 50 %",
        "undecided      Analyte one, Another kit, Serum, R1: sensitivity 8 / 9 = 88.9 % (51.8 – 99.7), asked at least 95 %",
      ]),
    );
  });

  it("say what the criteria give together, where the study file joins them", () => {
    const together = (control: Study["decision"]["control"], asked = criteria) =>
      lines({ criteria: asked, decision: { control } }).filter((line) => line.includes("together"));
    expect(together("all_must_pass")).toEqual(["undecided      together: all primary criteria"]);
    expect(together("holm")).toHaveLength(1);
    expect(together("each")).toEqual([]);
    expect(together("all_must_pass", criteria.slice(0, 1))).toEqual([]);
  });

  it("hold comparisons against their margin, and leave out those without one", () => {
    const of = (changes: Partial<Study["comparisons"][number]>) =>
      lines({ comparisons: [{ ...comparison, kind: "noninferiority", ...changes }] }).filter((line) =>
        line.includes("Kits"),
      );
    expect(of({})).toEqual([]);
    const [sensitivity, specificity] = of({ margin: 0.4 });
    // By hand: with nobody discordant of nine the score test rejects beyond z² / (9 + z²) = .299.
    expect(sensitivity).toBe(
      "met            Kits: sensitivity 0.0 points (−29.9 – +29.9), asked at most 40 points less",
    );
    expect(specificity).toContain("specificity");
    expect(of({ margin: 0.2, kind: "equivalence" })[0]).toMatch(
      /^undecided .* asked within 20 points either way$/,
    );
  });

  it("warn of a verdict that hangs on the reference before all else", () => {
    const [analyte] = tinyRecords().study.analytes;
    if (analyte === undefined) throw new Error("no analyte");
    const known = (value: number) => ({ believed: value, from: value, to: value });
    const errors = {
      sensitivity: known(0.9),
      specificity: known(0.9),
      covariance: { diseased: 0, nondiseased: 0 },
      source: "made up",
    };
    const analytes = [{ ...analyte, reference: { ...analyte.reference, errors } }];
    const point = [{ ...criterion, id: "low", at_least: 0.95, rule: "point" as const }];
    // By hand: 8 and 1 positive, 1 and 8 negative; behind such errors the sensitivity is (0.9 x 8 - 0.1) / 7.2 = 98.6 %.
    const careful = (study: Partial<Study>) => lines(study).filter((line) => line.startsWith("careful:"));
    expect(careful({ analytes, criteria: point })[0]).toMatch(/reference.* met .*not met/);
    expect(careful({ criteria: point }).join()).not.toMatch(/reference as stated/);
  });
});
