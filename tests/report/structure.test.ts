import { describe, expect, test } from "vitest";
import { contentsOf } from "../../src/report/contents.ts";
import { en } from "../../src/report/words/en.ts";
import { headingLevels, reportOf, sectionOf, tagsOf, textOf, visible } from "./html.ts";
import {
  comparatorEvaluation,
  countsEvaluation,
  emptyEvaluation,
  evaluationWithoutCriteria,
  hostileEvaluation,
  sampleEvaluation,
  singleAnalyteEvaluation,
  twoKitsEvaluation,
} from "./sample-evaluation.ts";

const VARIANTS = {
  sample: () => sampleEvaluation(),
  comparator: () => comparatorEvaluation(["hbsag", "hcv"]),
  mixed: () => comparatorEvaluation(["hcv"]),
  nocriteria: evaluationWithoutCriteria,
  single: singleAnalyteEvaluation,
  twokits: twoKitsEvaluation,
  counts: countsEvaluation,
  empty: emptyEvaluation,
  hostile: hostileEvaluation,
};

describe.each(Object.entries(VARIANTS))("the report, %s", (name, evaluation) => {
  test("has one h1, and no heading skips a level", async () => {
    const levels = headingLevels(await reportOf(name, evaluation));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    expect(levels[0]).toBe(1);
    for (const [place, level] of levels.entries()) {
      expect(level - (levels[place - 1] ?? 0)).toBeLessThanOrEqual(1);
    }
  });

  test("has every section that its evaluation fills, in order, and no other", async () => {
    const html = await reportOf(name, evaluation);
    const shown = [...html.matchAll(/<section id="([a-z]+)" class="evidence"/g)].map((found) => found[1]);
    expect(shown).toEqual(contentsOf(evaluation(), en).map(({ id }) => id));
  });

  test("every inner link leads somewhere, and every id is there once", async () => {
    const html = visible(await reportOf(name, evaluation));
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map((found) => found[1]);
    expect(new Set(ids).size).toBe(ids.length);
    const targets = [...html.matchAll(/href="#([^"]*)"/g)].map((found) => found[1]);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
  });

  test("asks for nothing from outside", async () => {
    const html = await reportOf(name, evaluation);
    expect(html).toContain("content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:;");
    const links = [
      ...visible(html).matchAll(/ (?:src|href|action|poster|data|srcset|xlink:href)="([^"]*)"/g),
    ];
    const targets = links.map((link) => link[1] ?? "");
    expect(targets.length).toBeGreaterThan(10);
    expect(targets.filter((target) => !/^(?:#|data:application\/json)/.test(target))).toEqual([]);
    const sheet = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? "";
    expect(/@import|url\(/.test(sheet)).toBe(false);
    const forbidden = /^<(?:iframe|object|embed|link|img|form|base|script)\b/;
    expect(tagsOf(html).filter((tag) => forbidden.test(tag))).toEqual([]);
  });

  test("no number is missing its words", async () => {
    expect(textOf(await reportOf(name, evaluation))).not.toMatch(
      /\bNaN\b|Infinity|undefined|\[object|-0\.0\b/,
    );
  });
});

describe("the flow of people", () => {
  test("adds up in the words of its own table", async () => {
    const text = textOf(sectionOf(await reportOf("sample", VARIANTS.sample), "flow") ?? "");
    for (const flow of sampleEvaluation().flows) {
      const before = flow.before.reduce((total, { people }) => total + people, 0);
      const aside = flow.setAside.reduce((total, { people }) => total + people, 0);
      expect(flow.enrolled).toBe(before + flow.eligible);
      expect(flow.eligible).toBe(flow.analysed + aside);
      const row = (step: string, people: number) => `${step} ${people.toLocaleString("en")}`;
      expect(text).toContain(row("Enrolled", flow.enrolled));
      expect(text).toContain(row("Eligible", flow.eligible));
      expect(text).toContain(row("In the table", flow.analysed));
      for (const { people } of flow.setAside) expect(text).toContain(people.toLocaleString("en"));
    }
  });
});

describe("the first page", () => {
  test("says in one sentence how many criteria are met and names the others", async () => {
    const text = textOf(sectionOf(await reportOf("sample", VARIANTS.sample), "answer") ?? "");
    expect(text).toContain("Three of the four primary criteria are met ; HBsAg sensitivity is undecided .");
    expect(text).toContain("Anti-HCV sensitivity on fingerstick blood is not met .");
  });

  test("prints counts, percentage, interval, criterion, verdict and probability of each", async () => {
    const text = textOf(sectionOf(await reportOf("sample", VARIANTS.sample), "answer") ?? "");
    // Clopper–Pearson limits of 111 of 113 and 128 of 139 by R 4.2 binom.test: 0.9375-0.9978, 0.8628-0.9598
    expect(text).toMatch(/111 \/ 113 98\.2 93\.8 – 99\.8 ≥ 95 .*undecided 0\.96/);
    expect(text).toMatch(/128 \/ 139 92\.1 86\.3 – 96\.0 ≥ 98 .*not met secondary < 0\.01/);
  });

  test("says what would settle an undecided one, and which treatment would flip a verdict", async () => {
    const text = textOf(sectionOf(await reportOf("sample", VARIANTS.sample), "answer") ?? "");
    expect(text).toMatch(
      /the study is too small to say\. About \d+ more would settle it if the estimate held; with what is known so far the chance that they do is 71 %\./,
    );
    expect(text).toContain("Undecided if invalid results are counted as failures or as non-reactive.");
  });

  test("gives estimates and no verdict where the study has no criteria", async () => {
    const text = textOf(sectionOf(await reportOf("nocriteria", VARIANTS.nocriteria), "answer") ?? "");
    expect(text).toContain("states no criterion");
    expect(text).toContain("111 / 113");
    expect(text).not.toMatch(/\b(?:un)?met\b|undecided/);
  });

  test("an empty study says that nothing can be estimated, and why", async () => {
    const text = textOf(sectionOf(await reportOf("empty", VARIANTS.empty), "answer") ?? "");
    expect(text).toContain("not estimable");
    expect(text).toContain("Nobody was counted");
  });
});

describe("the checklist", () => {
  test("has all items of STARD 2015: 30, three of them in two or more parts", () => {
    // Bossuyt 2015: 30 items; 10, 12, 13, 21 have parts a and b
    const items = Object.keys(en.checklist.items);
    expect(items).toHaveLength(34);
    expect(new Set(items.map((item) => Number.parseInt(item, 10))).size).toBe(30);
  });
});
