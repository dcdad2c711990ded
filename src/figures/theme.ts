import type { Config } from "vega-lite";
import { LIGHT_INKS } from "./inks.ts";

/** The font of labels and figures; none is fetched. */
const FIGURE_FONT = "system-ui, sans-serif";
export const LABEL_SIZE = 11.5;

/** One look for all figures with two axes: horizontal grid, no frame, words in the system's sans. */
export const FIGURE_THEME: Config = {
  aria: false,
  background: "transparent",
  font: FIGURE_FONT,
  view: { stroke: null },
  axis: {
    domain: false,
    labelColor: LIGHT_INKS.muted,
    labelFontSize: LABEL_SIZE,
    labelFontWeight: "normal",
    labelPadding: 5,
    titleColor: LIGHT_INKS.ink,
    titleFontSize: LABEL_SIZE,
    titleFontWeight: "normal",
    gridColor: LIGHT_INKS.rule,
    gridWidth: 1,
    tickColor: LIGHT_INKS.muted,
    tickSize: 4,
    tickWidth: 1,
    labelOverlap: false,
  },
  axisX: { grid: false, labelFlush: false, domain: true, domainColor: LIGHT_INKS.muted, domainWidth: 1 },
  axisY: { ticks: false, labelPadding: 8 },
  text: { color: LIGHT_INKS.ink, fontSize: LABEL_SIZE },
};
