import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import type { Layer, Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

/** Small drawings of one size in rows and columns, each with scales of its own. */
export interface Panel {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface PanelGrid {
  readonly columns: number;
  readonly width: number;
  readonly height: number;
  /** Between neighbours: across, down. */
  readonly gaps: readonly [number, number];
}

export function panelAt(place: number, { columns, width, height, gaps }: PanelGrid): Panel {
  const left = (place % columns) * (width + gaps[0]);
  const top = Math.floor(place / columns) * (height + gaps[1]);
  return { left, top, right: left + width, bottom: top + height };
}

export function sizeOfPanels(number: number, grid: PanelGrid): { width: number; height: number } {
  const last = panelAt(Math.max(0, number - 1), grid);
  const wide = panelAt(Math.min(Math.max(1, number), grid.columns) - 1, grid);
  return { width: wide.right, height: last.bottom };
}

/** A position channel of one panel; its axis, where it has one, is given by the caller. */
export function panelX(field: string, domain: readonly [number, number], { left, right }: Panel) {
  return {
    field,
    type: "quantitative" as const,
    scale: { domain: [...domain], range: [left, right], nice: false, zero: false },
  };
}

export function panelY(field: string, domain: readonly [number, number], { top, bottom }: Panel) {
  return {
    field,
    type: "quantitative" as const,
    scale: { domain: [...domain], range: [bottom, top], nice: false, zero: false },
  };
}

/** Every layer of the figure keeps its own scales: one layer a panel. */
export function independent(specification: Specification): Specification {
  return {
    ...specification,
    resolve: { scale: { x: "independent", y: "independent" }, axis: { x: "independent", y: "independent" } },
  } as Specification;
}

/** A line under a panel, and where asked a shaded ground within it. */
export function panelFloor({ left, right, bottom }: Panel): Layer {
  return {
    data: { values: [{}] },
    mark: { type: "rule", color: LIGHT_INKS.muted, strokeWidth: 1 },
    encoding: { x: { value: left }, x2: { value: right }, y: { value: bottom } },
  };
}

/** Round values inside a domain, two to five, none so near to another that their words would touch. */
export function panelTicks(
  [from, to]: readonly [number, number],
  width: number,
  label: (tick: number) => string,
): number[] {
  const span = to - from;
  if (!(span > 0)) return [from];
  const power = 10 ** Math.floor(Math.log10(span) - 1);
  for (const step of [1, 2, 2.5, 5, 10, 20, 25, 50].map((factor) => factor * power)) {
    const ticks: number[] = [];
    for (let tick = Math.ceil(from / step - 1e-9) * step; tick <= to + step * 1e-9; tick += step) {
      ticks.push(Number(tick.toPrecision(12)));
    }
    if (ticks.length < 2 || ticks.length > 5) continue;
    const widest = Math.max(...ticks.map((tick) => textWidth(label(tick), LABEL_SIZE)));
    if ((step / span) * width >= widest + 8) return ticks;
  }
  return [Number(from.toPrecision(3)), Number(to.toPrecision(3))];
}
