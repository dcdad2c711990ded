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

/** The layers of the workbench, and from which of the others each may import. */
const LAYERS: Record<string, readonly string[]> = {
  words: [],
  study: [],
  work: ["study"],
  state: ["study", "work", "forms", "drafts", "methods"],
  browser: ["state", "work"],
  forms: ["words", "study"],
  drafts: ["forms", "work"],
  methods: ["forms"],
  explore: [],
  styles: ["words"],
  views: ["explore", "drafts", "methods", "study", "state", "work", "browser", "forms", "words"],
  build: ["state", "work", "styles", "views", "words"],
};
/** Types alone: the words name the steps of jobs, the store takes words and hands them on. */
const TYPES_FROM: Record<string, readonly string[]> = {
  words: ["work", "state", "study"],
  work: ["state"],
  state: ["words"],
  drafts: ["state"],
  methods: ["state"],
};

/** `workbench/state/store.ts` is of the layer `state`; `main.tsx`, which ties all together, is of none. */
function layerOf(name: string): string | null {
  const parts = name.split("/");
  return parts.length > 2 ? (parts[1] as string) : null;
}

function onlyTypes(text: string, target: string): boolean {
  const statements = [...text.matchAll(/import\s+(type\s)?[^;]*?from\s+["']([^"']+)["']/g)];
  return statements
    .filter((statement) => statement[2] === target)
    .every((statement) => statement[1] !== undefined);
}

const SRC = resolve(import.meta.dirname, "../../src");
const sources = readdirSync(SRC, { recursive: true, encoding: "utf8" })
  .filter((name) => /\.tsx?$/.test(name))
  .map((name) => ({ name: name.replaceAll("\\", "/"), text: readFileSync(join(SRC, name), "utf8") }));

/** Code without comments and the words of strings. */
function withoutText(code: string): string {
  return code.replace(/\/\*[\s\S]*?\*\/|\/\/.*$|"(?:[^"\\]|\\.)*"/gm, "");
}

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

  it("the layers of the workbench follow their arrows too", () => {
    const wrong: string[] = [];
    for (const { name, text } of sources.filter((source) => source.name.startsWith("workbench/"))) {
      const layer = layerOf(name);
      if (layer === null) continue;
      for (const target of importsOf(text).filter((path) => path.startsWith("."))) {
        const file = relative(SRC, resolve(SRC, dirname(name), target)).replaceAll("\\", "/");
        const other = layerOf(file);
        if (!file.startsWith("workbench/") || other === null || other === layer) continue;
        const typesOnly = onlyTypes(text, target);
        const may = LAYERS[layer]?.includes(other) || (typesOnly && TYPES_FROM[layer]?.includes(other));
        if (!may) wrong.push(`${name} imports ${file}`);
      }
    }
    expect(wrong).toEqual([]);
    const layers = new Set(
      sources.flatMap(({ name }) => (name.startsWith("workbench/") ? (layerOf(name) ?? []) : [])),
    );
    expect([...layers].sort()).toEqual(Object.keys(LAYERS).sort());
  });

  it("only the workbench's views, the watch over typing and browser files touch the page; nothing there can send", () => {
    const page = /(?<![\w/])(?:document|window|localStorage|navigator)\b\s*[.?[]/;
    const sends = /\b(?:fetch|XMLHttpRequest|WebSocket|EventSource|sendBeacon|importScripts)\b/;
    const runs = /\beval\(|\bnew Function\b|\.(?:inner|outer)HTML\b|\bdocument\.write\b/;
    const inWorkbench = sources
      // The files to begin a plan or algorithms with are text, held against `data/` by a test of their own.
      .filter(({ name }) => name.startsWith("workbench/") && !name.startsWith("workbench/drafts/texts/"))
      .map(({ name, text }) => ({ name, code: text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "") }));
    const mayTouch = (name: string) =>
      /^workbench\/(?:views|browser|build)\/|^workbench\/(?:main\.tsx|forms\/use-typing\.ts)$/.test(name);
    const names = (found: (code: string) => boolean) =>
      inWorkbench.filter(({ code }) => found(code)).map(({ name }) => name);
    expect(names((code) => page.test(code)).filter((name) => !mayTouch(name))).toEqual([]);
    expect(names((code) => sends.test(code) || runs.test(code))).toEqual([]);
  });

  it("the programs compute alike everywhere: our Math first, and no power by the engine's own operator", () => {
    const importing = sources.filter(({ text }) =>
      importsOf(text).some((path) => /\/same-math\.ts$/.test(path)),
    );
    expect(importing.map(({ name }) => name)).toEqual(["cli/run.ts", "workbench/main.tsx"]);
    for (const { text } of importing) expect(importsOf(text)[0]).toBe("../core/same-math.ts");
    // Whole powers of 2 are exact in every engine.
    const powers = sources.flatMap(({ name, text }) =>
      [...withoutText(text).matchAll(/(\S+) \*\*=? (\S+)/g)]
        .filter(([, base]) => !/(?:^|[^\w.])(?:2|1024)$/.test(base ?? ""))
        .map(([found]) => `${name}: ${found}`),
    );
    expect(powers).toEqual([]);
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
