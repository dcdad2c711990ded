import { textWidth } from "./measure-text.ts";
import { LABEL_SIZE } from "./theme.ts";

/** A scale of readings or concentrations: by differences, or by ratios. */
export interface ReadingScale {
  readonly kind: "linear" | "log10";
  readonly from: number;
  readonly to: number;
}

/**
 * Ends just beyond the values; on a ratio scale values of 0 and below are passed over.
 *
 * @param beyond room at either end, a share of the length
 */
export function readingScale(
  values: readonly number[],
  kind: ReadingScale["kind"],
  beyond = 0.03,
): ReadingScale {
  const known = values.filter((value) => Number.isFinite(value) && (kind === "linear" || value > 0));
  if (known.length === 0) return { kind, from: kind === "linear" ? 0 : 1, to: 10 };
  const [least, most] = [Math.min(...known), Math.max(...known)];
  if (kind === "log10") {
    const room = Math.max(0.03, Math.log10(most / least) * beyond);
    return { kind, from: least / Math.pow(10, room), to: most * Math.pow(10, room) };
  }
  const room = (most - least) * beyond || 1;
  return { kind, from: least >= 0 ? Math.max(0, least - room) : least - room, to: most + room };
}

/** How far along the scale a reading lies, 0 to 1; readings outside it at its ends. */
export function placeOn({ kind, from, to }: ReadingScale, reading: number): number {
  const place =
    kind === "log10"
      ? Math.log(Math.max(reading, from) / from) / Math.log(to / from)
      : (reading - from) / (to - from);
  return Math.min(1, Math.max(0, place));
}

/** Channel of a field that holds readings. `length`: of the axis, pixels; ticks stay apart on it. */
export function readingChannel(field: string, scale: ReadingScale, length: number, title: string | null) {
  return {
    field,
    type: "quantitative" as const,
    scale: {
      type: scale.kind === "log10" ? ("log" as const) : ("linear" as const),
      domain: [scale.from, scale.to],
      nice: false,
      zero: false,
    },
    axis: {
      values: readingTicks(scale, length),
      labelExpr: "format(datum.value, ',.6~r')",
      title,
      titleAnchor: "start" as const,
      titlePadding: 10,
      tickRound: false,
    },
  };
}

/** Round readings inside the scale, as many as there is room for. */
export function readingTicks(scale: ReadingScale, length: number): number[] {
  const candidates = scale.kind === "log10" ? ratioTicks(scale) : evenTicks(scale);
  for (const ticks of candidates) {
    const fits = ticks.every((tick, at) => {
      const next = ticks[at + 1];
      if (next === undefined) return true;
      const apart = (placeOn(scale, next) - placeOn(scale, tick)) * length;
      return (
        apart >= (textWidth(tickText(tick), LABEL_SIZE) + textWidth(tickText(next), LABEL_SIZE)) / 2 + 10
      );
    });
    if (fits && ticks.length >= 2) return ticks;
  }
  return [];
}

const tickText = (tick: number) => String(Number(tick.toPrecision(6))).replace(/\B(?=(\d{3})+$)/g, ",");

/** 1, 2, 5 of each power of ten; then powers alone; then every second power, and so on. */
function ratioTicks({ from, to }: ReadingScale): number[][] {
  const [first, last] = [Math.floor(Math.log10(from)), Math.ceil(Math.log10(to))];
  const of = (factors: readonly number[], step: number) => {
    const ticks: number[] = [];
    for (let power = Math.ceil(first / step) * step; power <= last; power += step) {
      ticks.push(...factors.map((factor) => Number((factor * Math.pow(10, power)).toPrecision(6))));
    }
    return ticks.filter((tick) => tick >= from && tick <= to);
  };
  return [of([1, 2, 5], 1), of([1, 3], 1), of([1], 1), of([1], 2), of([1], 3), of([1], 5), of([1], 10)];
}

function evenTicks({ from, to }: ReadingScale): number[][] {
  const power = Math.pow(10, Math.floor(Math.log10(to - from)) - 1);
  return [1, 2, 5, 10, 20, 50].map((factor) => {
    const step = factor * power;
    const ticks: number[] = [];
    for (let tick = Math.ceil(from / step - 1e-9) * step; tick <= to + step * 1e-9; tick += step) {
      ticks.push(Number(tick.toPrecision(10)));
    }
    return ticks.length > 9 ? [] : ticks;
  });
}

/** A concentration in words: three significant digits, zeros at the end kept; whole from 100 on. */
export function concentrationText(value: number): string {
  if (value >= 100) return readingText(value);
  return value.toFixed(Math.max(0, 2 - Math.floor(Math.log10(value))));
}

/** A reading in words: three significant digits where it has more. */
export function readingText(value: number): string {
  const short = Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3));
  return String(short)
    .replace("-", "\u2212")
    .replace(/\B(?=(\d{3})+$)/g, ",");
}
