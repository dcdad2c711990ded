import type { Answer } from "../evaluation/document.ts";

export type Verdict = Answer["verdict"];

/** Verdicts over two axes: one value for each pair, the rows (y) slowest. */
export interface VerdictGrid {
  /** Ascending; columns. */
  readonly across: readonly number[];
  /** Ascending; rows. */
  readonly up: readonly number[];
  readonly verdicts: readonly Verdict[];
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A rectangle, or a line from corner to corner, in pixels from the plot's top left. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly x2: number;
  readonly y2: number;
}

/** The grid as cells on a plot: each value reaches half way to its neighbours, the outer ones to the edge. */
export interface Plotted extends Size {
  readonly columns: readonly number[];
  readonly rows: readonly number[];
  verdict(column: number, row: number): Verdict;
  /** The verdict at a pixel. */
  at(x: number, y: number): Verdict;
}

export function plotted(grid: VerdictGrid, { width, height }: Size): Plotted {
  const columns = edges(grid.across, width);
  const rows = edges(grid.up, height).map((edge) => height - edge);
  const verdict = (column: number, row: number) =>
    grid.verdicts[row * grid.across.length + column] ?? "not_estimable";
  return {
    width,
    height,
    columns,
    rows,
    verdict,
    at(x, y) {
      return verdict(
        firstWhere(columns.length - 1, (place) => x <= (columns[place + 1] ?? width)),
        firstWhere(rows.length - 1, (place) => y >= (rows[place + 1] ?? 0)),
      );
    },
  };
}

/** The first place of so many from which on something holds; the last where it holds nowhere. */
function firstWhere(number: number, holds: (place: number) => boolean): number {
  let [low, high] = [0, number - 1];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Pixels of the cells' edges, one more than there are values. */
function edges(values: readonly number[], length: number): number[] {
  const first = values[0] ?? 0;
  const last = values.at(-1) ?? 1;
  const pixel = (value: number) => (last > first ? ((value - first) / (last - first)) * length : 0);
  const between = values.slice(1).map((value, place) => (pixel(value) + pixel(values[place] ?? value)) / 2);
  return [0, ...between, length];
}

/** The areas of one verdict as few rectangles: runs of a row, joined with equal runs of the row above. */
export function areasOf(plot: Plotted, of: Verdict): Box[] {
  const areas: Box[] = [];
  let open = new Map<string, Box>();
  for (let row = 0; row + 1 < plot.rows.length; row += 1) {
    const next = new Map<string, Box>();
    for (const [x, x2] of runsOf(plot, row, of)) {
      const key = `${x} ${x2}`;
      const below = open.get(key);
      next.set(key, { x, x2, y: plot.rows[row + 1] ?? 0, y2: below?.y2 ?? plot.rows[row] ?? 0 });
      open.delete(key);
    }
    areas.push(...open.values());
    open = next;
  }
  return [...areas, ...open.values()];
}

function runsOf(plot: Plotted, row: number, of: Verdict): [number, number][] {
  const runs: [number, number][] = [];
  for (let column = 0; column + 1 < plot.columns.length; column += 1) {
    if (plot.verdict(column, row) !== of) continue;
    const [left = 0, right = 0] = [plot.columns[column], plot.columns[column + 1]];
    const last = runs.at(-1);
    if (last !== undefined && last[1] === left) last[1] = right;
    else runs.push([left, right]);
  }
  return runs;
}

/** The lines between areas of different verdicts. */
export function bordersOf(plot: Plotted): Box[] {
  const borders: Box[] = [];
  const { columns, rows } = plot;
  for (let row = 0; row + 1 < rows.length; row += 1) {
    for (let column = 0; column + 1 < columns.length; column += 1) {
      const here = plot.verdict(column, row);
      const [x = 0, x2 = 0, y2 = 0, y = 0] = [columns[column], columns[column + 1], rows[row], rows[row + 1]];
      if (column + 2 < columns.length && plot.verdict(column + 1, row) !== here) {
        borders.push({ x: x2, x2, y, y2 });
      }
      if (row + 2 < rows.length && plot.verdict(column, row + 1) !== here) borders.push({ x, x2, y, y2: y });
    }
  }
  return joined(borders);
}

/** Pieces of one straight line that touch, as one. */
function joined(pieces: readonly Box[]): Box[] {
  const upright = pieces.filter(({ x, x2 }) => x === x2);
  const level = pieces.filter(({ x, x2 }) => x !== x2);
  const lines: Box[] = [];
  for (const piece of upright.toSorted((one, other) => one.x - other.x || one.y - other.y)) {
    const last = lines.at(-1);
    if (last !== undefined && last.x === piece.x && last.x2 === piece.x && last.y2 === piece.y) {
      lines[lines.length - 1] = { ...last, y2: piece.y2 };
    } else lines.push(piece);
  }
  const flat: Box[] = [];
  for (const piece of level.toSorted((one, other) => one.y - other.y || one.x - other.x)) {
    const last = flat.at(-1);
    if (last !== undefined && last.y === piece.y && last.x2 === piece.x) {
      flat[flat.length - 1] = { ...last, x2: piece.x2 };
    } else flat.push(piece);
  }
  return [...lines, ...flat];
}

const FINE = 2;

/** Slanted lines through the areas of one verdict, cut where the areas end. */
export function hatchOf(plot: Plotted, of: Verdict, apart: number): Box[] {
  const lines: Box[] = [];
  for (let start = apart / 2; start < plot.width + plot.height; start += apart) {
    lines.push(...inside(plot, of, (step) => ({ x: start - step, y: step }), plot.height));
  }
  return lines;
}

/** Level lines through the areas of one verdict, to be drawn as rows of dots. */
export function dottedOf(plot: Plotted, of: Verdict, apart: number): Box[] {
  const lines: Box[] = [];
  for (let y = apart / 2; y < plot.height; y += apart) {
    lines.push(...inside(plot, of, (step) => ({ x: step, y }), plot.width));
  }
  return lines;
}

function inside(
  plot: Plotted,
  of: Verdict,
  along: (step: number) => { readonly x: number; readonly y: number },
  length: number,
): Box[] {
  const lines: Box[] = [];
  let from: { x: number; y: number } | null = null;
  let last = along(0);
  for (let step = 0; step <= length; step += FINE) {
    const place = along(step);
    const within = place.x >= 0 && place.x <= plot.width && plot.at(place.x, place.y) === of;
    if (within && from === null) from = place;
    if (!within && from !== null) {
      lines.push({ ...from, x2: last.x, y2: last.y });
      from = null;
    }
    last = place;
  }
  if (from !== null) lines.push({ ...from, x2: last.x, y2: last.y });
  return lines.filter(({ x, x2, y, y2 }) => Math.abs(x2 - x) + Math.abs(y2 - y) > 2 * FINE);
}
