import * as v from "valibot";
import { describe, expect, test } from "vitest";
import { PlanningSchema } from "../../src/evaluation/plan/document.ts";
import { planContentsOf } from "../../src/report/plan/contents.ts";
import { readEmbeddedPlanning, renderPlan, renderPlanFigures } from "../../src/report/plan/render-plan.tsx";
import { en } from "../../src/report/words/en.ts";
import { headingLevels, sectionOf, tagsOf, textOf, visible } from "./html.ts";
import { examplePlanning, PLANS, planPageOf } from "./plan-sample.ts";
import { HOSTILE } from "./sample-evaluation.ts";

describe.each(Object.keys(PLANS))("the page of a plan, %s", (name) => {
  const planning = () => (PLANS[name] ?? examplePlanning)();

  test("has one h1, and no heading skips a level", async () => {
    const levels = headingLevels(await planPageOf(name));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    for (const [place, level] of levels.entries()) {
      expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1);
    }
  });

  test("has every section that its plan fills, in order, and no other", async () => {
    const html = await planPageOf(name);
    const shown = [...html.matchAll(/<section id="([a-z]+)" class="evidence"/g)].map((found) => found[1]);
    expect(shown).toEqual(planContentsOf(planning(), en).map(({ id }) => id));
  });

  test("every inner link leads somewhere, and every id is there once", async () => {
    const html = visible(await planPageOf(name));
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const targets = [...html.matchAll(/href="#([^"]*)"/g)].map((found) => found[1]);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
  });

  test("no two tables bear the same caption", async () => {
    const html = visible(await planPageOf(name));
    const captions = [...html.matchAll(/<caption[^>]*>([^<]*)</g)].map((found) => found[1]);
    expect(captions.length).toBeGreaterThan(2);
    expect(captions.filter((caption, at) => captions.indexOf(caption) !== at)).toEqual([]);
  });

  test("asks for nothing from outside and runs nothing", async () => {
    const html = await planPageOf(name);
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
    expect(textOf(await planPageOf(name))).not.toMatch(
      /\bNaN\b|Infinity|undefined|\[object|-0\.0\b|\bnull\b/,
    );
  });

  test("carries its planning document, which reads back and fits its schema", async () => {
    const back = readEmbeddedPlanning(await planPageOf(name));
    expect(back).toEqual(JSON.parse(JSON.stringify(planning())));
    expect(v.is(PlanningSchema, back)).toBe(true);
  });
});

describe("the first page", () => {
  test("says how many to enrol, before anything else, and what decides it", async () => {
    const { answer } = examplePlanning();
    const text = textOf(sectionOf(await planPageOf("example"), "answer") ?? "");
    const enrol = answer.enrol?.toLocaleString("en");
    const needed = answer.byAnalyte[0]?.positives.needed?.toLocaleString("en");
    expect(text).toMatch(new RegExp(`^[^.]*The answer Enrol ${enrol} people\\.`));
    expect(text).toContain(`the ${needed} HBsAg-positive people needed to show HBsAg sensitivity`);
  });

  test("prints of each criterion what it needs, what may fail and its power", async () => {
    const planning = examplePlanning();
    const text = textOf(sectionOf(await planPageOf("example"), "answer") ?? "");
    for (const { needed, size } of planning.criteria) {
      const { total, allowed } = size.values.stays;
      expect(text).toContain(`${needed?.toLocaleString("en")} `);
      expect(text).toContain(`${allowed} of ${total}`);
    }
  });

  test("gives for each analyte the number at each assurance, and the naive one with its chance", async () => {
    const text = textOf(sectionOf(await planPageOf("example"), "people") ?? "");
    for (const { enrolment } of examplePlanning().enrolment) {
      expect(text).toContain(enrolment?.values.naive.total?.toLocaleString("en") ?? "missing");
      for (const { total } of enrolment?.values.targets ?? []) {
        expect(text).toContain(total?.toLocaleString("en") ?? "missing");
      }
    }
    expect(text).toMatch(/51 %|50 %/);
  });

  test("says of a criterion that can't be planned why, and what to change", async () => {
    const text = textOf(sectionOf(await planPageOf("impossible"), "answer") ?? "");
    expect(text).toContain("As it stands this plan can't show HBsAg sensitivity ≥ 95 %");
    expect(text).toMatch(/no number of people can show it/);
    expect(text).toContain("all three primary criteria that can be planned are met");
  });

  test("says so where nothing can be planned", async () => {
    const text = textOf(sectionOf(await planPageOf("hopeless"), "answer") ?? "");
    expect(text).toContain("No number of people to enrol can be given.");
  });
});

describe("charts", () => {
  test("have names of their own, a text alternative, and their numbers as a table or named beside", async () => {
    const figures = await renderPlanFigures(examplePlanning());
    const names = figures.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    expect(names.every((name) => /^[a-z0-9-]+$/.test(name))).toBe(true);
    for (const { svg } of figures) expect(svg).toMatch(/<title>[^<]+<\/title><desc>[^<]{20,}<\/desc>/);
    const html = await planPageOf("example");
    expect(html.match(/<figure class="chart">/g)).toHaveLength(figures.length);
  });

  test("drawn beforehand or not, the page is the same, byte for byte", async () => {
    const planning = examplePlanning();
    const figures = await renderPlanFigures(planning);
    expect(await renderPlan(planning, { figures })).toBe(await planPageOf("example"));
  });
});

describe("hostile text", () => {
  test("is shown as text", async () => {
    const html = await planPageOf("hostile");
    expect(html.match(/<\/script>/g)).toHaveLength(1);
    expect(textOf(html)).toContain(HOSTILE.replace(/\s+/g, " ").trim().slice(0, 12));
    expect(tagsOf(html).filter((tag) => /^<(?:script|img)\b| on[a-z]+=/.test(tag))).toEqual([]);
  });

  test("a page without a planning document is refused in words", () => {
    expect(() => readEmbeddedPlanning("<html></html>")).toThrow("the planning document inside");
  });
});
