import { describe, expect, test } from "vitest";
import { type JointFacts, plan, type SaidFacts } from "../../src/report/words/en/plan.ts";
import { criteria } from "../../src/report/words/en/plan-criteria.ts";
import { stopping } from "../../src/report/words/en/plan-studies.ts";

/** No-break spaces as plain ones. */
const plain = (text: string | null) => text?.replace(/[\u00a0\u202f]/g, " ");

describe("the first sentences of a plan", () => {
  test("how many, and for whom", () => {
    expect(plan.answer.enrol(1)).toBe("Enrol 1 person.");
    expect(plan.answer.enrol(3412)).toBe("Enrol 3,412 people.");
    const demand = plan.answer.needOfCriterion("HBsAg sensitivity", plan.demand("at_least", 0.95));
    expect(plain(plan.answer.because(0.9, 338, "HBsAg-positive people", demand, false))).toBe(
      "With 90 % probability that brings the 338 HBsAg-positive people needed to show HBsAg sensitivity of at least 95 %; nothing else needs more.",
    );
  });

  const joint: JointFacts = { primary: 4, planned: 4, stated: "0.81", bounds: null, wanted: null };
  test.each([
    [{}, "all four primary criteria are met with probability 0.81."],
    [
      { primary: 2, planned: 2, wanted: "0.80" },
      "both primary criteria are met with probability 0.81; 0.80 was wanted.",
    ],
    [{ primary: 1, planned: 1 }, "the primary criterion is met with probability 0.81."],
    [{ planned: 1 }, "the primary criterion that can be planned is met with probability 0.81."],
    [
      { planned: 3, bounds: "0.78 to 0.85" },
      "all three primary criteria that can be planned are met with probability 0.81 (0.78 to 0.85, however they hang together).",
    ],
  ])("together: %j", (facts, text) => {
    expect(plan.answer.joint({ ...joint, ...facts })).toBe(`If the kit is as good as expected, ${text}`);
  });

  test("days and cost, either or both", () => {
    expect(plain(plan.answer.daysAndCost("103", 0.9, 6, "98,000 credits"))).toBe(
      "Enrolment takes up to 103 working days at six sites (90 % sure), and the study costs about 98,000 credits.",
    );
    expect(plain(plan.answer.daysAndCost("103", 0.9, 1, null))).toBe(
      "Enrolment takes up to 103 working days (90 % sure).",
    );
    expect(plan.answer.daysAndCost(null, 0.9, 0, "98,000 credits")).toBe(
      "The study costs about 98,000 credits.",
    );
    expect(plan.answer.daysAndCost(null, 0.9, 0, null)).toBeNull();
  });
});

describe("the sentence of a criterion", () => {
  const facts: SaidFacts = {
    measure: "sensitivity",
    direction: "at_least",
    group: "HBsAg-positive people",
    total: 338,
    allowed: 9,
    needed: 338,
  };
  test.each([
    [{}, "At most 9 of 338 HBsAg-positive people may be missed."],
    [{ allowed: 0 }, "None of 338 HBsAg-positive people may be missed."],
    [
      { measure: "specificity" as const, group: "HBsAg-negative people", needed: 381 },
      "At most 9 of 338 HBsAg-negative people may be falsely reactive; 381 are needed, not 338, as people of one site are alike.",
    ],
    [
      { measure: "invalid_rate" as const, direction: "at_most" as const, group: "people tested" },
      "At most 9 of 338 people tested may have an invalid result.",
    ],
  ])("%j", (change, text) => expect(plan.answer.said({ ...facts, ...change })).toBe(text));

  test("why the first number that has the power is not taken", () => {
    expect(criteria.stays(312, 338, 8)).toContain("8 failures may happen");
    expect(criteria.stays(312, 338, 1)).toContain("1 failure may happen");
    expect(criteria.stays(35, 72, 0)).toContain("no failure may happen");
  });
});

describe("what to do at a look", () => {
  test.each([
    [stopping.look(70, null, 4, false), "After 70 people: it fails with 4 or more wrong; else go on."],
    [
      stopping.look(105, 0, 4, false),
      "After 105 people: it passes with none wrong, it fails with 4 or more wrong; else go on.",
    ],
    [stopping.look(105, null, null, false), "After 105 people: nothing stops the study."],
    [
      stopping.look(140, 3, 4, true),
      "At the end, after 140 people, the kit passes with at most 3 wrong, else it fails.",
    ],
    [
      stopping.look(1, 0, 1, true),
      "At the end, after 1 person, the kit passes with none wrong, else it fails.",
    ],
  ])("%s", (said, text) => expect(said).toBe(text));
});
