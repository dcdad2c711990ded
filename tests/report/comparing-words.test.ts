import { describe, expect, test } from "vitest";
import { type ComparedFacts, comparisons, type MarginFacts } from "../../src/report/words/en/comparisons.ts";
import { decision, type TogetherFacts } from "../../src/report/words/en/decision.ts";
import { readers } from "../../src/report/words/en/readers.ts";
import { terms } from "../../src/report/words/en/terms.ts";

const together: TogetherFacts = {
  control: "all_must_pass",
  primary: 4,
  overall: "undecided",
  joint: "0.61",
  bounds: "0.60 to 0.64",
  changed: [],
};
const said = (facts: Partial<TogetherFacts>) =>
  decision
    .together({ ...together, ...facts })
    .map((piece) => (typeof piece === "string" ? piece : piece.verdict))
    .join("");

describe("how criteria are judged together", () => {
  test.each([
    [
      {},
      "The kit needs all four primary criteria: taken together they are undecided. Probability that all are truly reached: 0.61 (0.60 to 0.64, however they hang together).",
    ],
    [
      { control: "each" as const, primary: 2, bounds: null },
      "Each criterion is judged by itself. Probability that both are truly reached: 0.61.",
    ],
    [{ control: "each" as const, primary: 1 }, "Each criterion is judged by itself."],
    [
      {
        control: "holm" as const,
        overall: "met" as const,
        joint: null,
        changed: [{ name: "X", verdict: "undecided" as const }],
      },
      "Any one primary criterion is enough for a claim, so the error allowed is shared among them (Holm). That one or more is reached: met. Judged together, X is undecided.",
    ],
  ])("%j", (facts, text) => expect(said(facts)).toBe(text));

  test("a number of people that no study reaches is said in words", () => {
    expect(decision.needed(0.9, null, "x")).toContain("no number of further people that was tried");
    expect(decision.needed(0.8, 1, "x")).toContain("1 more person");
  });
});

const margin: MarginFacts = {
  terms: terms.accuracy,
  measure: "sensitivity",
  first: "fingerstick blood",
  second: "venous blood",
  kind: "noninferiority",
  margin: 0.05,
  verdict: "met",
};

describe("a margin", () => {
  test.each([
    [{}, "Even at worst fingerstick blood loses less than the 5 points tolerated."],
    [
      { verdict: "not_met" as const },
      "Even at best fingerstick blood loses more than the 5 points tolerated.",
    ],
    [
      { verdict: "undecided" as const },
      "Fingerstick blood may lose more than the 5 points tolerated, or less; the study is too small to say.",
    ],
    [{ verdict: "not_estimable" as const }, "The data give no difference."],
    [
      { kind: "equivalence" as const, margin: 0.01 },
      "Fingerstick blood and venous blood differ by less than 1 point, whatever the chance.",
    ],
  ])("%j", (facts, text) => expect(comparisons.margin({ ...margin, ...facts })).toBe(text));
});

const compared: ComparedFacts = {
  terms: terms.accuracy,
  measure: "sensitivity",
  first: "kit P",
  second: "kit Q",
  difference: "−6.2",
  span: "−12.7 to −2.2",
  side: -1,
  paired: { firstOnly: 0, secondOnly: 7 },
};

describe("a difference", () => {
  test("says which side does better only where chance does not explain it", () => {
    expect(comparisons.plain(compared)).toBe(
      "Sensitivity: kit P less kit Q is −6.2 points (−12.7 to −2.2), kit Q does better, beyond chance.",
    );
    expect(comparisons.plain({ ...compared, side: 0 })).toContain("a difference that chance may explain");
    expect(comparisons.plain({ ...compared, difference: null })).toBe(
      "No difference in sensitivity can be given.",
    );
  });

  test("speaks of agreement where the comparison test is no reference standard", () => {
    const agreed = { ...compared, terms: terms.agreement };
    expect(`${comparisons.plain(agreed)} ${comparisons.onlyOne(agreed)}`).toBe(
      "Positive percent agreement: kit P less kit Q is −6.2 points (−12.7 to −2.2), kit Q does better, beyond chance. Kit P alone was in agreement for 0, kit Q alone for 7.",
    );
  });
});

describe("two readers", () => {
  const facts = { first: "reader A", second: "reader B", same: 98, total: 100, firstOnly: 2, secondOnly: 0 };
  test.each([
    [{}, "differed on 2: 2 reactive to reader A only, 0 to reader B only."],
    [{ firstOnly: 1, secondOnly: 1 }, "differed on 2: as many one way as the other."],
    [{ same: 100, firstOnly: 0 }, "They gave the same result for all 100 devices."],
    [{ same: 0, total: 0, firstOnly: 0 }, "No device has a valid result of both readers."],
  ])("%j", (changed, text) => expect(readers.plain({ ...facts, ...changed })).toContain(text));
});
