import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/evaluation/evaluate.ts";
import { people, setOf, tinyInputs, tinyRecords } from "./tiny-study.ts";

const CRITERION = {
  id: "se",
  analyte: "one",
  measure: "sensitivity",
  specimen: "plasma",
  at_least: 0.9,
  rule: "interval",
  importance: "primary",
  source: "made up",
} as const;

describe("a criterion without records", () => {
  it.each([
    [{ use: "consensus", disagreement: "set_aside" } as const, "consensus"],
    [{ use: "primary", primary: "R1", disagreement: "set_aside" } as const, "R1"],
  ])("names the reader whose results were asked for", (readers, reader) => {
    const records = tinyRecords([setOf(people(3, { rapid: "reactive", reference: "positive" }))], {
      study: { readers, criteria: [CRITERION] },
    });
    const [answer] = evaluate(records, tinyInputs).answers;
    expect(answer).toMatchObject({ reader, verdict: "not_estimable" });
  });
});

describe("the flow", () => {
  it("counts as outside the window who was read early or late, not who was not read or not timed", () => {
    const result = { rapid: "reactive", reference: "positive" } as const;
    const set = setOf([
      ...people(5, result),
      ...people(2, { ...result, window: "early", minutes: 9 }),
      ...people(3, { ...result, window: "late", minutes: 41 }),
      ...people(4, { ...result, window: "unknown", minutes: null }),
      ...people(6, { rapid: "not_done", reference: "positive", window: "early", minutes: null }),
    ]);
    const [flow] = evaluate(tinyRecords([set]), tinyInputs).flows;
    expect(flow).toMatchObject({ eligible: 20, tested: 14, outsideWindow: { people: 5, treatment: "keep" } });
  });
});
