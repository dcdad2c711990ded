import { areasOf, type Box, type Plotted, type Size, type Verdict } from "./verdict-grid.ts";

export interface AreaLabel extends Box {
  readonly verdict: Verdict;
  /** Upright: from below to above. Outside: beside the plot, at a line's end, for want of room. */
  readonly stand: "level" | "upright" | "outside";
}

const STEP = 8;
const MOST_ROOM = 56;

/**
 * A place for one word in the areas of each verdict: where it has most room around it, clear of what is taken;
 * upright where only so there is room; right of the plot on a leader where there is none at all. `x`, `y` is the word's left top, or the leader's start.
 *
 * @param sizeOf each verdict's word, pixels
 */
export function areaLabels(
  plot: Plotted,
  sizeOf: (verdict: Verdict) => Size,
  taken: readonly Box[],
): AreaLabel[] {
  const blocked = [...taken];
  const present = [...new Set(verdictsOf(plot))];
  return present.map((verdict): AreaLabel => {
    const word = sizeOf(verdict);
    const turned = { width: word.height, height: word.width };
    for (const [stand, size] of [["level", word] as const, ["upright", turned] as const]) {
      const found = roomFor(plot, verdict, size, blocked);
      if (found === null) continue;
      blocked.push(found);
      return { ...found, verdict, stand };
    }
    return { ...anchorOf(plot, verdict), verdict, stand: "outside" };
  });
}

function* verdictsOf(plot: Plotted): Generator<Verdict> {
  for (let row = 0; row + 1 < plot.rows.length; row += 1) {
    for (let column = 0; column + 1 < plot.columns.length; column += 1) yield plot.verdict(column, row);
  }
}

function roomFor(plot: Plotted, verdict: Verdict, word: Size, taken: readonly Box[]): Box | null {
  const middle = middleOf(plot, verdict);
  const distance = ({ x, x2, y, y2 }: Box) => Math.hypot((x + x2) / 2 - middle.x, (y + y2) / 2 - middle.y);
  const free = lattice(plot, word).filter((box) => !taken.some((other) => overlap(box, other)));
  for (let room = MOST_ROOM; room >= 3; room -= STEP) {
    const found = free.filter((box) => holds(plot, verdict, grown(box, room)));
    const [nearest] = found.toSorted((one, other) => distance(one) - distance(other));
    if (nearest !== undefined) return nearest;
  }
  return null;
}

/** Every place of the plot that a word could have. */
function lattice(plot: Plotted, word: Size): Box[] {
  const boxes: Box[] = [];
  for (let y = 2; y + word.height <= plot.height; y += STEP) {
    for (let x = 2; x + word.width <= plot.width; x += STEP) {
      boxes.push({ x, y, x2: x + word.width, y2: y + word.height });
    }
  }
  return boxes;
}

/** The middle of a verdict's areas. */
function middleOf(plot: Plotted, verdict: Verdict): { x: number; y: number } {
  const sum = { x: 0, y: 0, size: 0 };
  for (const { x, x2, y, y2 } of areasOf(plot, verdict)) {
    const size = (x2 - x) * (y2 - y);
    sum.x += ((x + x2) / 2) * size;
    sum.y += ((y + y2) / 2) * size;
    sum.size += size;
  }
  return { x: sum.x / (sum.size || 1), y: sum.y / (sum.size || 1) };
}

const grown = ({ x, y, x2, y2 }: Box, room: number): Box => ({
  x: x - room,
  y: y - room / 2,
  x2: x2 + room,
  y2: y2 + room / 2,
});

const overlap = (one: Box, other: Box) =>
  one.x < other.x2 && other.x < one.x2 && one.y < other.y2 && other.y < one.y2;

/** Whether all of a box lies on the plot, in areas of one verdict. */
function holds(plot: Plotted, verdict: Verdict, { x, y, x2, y2 }: Box): boolean {
  if (x < 0 || y < 0 || x2 > plot.width || y2 > plot.height) return false;
  for (let down = y; down <= y2; down += STEP / 2) {
    for (let across = x; across <= x2; across += STEP / 2) {
      if (plot.at(across, down) !== verdict) return false;
    }
  }
  return true;
}

/** The middle of the area of a verdict that reaches furthest right, and the plot's edge at its height. */
function anchorOf(plot: Plotted, verdict: Verdict): Box {
  const [area] = areasOf(plot, verdict).toSorted((one, other) => other.x2 - one.x2);
  if (area === undefined) return { x: plot.width, y: 0, x2: plot.width, y2: 0 };
  const y = (area.y + area.y2) / 2;
  return { x: (area.x + area.x2) / 2, y, x2: plot.width, y2: y };
}
