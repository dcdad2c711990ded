import * as v from "valibot";
import { describe, expect, test } from "vitest";
import { PoolingSchema } from "../../src/evaluation/pool/document.ts";
import * as formats from "../../src/report/formats.ts";
import { poolContentsOf } from "../../src/report/pool/contents.ts";
import { readEmbeddedPooling, renderPool, renderPoolFigures } from "../../src/report/pool/render-pool.tsx";
import { en } from "../../src/report/words/en.ts";
import { headingLevels, sectionOf, tagsOf, textOf, visible } from "./html.ts";
import { NAMES, poolingOf, poolPageOf } from "./pool-sample.ts";
import { HOSTILE } from "./sample-evaluation.ts";

/** Spaces of any kind as plain ones. */
const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, " ");

describe.each(NAMES)("the page of pooled studies, %s", (name) => {
  test("has one h1, and no heading skips a level", async () => {
    const levels = headingLevels(await poolPageOf(name));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    for (const [place, level] of levels.entries()) {
      expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1);
    }
  });

  test("has every section that its studies fill, in order, and no other", async () => {
    const html = await poolPageOf(name);
    const shown = [...html.matchAll(/<section id="([a-z]+)" class="evidence"/g)].map((found) => found[1]);
    expect(shown).toEqual(poolContentsOf(poolingOf(name), en).map(({ id }) => id));
  });

  test("every inner link leads somewhere, every id is there once, no two tables bear one caption", async () => {
    const html = visible(await poolPageOf(name));
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const targets = [...html.matchAll(/href="#([^"]*)"/g)].map((found) => found[1]);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
    const captions = [...html.matchAll(/<caption[^>]*>([^<]*)</g)].map((found) => found[1]);
    expect(captions.filter((caption, at) => captions.indexOf(caption) !== at)).toEqual([]);
  });

  test("asks for nothing from outside and runs nothing", async () => {
    const html = await poolPageOf(name);
    expect(html).toContain("content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:;");
    const links = [
      ...visible(html).matchAll(/ (?:src|href|action|poster|data|srcset|xlink:href)="([^"]*)"/g),
    ].map((link) => link[1] ?? "");
    expect(links.filter((target) => !/^(?:#|data:application\/json)/.test(target))).toEqual([]);
    const forbidden = /^<(?:iframe|object|embed|link|img|form|base|script)\b/;
    expect(tagsOf(html).filter((tag) => forbidden.test(tag))).toEqual([]);
  });

  test("no number is missing its words", async () => {
    expect(textOf(await poolPageOf(name))).not.toMatch(
      /\bNaN\b|Infinity|undefined|\[object|-0\.0\b|\bnull\b|\(p\)|\bp \./,
    );
  });

  test("carries its document, which reads back and fits its schema", async () => {
    const back = readEmbeddedPooling(await poolPageOf(name));
    expect(back).toEqual(JSON.parse(JSON.stringify(poolingOf(name))));
    expect(v.is(PoolingSchema, back)).toBe(true);
  });

  test("every drawing says in words what it shows", async () => {
    const html = visible(await poolPageOf(name));
    const drawings = html.match(/<svg [^>]*role="img"[\s\S]*?<\/svg>/g) ?? [];
    expect(drawings.length).toBeGreaterThan(3);
    for (const drawing of drawings) expect(drawing).toMatch(/<title>[^<]{3,}<\/title>/);
    const charts = drawings.filter((drawing) => drawing.includes("fig-chart"));
    for (const drawing of charts) expect(drawing).toMatch(/<desc>[^<]{20,}<\/desc>/);
  });

  test("warns before the first figure, in the order of the document", async () => {
    const text = textOf(sectionOf(await poolPageOf(name), "answer") ?? "");
    const { warnings } = poolingOf(name).answer;
    const places = warnings.map(({ code }) => text.indexOf(en.pool.warnings[code].label));
    expect(places.every((place) => place >= 0)).toBe(true);
    expect(places).toEqual([...places].sort((one, other) => one - other));
    const middle = text.search(/In the middle of|No summary can be given/);
    expect(middle).toBeGreaterThan(Math.max(...places, 0));
  });
});

describe("the first page", () => {
  test("tells the summary with its limits, and what a new place may see", async () => {
    const text = plain(textOf(sectionOf(await poolPageOf("example"), "answer") ?? ""));
    const { sensitivity, specificity } = poolingOf("example").answer;
    for (const { summary, prediction } of [sensitivity, specificity]) {
      const share = (of: number | null) => formats.percent(of ?? -1);
      expect(text).toContain(
        `${share(summary.value)} % (${share(summary.lower)} to ${share(summary.upper)})`,
      );
      expect(text).toContain(`from ${share(prediction.lower)} to ${share(prediction.upper)} %`);
    }
    expect(text).toMatch(/In a place that has not been studied, sensitivity may lie anywhere from/);
    expect(text).toMatch(
      /Between studies the standard deviation is 1\.48 \(1\.12 to 2\.02\) for sensitivity/,
    );
  });

  test("tells each kind where kinds differ, for the measure that differs", async () => {
    const text = plain(textOf(sectionOf(await poolPageOf("example"), "answer") ?? ""));
    expect(text).toMatch(
      /Sensitivity hangs on whether the patients had symptoms: 90\.8 % \(86\.1 to 94\.1\)/,
    );
    expect(text).not.toContain("Specificity hangs on");
  });

  test("tells the criterion, its verdict and the chance of a new place", async () => {
    const text = plain(textOf(sectionOf(await poolPageOf("template"), "answer") ?? ""));
    const chance = formats.probability(poolingOf("template").answer.criteria[0]?.chance ?? -1);
    expect(text).toContain("Asked of sensitivity: at least 95 %");
    expect(text).toContain(`A place not studied reaches it with probability ${chance}.`);
    expect(text).toContain("undecided");
  });

  test("on a border tells each measure by itself", async () => {
    const text = plain(textOf(sectionOf(await poolPageOf("border"), "answer") ?? ""));
    expect(text).toMatch(/The model ended on its border\..*By itself, sensitivity is pooled to \d/);
  });

  test("without a model gives all people together, and says so", async () => {
    const text = textOf(sectionOf(await poolPageOf("single"), "answer") ?? "");
    expect(text).toContain("No summary can be given. All people together");
    expect(text).not.toMatch(/new place/i);
  });
});

describe("the evidence", () => {
  test("has a strip of both measures for every study, and a dash where nobody was of a kind", async () => {
    const html = sectionOf(await poolPageOf("example"), "studies") ?? "";
    const rows = html.match(/<tr class="fig-group">[\s\S]*?<\/tr>/g) ?? [];
    expect(rows).toHaveLength(32);
    const drawn = rows.map((row) => (row.match(/class="fig fig-drawn fig-strip"/g) ?? []).length);
    expect(drawn.filter((strips) => strips === 1)).toHaveLength(2);
    expect(drawn.filter((strips) => strips === 2)).toHaveLength(30);
    const summaries = html.match(/<tr class="fig-summary">/g) ?? [];
    expect(summaries).toHaveLength(3);
  });

  test("leaves each study out once, the farthest first", async () => {
    const html = sectionOf(await poolPageOf("example"), "without") ?? "";
    const heads = [...html.matchAll(/<th scope="row"[^>]*>([^<]+)<\/th>/g)].map((found) => found[1]);
    expect(new Set(heads).size).toBe(32);
    expect(heads[0]).toBe(poolingOf("example").influence?.values.farthest);
  });

  test("names every row left out with its reason", async () => {
    const text = textOf(sectionOf(await poolPageOf("example"), "left") ?? "");
    for (const { study, expected } of poolingOf("example").leftOut) {
      expect(text).toContain(study ?? "no name");
      expect(text).toContain(expected);
    }
  });

  test("drawn beforehand or not, the page is the same, byte for byte", async () => {
    const pooling = poolingOf("border");
    const figures = await renderPoolFigures(pooling);
    expect(figures.map(({ name }) => name)).toEqual(["summary-plot", "small-study-funnel"]);
    expect(await renderPool(pooling, { figures })).toBe(await poolPageOf("border"));
  });
});

describe("hostile text", () => {
  test("is shown as text", async () => {
    const html = await poolPageOf("hostile");
    expect(html.match(/<\/script>/g)).toHaveLength(1);
    expect(textOf(html)).toContain(HOSTILE.replace(/\s+/g, " ").trim().slice(0, 12));
    expect(tagsOf(html).filter((tag) => /^<(?:script|img)\b| on[a-z]+=/.test(tag))).toEqual([]);
  });

  test("a page without a pooling document is refused in words", () => {
    expect(() => readEmbeddedPooling("<html></html>")).toThrow("the pooling document inside");
  });
});
