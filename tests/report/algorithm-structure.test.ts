import * as v from "valibot";
import { describe, expect, test } from "vitest";
import { AlgorithmsSchema } from "../../src/evaluation/algorithm/document.ts";
import { algorithmContentsOf } from "../../src/report/algorithm/contents.ts";
import {
  readEmbeddedAlgorithms,
  renderAlgorithmFigures,
  renderAlgorithms,
} from "../../src/report/algorithm/render-algorithm.tsx";
import * as formats from "../../src/report/formats.ts";
import { en } from "../../src/report/words/en.ts";
import { algorithmPageOf, exampleAlgorithms, FILES } from "./algorithm-sample.ts";
import { headingLevels, sectionOf, tagsOf, textOf, visible } from "./html.ts";
import { HOSTILE } from "./sample-evaluation.ts";

describe.each(Object.keys(FILES))("the page of a file of algorithms, %s", (name) => {
  const algorithms = () => (FILES[name] ?? exampleAlgorithms)();

  test("has one h1, and no heading skips a level", async () => {
    const levels = headingLevels(await algorithmPageOf(name));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    for (const [place, level] of levels.entries()) {
      expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1);
    }
  });

  test("has every section that its file fills, in order, and no other", async () => {
    const html = await algorithmPageOf(name);
    const shown = [...html.matchAll(/<section id="([a-z]+)" class="evidence"/g)].map((found) => found[1]);
    expect(shown).toEqual(algorithmContentsOf(algorithms(), en).map(({ id }) => id));
  });

  test("every inner link leads somewhere, and every id is there once", async () => {
    const html = visible(await algorithmPageOf(name));
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const targets = [...html.matchAll(/href="#([^"]*)"/g)].map((found) => found[1]);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
  });

  test("no two tables bear the same caption", async () => {
    const html = visible(await algorithmPageOf(name));
    const captions = [...html.matchAll(/<caption[^>]*>([^<]*)</g)].map((found) => found[1]);
    expect(captions.length).toBeGreaterThan(4);
    expect(captions.filter((caption, at) => captions.indexOf(caption) !== at)).toEqual([]);
  });

  test("asks for nothing from outside and runs nothing", async () => {
    const html = await algorithmPageOf(name);
    expect(html).toContain("content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:;");
    const links = [
      ...visible(html).matchAll(/ (?:src|href|action|poster|data|srcset|xlink:href)="([^"]*)"/g),
    ].map((link) => link[1] ?? "");
    expect(links.filter((target) => !/^(?:#|data:application\/json)/.test(target))).toEqual([]);
    const sheet = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? "";
    expect(/@import|url\(/.test(sheet)).toBe(false);
    const forbidden = /^<(?:iframe|object|embed|link|img|form|base|script)\b/;
    expect(tagsOf(html).filter((tag) => forbidden.test(tag))).toEqual([]);
  });

  test("no number is missing its words", async () => {
    expect(textOf(await algorithmPageOf(name))).not.toMatch(
      /\bNaN\b|Infinity|undefined|\[object|-0\.0\b|\bnull\b/,
    );
  });

  test("carries its document, which reads back and fits its schema", async () => {
    const back = readEmbeddedAlgorithms(await algorithmPageOf(name));
    expect(back).toEqual(JSON.parse(JSON.stringify(algorithms())));
    expect(v.is(AlgorithmsSchema, back)).toBe(true);
  });

  test("every drawing says in words what it shows", async () => {
    const html = visible(await algorithmPageOf(name));
    const drawings = html.match(/<svg [^>]*role="img"[\s\S]*?<\/svg>/g) ?? [];
    expect(drawings.length).toBeGreaterThan(3);
    for (const drawing of drawings) expect(drawing).toMatch(/<title>[^<]{3,}<\/title>/);
    const wide = drawings.filter((drawing) => /fig-wide|fig-chart/.test(drawing));
    for (const drawing of wide) expect(drawing).toMatch(/<desc>[^<]{20,}<\/desc>/);
  });
});

/** A share of 100 as the page prints it. */
const ofHundred = (share: number) =>
  formats.percent(share, formats.percentDecimals({ value: share, lower: null, upper: null }));

describe("the first page", () => {
  const leading = () => {
    const { lines, leading: named } = exampleAlgorithms().answer;
    const line = lines.find((one) => one.channel === named.channel && one.algorithm === named.algorithm);
    if (line === undefined) throw new Error("no line leads");
    return line;
  };

  test("leads with what a positive is worth, with dependence and without it, then the target", async () => {
    const text = textOf(sectionOf(await algorithmPageOf("example"), "answer") ?? "");
    const { ppv, independent, chance } = leading();
    const stated = ofHundred(ppv.value ?? 0);
    const alone = ofHundred(independent.ppv ?? 0);
    expect(stated).not.toBe(alone);
    expect(text).toMatch(
      new RegExp(
        `^[^.]*The answer Of 100 people [^.]* ${stated} truly are .*; ${alone} would be if the kits erred independently\\.`,
      ),
    );
    expect(text).toContain(
      `is reached with probability ${formats.probability(chance.ppv ?? -1)}`.replace(/\u00a0/g, " "),
    );
  });

  test("prints net accuracy, PPV and probability of every algorithm in every channel", async () => {
    const html = sectionOf(await algorithmPageOf("example"), "answer") ?? "";
    const { lines } = exampleAlgorithms().answer;
    const rows = html.match(/<tr class="measured[\s\S]*?<\/tr>/g) ?? [];
    expect(rows).toHaveLength(lines.length);
    lines.forEach(({ sensitivity, specificity, chance }, at) => {
      const text = textOf(rows[at] ?? "");
      expect(text).toContain(ofHundred(sensitivity.value ?? 0));
      expect(text).toContain(ofHundred(specificity.value ?? 0));
      expect(text).toContain(formats.probability(chance.ppv ?? -1).replace(/\u00a0/g, " "));
    });
  });

  test("gives false positives, missed and undecided per 100,000, and what a client costs", async () => {
    const text = textOf(sectionOf(await algorithmPageOf("example"), "people") ?? "");
    for (const { per100000, cost } of exampleAlgorithms().answer.lines) {
      expect(text).toContain(formats.expectedFew(per100000.falsePositives));
      expect(text).toContain(formats.expectedFew(per100000.missed));
      expect(text).toContain(formats.expectedFew(per100000.inconclusive + per100000.lost));
      expect(text).toContain(formats.ratio(cost.perClient.value ?? -1));
    }
  });

  test("says what to mind: dependence, repeats, prevalence, lost people, the national strategy", async () => {
    const text = textOf(sectionOf(await algorithmPageOf("example"), "care") ?? "");
    for (const label of ["dependence", "repeat", "prevalence", "returns", "waste", "national"] as const) {
      expect(text).toContain(en.algorithm.care[label].label);
    }
  });

  test("warns where the file assumes independence, in headline and box", async () => {
    const html = await algorithmPageOf("independent");
    expect(textOf(sectionOf(html, "answer") ?? "")).toContain(
      "truly are if the kits' errors are independent, as the file assumes.",
    );
    expect(textOf(sectionOf(html, "care") ?? "")).toContain("The file assumes that they do not.");
  });

  test("speaks of no dependence, target or cost where the file has none", async () => {
    const text = textOf(sectionOf(await algorithmPageOf("single"), "answer") ?? "");
    expect(text).toContain("The file states no target for it.");
    expect(text).not.toMatch(/correlation|erred independently|credits/);
    expect(sectionOf(await algorithmPageOf("single"), "search")).toBeNull();
  });
});

describe("charts", () => {
  test("have names of their own, a text alternative, and each its numbers as a table", async () => {
    const figures = await renderAlgorithmFigures(exampleAlgorithms());
    const names = figures.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.every((name) => /^[a-z0-9-]+$/.test(name))).toBe(true);
    for (const kind of ["stepwise", "sweep", "map", "tornado", "best", "frontier"]) {
      expect(names.some((name) => name.startsWith(kind))).toBe(true);
    }
    for (const { svg } of figures) expect(svg).toMatch(/<title>[^<]+<\/title><desc>[^<]{20,}<\/desc>/);
    const html = visible(await algorithmPageOf("example"));
    const shown =
      html.match(/<figure class="chart">(?:(?!<\/figure>)[\s\S])*fig-chart[\s\S]*?<\/figure>/g) ?? [];
    expect(shown).toHaveLength(figures.length);
    for (const chart of shown) expect(chart).toMatch(/<details class="aside">[\s\S]*<table>/);
  });

  test("drawn beforehand or not, the page is the same, byte for byte", async () => {
    const algorithms = exampleAlgorithms();
    const figures = await renderAlgorithmFigures(algorithms);
    expect(await renderAlgorithms(algorithms, { figures })).toBe(await algorithmPageOf("example"));
  });
});

describe("hostile text", () => {
  test("is shown as text", async () => {
    const html = await algorithmPageOf("hostile");
    expect(html.match(/<\/script>/g)).toHaveLength(1);
    expect(textOf(html)).toContain(HOSTILE.replace(/\s+/g, " ").trim().slice(0, 12));
    expect(tagsOf(html).filter((tag) => /^<(?:script|img)\b| on[a-z]+=/.test(tag))).toEqual([]);
  });

  test("a page without an algorithms document is refused in words", () => {
    expect(() => readEmbeddedAlgorithms("<html></html>")).toThrow("the algorithms document inside");
  });
});
