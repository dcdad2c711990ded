import type { ReadingTime } from "../evaluation/document.ts";
import { LIGHT_INKS } from "./inks.ts";
import { statedPercent, statedRange } from "./numbers.ts";
import type { Layer } from "./specification.ts";
import type { ChartWords } from "./words.ts";

const { ink, muted, paper, deep } = LIGHT_INKS;

/** How the dot of each measure looks: sensitivity filled, specificity hollow. */
export function dotOf(filled: boolean) {
  return {
    type: "point" as const,
    shape: "circle" as const,
    filled: true,
    size: 62,
    opacity: 1,
    color: filled ? deep : paper,
    stroke: filled ? paper : ink,
    strokeWidth: filled ? 1 : 1.6,
  };
}

export interface MinuteLabels {
  readonly window: ReadingTime["window"];
  readonly agreement: boolean;
  /** End of the time axis, minutes. */
  readonly last: number;
  /** Lower end of the scale, a share. */
  readonly lowest: number;
  /** Of the plotting area, pixels. */
  readonly width: number;
}

/** Above the plot: what the dots are, each beside one of its kind; the window over its shade. */
export function minuteLabels(data: MinuteLabels, words: ChartWords): Layer[] {
  const { window, agreement, last, lowest, width } = data;
  const middle = (width * (window.from + Math.min(window.to, last))) / 2 / last;
  const axis = words.percentAxis(statedPercent(lowest));
  return [
    text(axis, -34, -34, "left", ink),
    text(words.windowOf(statedRange(window.from, window.to)), middle, -24, "center", muted),
    sign(width - 300, -34, true),
    text(words.positiveMeasure(agreement), width - 290, -30, "left", deep),
    sign(width - 140, -34, false),
    text(words.negativeMeasure(agreement), width - 130, -30, "left", ink),
  ];
}

function sign(x: number, y: number, filled: boolean): Layer {
  return {
    data: { values: [{}] },
    mark: dotOf(filled),
    encoding: { x: { value: x }, y: { value: y } },
  };
}

function text(words: string, x: number, y: number, align: "left" | "center", color: string): Layer {
  return {
    data: { values: [{ words }] },
    mark: { type: "text", align, baseline: "alphabetic", color },
    encoding: { x: { value: x }, y: { value: y }, text: { field: "words" } },
  };
}
