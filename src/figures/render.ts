import type { Spec } from "vega";
import type { Specification } from "./specification.ts";

declare module "vega" {
  /** Exported by the package, absent from its types. */
  export const textMetrics: { canvas(use: boolean): void };
}

interface Renderer {
  compile(specification: Specification): Spec;
  draw(spec: Spec): Promise<string>;
}

let renderer: Promise<Renderer> | undefined;

/** Vega and Vega-Lite, loaded when the first figure needs them. */
async function load(): Promise<Renderer> {
  const [vega, vegaLite, { expressionInterpreter }] = await Promise.all([
    import("vega"),
    import("vega-lite"),
    import("vega-interpreter"),
  ]);
  // Text is estimated, never measured: the same bytes with and without a canvas.
  vega.textMetrics.canvas(false);
  const logger = vega.logger(vega.Error);
  return {
    compile: (specification) => vegaLite.compile(specification, { logger }).spec,
    async draw(spec) {
      // Expressions are walked, never compiled: a page whose policy forbids that draws the same bytes.
      const flow = vega.parse(spec, undefined, { ast: true });
      const view = new vega.View(flow, { renderer: "none", logger, expr: expressionInterpreter });
      const svg = await view.toSVG();
      view.finalize();
      return svg;
    },
  };
}

/**
 * Draws a specification as one SVG element, without a page. The same specification gives the same
 * bytes. Name, title and description of the specification become ids, accessible name and text
 * alternative. Nothing is fetched: specifications hold their data.
 */
export async function renderSpecification(specification: Specification): Promise<string> {
  renderer ??= load();
  const { compile, draw } = await renderer;
  return finish(await draw(compile(specification)), specification);
}

function finish(svg: string, specification: Specification): string {
  const { width, height } = sizeOf(svg);
  const renamed = namesInOrder(specification.name ?? "figure");
  const body = svg
    .replace(/^[\s\S]*?<svg[^>]*>/, "")
    .replace(
      /(id="|url\(#)((?:clip|gradient|p_)\w*)/g,
      (_, before: string, id: string) => before + renamed(id),
    )
    .replace(/<[^>]*>/g, tidied)
    .replace(
      /<path class="(?:background|foreground)"[^>]*><\/path>|<path class="(?:back|fore)ground"[^>]*\/>/g,
      "",
    );
  const title = textOf(specification.usermeta, "title");
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" class="fig fig-chart" role="img" aria-label="${escaped(title)}"`,
    ` width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(title)}</title><desc>${escaped(String(specification.description ?? ""))}</desc>`,
    body,
  ].join("");
}

/** New ids in the order in which the old ones appear: Vega counts on from figure to figure. */
function namesInOrder(name: string): (id: string) => string {
  const known = new Map<string, string>();
  return (id) => {
    const found = known.get(id) ?? `${name}-${known.size + 1}`;
    known.set(id, found);
    return found;
  };
}

/** One tag without roles (the whole is one image) and with coordinates to a thousandth of a pixel. */
function tidied(tag: string): string {
  return tag
    .replace(/ (?:role|aria-[a-z]+|pointer-events|stroke-miterlimit)="[^"]*"/g, "")
    .replace(/ (?:stroke-|fill-)?opacity="1"/g, "")
    .replace(/-?\d+\.\d{4,}(?:e-?\d+)?/g, (number) => String(Math.round(Number(number) * 1000) / 1000 + 0));
}

function sizeOf(svg: string): { width: string; height: string } {
  const found = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  return { width: found?.[1] ?? "0", height: found?.[2] ?? "0" };
}

function textOf(meta: unknown, field: string): string {
  const value =
    meta !== null && typeof meta === "object" ? (meta as Record<string, unknown>)[field] : undefined;
  return typeof value === "string" ? value : "";
}

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
