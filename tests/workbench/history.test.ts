import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { amended, begun, moved, redone, undone } from "../../src/workbench/state/history.ts";

describe("the history of a thing", () => {
  it("undoes and redoes by name", () => {
    const three = moved(moved(begun("a"), "to b", "b"), "to c", "c");
    const back = undone(undone(three));
    expect(back.present).toBe("a");
    expect(back.future.map(({ what }) => what)).toEqual(["to b", "to c"]);
    expect(redone(redone(back))).toEqual(three);
    expect(moved(back, "to d", "d").future).toEqual([]);
  });

  it("amends the last step without another", () => {
    const one = moved(begun(1), "draw", 2);
    expect(undone(amended(one, 3)).present).toBe(1);
  });

  it("redo takes back what undo did, however often, and the ends are still", () => {
    fc.assert(
      fc.property(fc.array(fc.integer(), { maxLength: 20 }), fc.nat(30), (values, back) => {
        const whole = values.reduce((history, value) => moved(history, String(value), value), begun(0));
        let history = whole;
        const times = Math.min(back, values.length);
        for (let time = 0; time < times; time++) history = undone(history);
        for (let time = 0; time < times; time++) history = redone(history);
        expect(history).toEqual(whole);
        expect(redone(history)).toBe(history);
        expect(undone(begun(0)).present).toBe(0);
      }),
    );
  });

  it("keeps a hundred steps", () => {
    let history = begun(0);
    for (let value = 1; value <= 150; value++) history = moved(history, "step", value);
    expect(history.past).toHaveLength(100);
    expect(history.past[0]?.thing).toBe(50);
  });
});
