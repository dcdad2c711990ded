import { describe, expect, test } from "vitest";
import { en } from "../../src/report/words/en.ts";
import { reportOf, sectionOf, textOf } from "./html.ts";
import { comparatorEvaluation, sampleEvaluation } from "./sample-evaluation.ts";

/** Words of accuracy, which a comparison test that is no reference standard can't bear. */
const ACCURACY =
  /sensitiv|specificit|accura|\bPPV\b|\bNPV\b|predictive|likelihood|odds ratio|Youden|true reactive|false reactive|falsely|missed/i;

const SECTIONS = ["answer", "care", "study", "flow", "participants", "queries", "accuracy"];
const LATER = ["decision", "joint", "invalid", "comparisons", "subgroups", "readers", "time", "typed"];

describe("a comparison test that is no reference standard", () => {
  test.each([...SECTIONS, ...LATER])("has no word of accuracy in section %s", async (id) => {
    const html = await reportOf("comparator", () => comparatorEvaluation(["hbsag", "hcv"]));
    const section = sectionOf(html, id);
    expect(section).not.toBeNull();
    // The one sentence that may use the words, for it denies them.
    const text = textOf(section ?? "").replace(en.readers.neverAccuracy, "");
    expect(text.match(ACCURACY)).toBeNull();
  });

  test("is spoken of in percent agreement", async () => {
    const html = await reportOf("comparator", () => comparatorEvaluation(["hbsag", "hcv"]));
    const text = textOf(sectionOf(html, "answer") ?? "");
    expect(text).toContain("Positive percent agreement");
    expect(text).toContain("Negative percent agreement");
    expect(text).toContain("Agree / all");
    expect(sectionOf(html, "predictive")).toBeNull();
    expect(sectionOf(html, "people")).toBeNull();
    expect(sectionOf(html, "prevalence")).toBeNull();
  });

  test("shows no note on a measure that it does not show", async () => {
    const evaluation = structuredClone(comparatorEvaluation(["hbsag", "hcv"]));
    for (const accuracy of evaluation.accuracy) {
      accuracy.notes = [
        { code: "unbounded", path: "diagnosticOddsRatio.upper", message: "the odds ratio is infinite" },
        { code: "half_added", path: "halfAdded", message: "a half was added to every cell" },
      ];
    }
    const text = textOf(sectionOf(await reportOf("notes", () => evaluation), "accuracy") ?? "");
    expect(text).not.toMatch(/odds ratio is infinite|a half was added/i);
  });

  test("beside a real reference standard keeps its own words, line by line", async () => {
    const html = await reportOf("mixed", () => comparatorEvaluation(["hcv"]));
    const bodies = [...html.matchAll(/<tbody data-analyte="(\w+)">([\s\S]*?)<\/tbody>/g)];
    const of = (analyte: string) =>
      bodies.filter((body) => body[1] === analyte).map((body) => textOf(body[2] ?? ""));
    expect(of("hcv").length).toBeGreaterThan(3);
    for (const text of of("hcv")) expect(text.match(ACCURACY)).toBeNull();
    expect(of("hbsag").join(" ")).toContain("Sensitivity");
  });
});

describe("predictive values of the study's own sample", () => {
  test("are refused with the reason where people were sought for their status", async () => {
    const html = await reportOf("sample", () => sampleEvaluation());
    const text = textOf(sectionOf(html, "accuracy") ?? "");
    expect(text).toContain("Predictive values of this study's own sample are not given");
    expect(text).not.toContain("predictive value in this sample");
  });

  test("are printed where they may be", async () => {
    const evaluation = structuredClone(sampleEvaluation());
    const [first] = evaluation.accuracy;
    if (first === undefined) throw new Error("the sample has no accuracy");
    first.refused = null;
    first.ownPredictiveValues = { ppv: { ...first.sensitivity }, npv: { ...first.specificity } };
    const text = textOf(sectionOf(await reportOf("own", () => evaluation), "accuracy") ?? "");
    expect(text).toContain("Positive predictive value in this sample");
  });
});

describe("100 %", () => {
  test("never stands without its interval", async () => {
    const text = textOf(await reportOf("sample", () => sampleEvaluation()));
    const bare = [...text.matchAll(/(?<![\d.–] )\b100(?:\.0+)?(?: %)?(?![\d.,])/g)]
      .map((found) => text.slice(found.index, found.index + 30))
      .filter((around) => /^100\.0+/.test(around))
      .filter((around) => !/^100\.0+ ?%? ?\(?[\d.]+ [–t]/.test(around));
    expect(bare).toEqual([]);
  });
});

describe("sources recalled from memory", () => {
  test("are marked wherever they are cited", async () => {
    const text = textOf(sectionOf(await reportOf("sample", () => sampleEvaluation()), "methods") ?? "");
    expect(text).toContain("cited from memory, not yet checked");
  });
});

describe("an unbounded ratio", () => {
  test("is printed with the limit that it has, and the open side in words", async () => {
    const evaluation = structuredClone(sampleEvaluation());
    const [first] = evaluation.accuracy;
    if (first === undefined) throw new Error("the sample has no accuracy");
    first.positiveLikelihoodRatio = { value: null, lower: 235.7, upper: null };
    first.negativeLikelihoodRatio = { value: 0, lower: null, upper: 0.0321 };
    first.notes = [
      { code: "unbounded", path: "positiveLikelihoodRatio.upper", message: "no false positives" },
    ];
    const text = textOf(sectionOf(await reportOf("unbounded", () => evaluation), "accuracy") ?? "");
    expect(text).toContain("∞ 236, no upper limit");
    expect(text).toContain("0 0.0321, no lower limit");
    expect(text).toContain("No false positives");
  });
});
