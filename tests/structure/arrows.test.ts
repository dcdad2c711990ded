import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";

/** Which rooms of src/ a room may import from. Anything else is a wrong arrow. */
const MAY_IMPORT: Record<string, readonly string[]> = {
  core: [],
  numeric: ["core"],
  methods: ["core", "numeric"],
  records: ["core"],
  demo: ["core", "numeric", "records"],
  evaluation: ["core", "numeric", "methods", "records"],
  figures: ["core", "evaluation"],
  report: ["core", "evaluation", "figures", "records"],
  cli: ["core", "methods", "records", "demo", "evaluation", "figures", "report"],
  workbench: ["core", "methods", "records", "demo", "evaluation", "figures", "report"],
};

/** Rooms that may touch files, process, clock, DOM. All others are pure. */
const EDGES = new Set(["cli", "workbench"]);

const SRC = resolve(import.meta.dirname, "../../src");
const sources = readdirSync(SRC, { recursive: true, encoding: "utf8" })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => ({ name: name.replaceAll("\\", "/"), text: readFileSync(join(SRC, name), "utf8") }));

function importsOf(text: string): string[] {
  const statements = text.matchAll(/(?:from\s+|import\s*\(\s*|import\s+)["']([^"']+)["']/g);
  return [...statements].map((statement) => statement[1] as string);
}

describe("the arrows between rooms", () => {
  it("finds the sources", () => {
    expect(sources.length).toBeGreaterThan(50);
  });

  it("every room is known", () => {
    const rooms = new Set(sources.map(({ name }) => name.split("/")[0] as string));
    expect([...rooms].filter((room) => !(room in MAY_IMPORT))).toEqual([]);
  });

  it("every import follows an arrow", () => {
    const wrong: string[] = [];
    for (const { name, text } of sources) {
      const room = name.split("/")[0] as string;
      for (const target of importsOf(text).filter((path) => path.startsWith("."))) {
        const file = relative(SRC, resolve(SRC, dirname(name), target)).replaceAll("\\", "/");
        const other = file.split("/")[0] as string;
        if (other !== room && !MAY_IMPORT[room]?.includes(other)) wrong.push(`${name} imports ${file}`);
      }
    }
    expect(wrong).toEqual([]);
  });

  it("no file needs itself in a circle (types alone may)", () => {
    const graph = new Map(
      sources.map(({ name, text }) => [
        name,
        importsOf(text.replace(/import type [^;]*;/g, ""))
          .filter((path) => path.startsWith("."))
          .map((path) => relative(SRC, resolve(SRC, dirname(name), path)).replaceAll("\\", "/")),
      ]),
    );
    const done = new Set<string>();
    const circles: string[] = [];
    const visit = (name: string, trail: readonly string[]): void => {
      if (trail.includes(name)) circles.push([...trail.slice(trail.indexOf(name)), name].join(" -> "));
      if (trail.includes(name) || done.has(name)) return;
      for (const next of graph.get(name) ?? []) visit(next, [...trail, name]);
      done.add(name);
    };
    for (const name of graph.keys()) visit(name, []);
    expect(circles).toEqual([]);
  });

  it("only the edges touch files, process, clock, page or unseeded randomness", () => {
    const touch =
      /from ["']node:|\bprocess\.|\bDate\.now\(|new Date\(\)|\bMath\.random\(|\bdocument\.(?:get|query|create)|\bwindow\.(?:loc|doc|fet)|\bfetch\(/;
    const wrong = sources
      .filter(({ name }) => !EDGES.has(name.split("/")[0] as string))
      .filter(({ text }) => touch.test(text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "")))
      .map(({ name }) => name);
    expect(wrong).toEqual([]);
  });
});
