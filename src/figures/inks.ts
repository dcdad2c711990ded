/**
 * The inks of the house, by what they are for. The single place for colours: figures, page and
 * print take them from here, the page as CSS variables of the same names.
 *
 * Chosen so that words reach a contrast of 4.5 : 1 on paper and on wash, areas reach 3 : 1 on
 * paper, and `deep` and `ochre` differ 3 : 1 in luminance: they stay apart on a greyscale printer
 * and for every kind of colour vision (tested).
 */
export interface Inks {
  /** Words, estimates. */
  readonly ink: string;
  /** Words of second rank, axes. */
  readonly muted: string;
  /** Thin rules and the lines of scales. */
  readonly rule: string;
  readonly paper: string;
  /** A shaded ground: a window, a note. */
  readonly wash: string;
  /** What was measured. */
  readonly deep: string;
  /** What was measured, with less weight: bands, undecided intervals. */
  readonly pale: string;
  /** What was asked (criteria, programmes), and false results, as words and lines. */
  readonly amber: string;
  /** The same as an area. */
  readonly ochre: string;
}

export const LIGHT_INKS: Inks = {
  ink: "#1c2329",
  muted: "#5b6670",
  rule: "#d9dee2",
  paper: "#ffffff",
  wash: "#f3f6f7",
  deep: "#144a60",
  pale: "#bcd5de",
  amber: "#8f5410",
  ochre: "#c2863c",
};

export const DARK_INKS: Inks = {
  ink: "#e6eaed",
  muted: "#9aa6b0",
  rule: "#3b464e",
  paper: "#14191d",
  wash: "#1d252b",
  deep: "#93cee3",
  pale: "#2f5465",
  amber: "#e0a458",
  ochre: "#8f5b1d",
};

/** The inks as CSS declarations: `--ink:#1c2329;--muted:…`. */
export function inkVariables(inks: Inks): string {
  return Object.entries(inks)
    .map(([name, value]) => `--${name}:${value};`)
    .join("");
}
