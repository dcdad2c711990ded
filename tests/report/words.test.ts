import { describe, expect, test } from "vitest";
import { cssString } from "../../src/report/styles/print.ts";
import { type AnswerFacts, answer, type Piece, type VerdictGroup } from "../../src/report/words/en/answer.ts";
import { closed, inline, listed, numberWord, people, sentence } from "../../src/report/words/en/plural.ts";
import { terms } from "../../src/report/words/en/terms.ts";

const none: VerdictGroup = {
  importance: "primary",
  total: 0,
  met: 0,
  notMet: [],
  undecided: [],
  notEstimable: [],
};
const said = (pieces: readonly Piece[][]) =>
  pieces
    .map((one) => one.map((piece) => (typeof piece === "string" ? piece : piece.verdict)).join(""))
    .join(" ");
const headline = (...groups: Partial<VerdictGroup>[]) =>
  said(answer.headline(groups.map((group) => ({ ...none, ...group }))));

describe("the first sentence", () => {
  test.each([
    [{ total: 1, met: 1 }, "The criterion is met."],
    [{ total: 2, met: 2 }, "Both criteria are met."],
    [{ total: 5, met: 5 }, "All five criteria are met."],
    [{ total: 1, undecided: ["X sensitivity"] }, "X sensitivity is undecided."],
    [{ total: 2, met: 1, notMet: ["X"] }, "One of the two criteria is met; X is not_met."],
    [
      { total: 4, notMet: ["A"], undecided: ["B", "C", "D"] },
      "None of the four criteria is met; A is not_met; B, C and D are undecided.",
    ],
    [
      { total: 5, met: 1, undecided: ["A", "B", "C", "D"] },
      "One of the five criteria is met; four are undecided.",
    ],
    [
      { total: 3, notEstimable: ["A", "B", "C"] },
      "None of the three criteria can be judged from these data.",
    ],
  ])("%j", (group, text) => expect(headline(group)).toBe(text));

  test("tells primary and secondary criteria apart where there are both", () => {
    expect(headline({ total: 2, met: 2 }, { importance: "secondary", total: 1, notMet: ["Z"] })).toBe(
      "Both primary criteria are met. Z is not_met.",
    );
  });
});

const facts: AnswerFacts = {
  terms: terms.accuracy,
  measure: "sensitivity",
  right: 111,
  total: 113,
  verdict: "undecided",
  direction: "at_least",
  threshold: 0.95,
  further: 202,
  rule: "interval",
  level: 0.95,
  chance: null,
  failuresIncluded: false,
};

describe("the plain sentence of a criterion", () => {
  test.each([
    [{}, "2 of 113 reference-positive people were missed; the study is too small to say."],
    [
      { right: 112, verdict: "met" as const },
      "1 of 113 reference-positive people was missed; even the lower limit reaches the criterion.",
    ],
    [
      { right: 113, verdict: "met" as const },
      "None of 113 reference-positive people was missed; even the lower limit reaches the criterion.",
    ],
    [
      { measure: "specificity" as const, right: 1541, total: 1549, verdict: "not_met" as const },
      "8 of 1,549 reference-negative people were falsely reactive; even the upper limit falls short of the criterion.",
    ],
    [
      {
        measure: "invalid_rate" as const,
        right: 44,
        total: 1685,
        verdict: "met" as const,
        direction: "at_most" as const,
      },
      "44 of 1,685 people had an invalid first result; even the upper limit reaches the criterion.",
    ],
    [
      { terms: terms.agreement },
      "The kit agreed for 111 of 113 people positive by the comparison test; the study is too small to say.",
    ],
    [{ verdict: "not_estimable" as const }, "No estimate is possible from these data."],
  ])("%j", (changed, text) => expect(answer.plain({ ...facts, ...changed })).toBe(text));

  test("says what would settle an undecided one, and only there", () => {
    expect(answer.further(facts)).toBe("About 202 more would settle it if the estimate held.");
    expect(answer.further({ ...facts, chance: 0.713 })?.replace(/[\u202f]/g, " ")).toBe(
      "About 202 more would settle it if the estimate held; with what is known so far the chance that they do is 71 %.",
    );
    expect(answer.further({ ...facts, further: null })).toContain("No realistic number");
    expect(answer.further({ ...facts, verdict: "met" })).toBeNull();
  });

  test("says how it is judged where that is not by the two-sided interval", () => {
    expect(answer.rule(facts)).toBeNull();
    expect(answer.rule({ ...facts, rule: "one_sided" })).toContain("the lower one to meet it");
    expect(answer.plain({ ...facts, rule: "point", verdict: "not_met" })).toContain(
      "the estimate falls short of the criterion",
    );
  });

  test("says which treatments would change it, repeating nothing", () => {
    expect(answer.flip("undecided", ["counted as failures", "counted as reactive"], [])).toBe(
      "Undecided if invalid results are counted as failures or as reactive.",
    );
    expect(answer.flip("met", ["set aside"], ["set aside"])).toBe(
      "Met if invalid results are set aside or if readings outside the window are set aside.",
    );
  });
});

describe("small parts of speech", () => {
  test("plurals, lists, capitals", () => {
    expect([people(1), people(1541)]).toEqual(["1 person", "1,541 people"]);
    expect([listed([]), listed(["a"]), listed(["a", "b"]), listed(["a", "b", "c"], "or")]).toEqual([
      "",
      "a",
      "a and b",
      "a, b or c",
    ]);
    expect([numberWord(2), numberWord(12), numberWord(1300)]).toEqual(["two", "twelve", "1,300"]);
    expect([sentence("abc"), closed("a?"), closed("a")]).toEqual(["Abc", "a?", "a."]);
  });

  test.each([
    ["Venous whole blood", "venous whole blood"],
    ["EDTA plasma", "EDTA plasma"],
    ["HBsAg", "HBsAg"],
    ["anti-HCV", "anti-HCV"],
    ["pH strip", "pH strip"],
    ["B cells", "B cells"],
  ])("%s inside a sentence", (title, text) => expect(inline(title)).toBe(text));
});

describe("text inside the style sheet", () => {
  test("is escaped sign by sign, as CSS Syntax 3 section 4.3.7 has it", () => {
    expect(cssString('a"</')).toBe('"a\\22 \\3c \\2f "');
    expect(cssString("é\u2028")).toBe('"\\e9 \\2028 "');
  });
});
