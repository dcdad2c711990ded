import type { TopLevelSpec } from "vega-lite";
import { FIGURE_THEME } from "./theme.ts";

/** A Vega-Lite 6 specification: plain JSON with its data inside, fit to be restyled elsewhere. */
export type Specification = TopLevelSpec;
export type Layer = Extract<TopLevelSpec, { layer: unknown }>["layer"][number];

const SCHEMA = "https://vega.github.io/schema/vega-lite/v6.json";

/** Size of the plotting area and the room around it, in pixels. Nothing is measured from text. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
}

export interface Wording {
  /** Begins the ids inside the SVG: unique on a page, letters, digits and dashes. */
  readonly name: string;
  /** What the figure is, in a few words: its accessible name. */
  readonly title: string;
  /** What it shows, in sentences: its text alternative. */
  readonly description: string;
}

/** A layered figure of fixed size in the house's look. */
export function layered(wording: Wording, frame: Frame, layer: readonly Layer[]): Specification {
  return {
    $schema: SCHEMA,
    name: wording.name,
    description: wording.description,
    usermeta: { title: wording.title },
    autosize: { type: "none" },
    width: frame.width,
    height: frame.height,
    padding: { top: frame.top, right: frame.right, bottom: frame.bottom, left: frame.left },
    config: FIGURE_THEME,
    layer: [...layer],
  };
}
