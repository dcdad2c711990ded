import { describe, expect, it } from "vitest";
import {
  type LineSeen,
  lineResult,
  seenByInstrument,
  windowStatus,
} from "../../src/records/reading-rules.ts";

const SEEN: LineSeen[] = ["absent", "faint", "clear", "unreadable"];
const reactive = { faintLine: "reactive" } as const;
const nonreactive = { faintLine: "nonreactive" } as const;

describe("what the lines of one reader give (common practice, no source)", () => {
  it("is invalid without a control line, whatever else is seen", () => {
    for (const test of SEEN) {
      expect(lineResult({ control: "absent", test }, reactive)).toMatchObject({
        result: "invalid",
        reason: "control_absent",
        lineWithoutControl: test === "faint" || test === "clear",
      });
    }
  });

  it("is invalid where the control or the test line can't be read", () => {
    for (const test of SEEN) {
      const found = lineResult({ control: "unreadable", test }, reactive);
      expect(found).toMatchObject({ result: "invalid", reason: "unreadable", lineWithoutControl: false });
    }
    const found = lineResult({ control: "clear", test: "unreadable" }, reactive);
    expect(found).toMatchObject({ result: "invalid", reason: "unreadable" });
  });

  it("is reactive where any line is seen, and the kit file may say otherwise of faint ones", () => {
    for (const control of ["faint", "clear"] as const) {
      expect(lineResult({ control, test: "clear" }, nonreactive).result).toBe("reactive");
      expect(lineResult({ control, test: "faint" }, reactive)).toMatchObject({
        result: "reactive",
        faint: true,
      });
      expect(lineResult({ control, test: "faint" }, nonreactive)).toMatchObject({
        result: "nonreactive",
        faint: true,
      });
      expect(lineResult({ control, test: "absent" }, reactive)).toMatchObject({
        result: "nonreactive",
        reason: null,
      });
    }
  });

  it("lets an instrument see a line from its cut-off on", () => {
    expect(seenByInstrument(10, 10)).toBe("clear");
    expect(seenByInstrument(9.99, 10)).toBe("absent");
  });

  it("counts both ends of the reading window to it", () => {
    const window = { from_minutes: 15, to_minutes: 20 };
    const status = [null, 0, 14.9, 15, 17, 20, 20.1].map((minutes) => windowStatus(minutes, window));
    expect(status).toEqual(["unknown", "early", "early", "in", "in", "in", "late"]);
  });
});
