import * as v from "valibot";
import { describe, expect, test } from "vitest";
import { EvaluationSchema } from "../../src/evaluation/document.ts";
import { embeddedJson } from "../../src/report/embed.ts";
import { readEmbeddedEvaluation, renderFigures, renderReport } from "../../src/report/render-report.tsx";
import { reportOf, tagsOf, textOf } from "./html.ts";
import { HOSTILE, hostileEvaluation, sampleEvaluation } from "./sample-evaluation.ts";

describe("the embedded evaluation", () => {
  test("reads back as it was", async () => {
    const html = await reportOf("sample", () => sampleEvaluation());
    const back = readEmbeddedEvaluation(html);
    expect(back).toEqual(sampleEvaluation());
    expect(v.is(EvaluationSchema, back)).toBe(true);
  });

  test("hostile text reads back as it was, and closes nothing", async () => {
    const html = await reportOf("hostile", hostileEvaluation);
    expect(readEmbeddedEvaluation(html)).toEqual(hostileEvaluation());
    expect(html.match(/<\/script>/g)).toHaveLength(1);
  });

  test("no < and no line separators stand in the JSON", () => {
    expect(embeddedJson({ text: "</script><!--\u2028\u2029" })).toBe(
      '{"text":"\\u003c/script>\\u003c!--\\u2028\\u2029"}',
    );
  });

  test("a page without one is refused in words", () => {
    expect(() => readEmbeddedEvaluation("<html></html>")).toThrow(
      "expected a report with an evaluation inside",
    );
    expect(() =>
      readEmbeddedEvaluation('<script type="application/json" id="evaluation">{</script>'),
    ).toThrow("expected JSON as it was written");
  });
});

describe("hostile text", () => {
  test("is shown as text wherever it came from", async () => {
    const html = await reportOf("hostile", hostileEvaluation);
    expect(tagsOf(html).filter((tag) => /^<\/?(?:img|script)|onerror/.test(tag))).toEqual([]);
    const title = `${sampleEvaluation().study.title} ${HOSTILE}`.replace(/\s+/g, " ");
    expect(textOf(html).includes(title)).toBe(true);
  });

  test("cannot leave the style sheet", async () => {
    const html = await reportOf("hostile", hostileEvaluation);
    const style = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? "";
    expect(style).not.toMatch(/alert\(|<\/|onerror=/);
    expect(style.split("{").length).toBe(style.split("}").length);
  });
});

describe("the same evaluation", () => {
  test("gives the same bytes, with figures drawn beforehand or not", async () => {
    const evaluation = sampleEvaluation();
    const figures = await renderFigures(evaluation);
    const [one, two] = [await renderReport(evaluation), await renderReport(evaluation, { figures })];
    expect(one).toBe(two);
    expect(figures.map(({ name }) => name)).toEqual([
      "predictive-hbsag-kit-q-venous-r1",
      "predictive-hcv-kit-q-venous-r1",
      "reading-time-hbsag-kit-q-venous-r1",
      "minutes-hbsag-kit-q-venous-r1",
      "minutes-hcv-kit-q-venous-r1",
    ]);
  });
});
