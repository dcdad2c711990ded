import { renderToString } from "preact-render-to-string";
import { describe, expect, it } from "vitest";
import type { Flow } from "../../src/evaluation/document.ts";
import { textWidth } from "../../src/figures/measure-text.ts";
import { FlowDiagram, flowInWords } from "../../src/report/figures/flow.tsx";
import { layOutFlow, FLOW as SHAPE } from "../../src/report/figures/flow-layout.ts";
import { EMPTY_FLOW, FLOW, LONG_FLOW } from "./samples.ts";

const flows: [string, Flow][] = [
  ["usual", FLOW],
  ["long", LONG_FLOW],
  ["empty", EMPTY_FLOW],
];
const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);

describe.each(flows)("the %s flow", (_, flow) => {
  const layout = layOutFlow(flow);
  const mains = layout.boxes.map((box) =>
    box.rows.filter((row) => row.rank === "main").map((row) => row.people),
  );

  it("is a sound sample: every split of the document adds up", () => {
    expect(flow.enrolled).toBe(flow.eligible + sum(flow.before.map((one) => one.people)));
    expect(flow.eligible).toBe(flow.tested + flow.rapidNotDone);
    expect(flow.tested).toBe(sum(flow.branches.map((branch) => branch.people)));
    expect(flow.eligible).toBe(flow.analysed + sum(flow.setAside.map((one) => one.people)));
  });

  it("shows people who leave and people who stay: each step adds up as drawn", () => {
    const [enrolled = [], eligible = [], tested = [], ...rest] = mains;
    const heads = rest.slice(0, 3).flat();
    const outcomes = rest.slice(3, -1).flat();
    const leaving = layout.lists.map((list) => list.rows.map((row) => row.people));
    const aside = (list: readonly number[]) => (list.length > 1 ? sum(list.slice(1)) : sum(list));
    for (const list of leaving.filter((one) => one.length > 1)) expect(list[0]).toBe(sum(list.slice(1)));
    expect(sum(enrolled) - sum(eligible)).toBe(sum(flow.before.map((one) => one.people)));
    expect(sum(heads)).toBe(sum(tested));
    const final = sum(rest.at(-1) ?? []);
    const all = sum(leaving.map(aside));
    expect(sum(enrolled)).toBe(final + all);
    expect(sum(outcomes)).toBeGreaterThanOrEqual(final);
  });

  it("keeps words inside their boxes and everything on the sheet", () => {
    for (const box of layout.boxes) {
      expect(box.x + box.width).toBeLessThanOrEqual(layout.width);
      expect(box.y + box.height).toBeLessThanOrEqual(layout.height);
      for (const row of box.rows) {
        const number = textWidth(String(row.people), SHAPE.text, "bold");
        for (const line of row.lines) {
          expect(textWidth(line, SHAPE.text) + number).toBeLessThanOrEqual(box.width - 2 * SHAPE.padding);
        }
      }
    }
    for (const list of layout.lists) {
      for (const line of list.rows.flatMap((row) => row.lines)) {
        expect(list.x + SHAPE.beside + textWidth(line, SHAPE.text)).toBeLessThanOrEqual(layout.width);
      }
    }
  });

  it("lets no two boxes overlap", () => {
    layout.boxes.forEach((one, index) => {
      for (const other of layout.boxes.slice(index + 1)) {
        const apart =
          one.y + one.height <= other.y ||
          other.y + other.height <= one.y ||
          one.x + one.width <= other.x ||
          other.x + other.width <= one.x;
        expect(apart).toBe(true);
      }
    });
  });

  it("says every number in words as well", () => {
    const text = flowInWords(flow);
    const said = [...text.matchAll(/: ([\d,]+)/g)].map((found) => Number(found[1]?.replaceAll(",", "")));
    for (const people of [flow.enrolled, flow.eligible, flow.tested, flow.analysed])
      expect(said).toContain(people);
    for (const { people } of [...flow.before, ...flow.setAside]) expect(said).toContain(people);
    const drawn = renderToString(<FlowDiagram flow={flow} />);
    expect(drawn).toContain(`<desc>${text.replaceAll("&", "&amp;")}</desc>`);
  });
});

describe("the flow diagram", () => {
  it("escapes words from data", () => {
    const drawn = renderToString(
      <FlowDiagram flow={{ ...FLOW, before: [{ reason: "<script>x</script>", people: 78 }] }} />,
    );
    expect(drawn).not.toContain("<script");
  });

  it("takes many reasons", () => {
    const before = Array.from({ length: 30 }, (_, index) => ({
      reason: `reason number ${index}`,
      people: index,
    }));
    const few = layOutFlow(FLOW).height;
    expect(layOutFlow({ ...FLOW, before }).height - few).toBe((30 - FLOW.before.length) * SHAPE.line);
  });

  it("draws a branch with nobody in it as empty, and ends it there", () => {
    const empty = layOutFlow(LONG_FLOW).boxes.filter((box) => box.empty);
    expect(empty.map((box) => box.rows[0]?.lines)).toEqual([["Non-reactive"]]);
  });
});
