import type { Evaluation } from "../../src/evaluation/document.ts";
import { renderReport } from "../../src/report/render-report.tsx";

/** Helpers to look at a report as text. The report is our own output: well formed, double quotes. */
const cache = new Map<string, Promise<string>>();

/** The report of an evaluation; drawn once for each name. */
export function reportOf(name: string, evaluation: () => Evaluation): Promise<string> {
  const known = cache.get(name) ?? renderReport(evaluation());
  cache.set(name, known);
  return known;
}

/** The page without the embedded evaluation and without styles: what a reader meets. */
export function visible(html: string): string {
  return html
    .replace(/<script type="application\/json"[\s\S]*?<\/script>/g, "")
    .replace(/<style[\s\S]*?<\/style>/g, "");
}

/** One tag; an attribute's value may hold a `>`. */
const TAG = /<\/?[a-zA-Z!](?:[^">]|"[^"]*")*>/g;

/** All tags of the visible page, the values of their attributes taken out. */
export function tagsOf(html: string): string[] {
  return [...visible(html).matchAll(TAG)].map(([tag]) => tag.replace(/"[^"]*"/g, '""'));
}

/** Text alone, entities undone, white space as single spaces (no-break ones too). */
export function textOf(html: string): string {
  return visible(html)
    .replace(TAG, " ")
    .replaceAll("&lt;", "<")
    .replaceAll("&gt;", ">")
    .replaceAll("&quot;", '"')
    .replaceAll("&amp;", "&")
    .replace(/[\s\u00a0\u202f]+/g, " ");
}

/** One section of the page, by id. */
export function sectionOf(html: string, id: string): string | null {
  const start = html.indexOf(`<section id="${id}"`);
  if (start < 0) return null;
  let depth = 0;
  for (const tag of html.slice(start).matchAll(/<(\/?)section\b/g)) {
    depth += tag[1] === "" ? 1 : -1;
    if (depth === 0) return html.slice(start, start + tag.index);
  }
  return html.slice(start);
}

/** Levels of the headings in their order. */
export function headingLevels(html: string): number[] {
  return [...visible(html).matchAll(/<h([1-6])\b/g)].map((heading) => Number(heading[1]));
}
