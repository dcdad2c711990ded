/** A label above a plot whose rule stands at `x`; both in pixels. */
export interface Flag {
  readonly x: number;
  readonly width: number;
}

export interface PlacedFlag {
  /** 0 is next to the plot; higher lanes are further up. */
  readonly lane: number;
  /** Left edge of the words. */
  readonly left: number;
  readonly anchor: "start" | "end";
}

const GAP = 10;
/** Between a rule and its words. */
export const FLAG_OFFSET = 4;

/**
 * Lanes for labels that hang on rules like flags: no two labels touch, and no rule runs through
 * another label where that can be had (it can whenever all labels fit on one and the same side).
 *
 * @param from left edge that labels may reach, pixels
 * @param to   right edge that labels may reach, pixels
 */
export function placeFlags(flags: readonly Flag[], from: number, to: number): PlacedFlag[] {
  const boxes = sides(flags, from, to);
  const lanes = new Array<number>(flags.length).fill(-1);
  for (let placed = 0; placed < flags.length; placed += 1) {
    const index = next(boxes, flags, lanes);
    lanes[index] = lowestLane(index, boxes, flags, lanes);
  }
  return boxes.map((box, index) => ({ lane: lanes[index] ?? 0, left: box.left, anchor: box.anchor }));
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly anchor: "start" | "end";
}

/** All to the right of their rules if they fit, else all to the left, else each where it fits. */
function sides(flags: readonly Flag[], from: number, to: number): Box[] {
  const right = flags.map((flag) => boxOf(flag, "start"));
  if (right.every((box) => box.right <= to)) return right;
  const left = flags.map((flag) => boxOf(flag, "end"));
  if (left.every((box) => box.left >= from)) return left;
  return flags.map((flag, index) => {
    const before = left[index] as Box;
    const after = right[index] as Box;
    if (after.right <= to) return after;
    if (before.left >= from) return before;
    return { left: Math.max(from, to - flag.width), right: to, anchor: "start" };
  });
}

function boxOf(flag: Flag, anchor: "start" | "end"): Box {
  return anchor === "start"
    ? { left: flag.x + FLAG_OFFSET, right: flag.x + FLAG_OFFSET + flag.width, anchor }
    : { left: flag.x - FLAG_OFFSET - flag.width, right: flag.x - FLAG_OFFSET, anchor };
}

/** The label with the fewest rules of unplaced labels under it: none, where that can be had. */
function next(boxes: readonly Box[], flags: readonly Flag[], lanes: readonly number[]): number {
  const waiting = flags.map((_, index) => index).filter((index) => lanes[index] === -1);
  const under = (index: number) =>
    waiting.filter((other) => other !== index && standsUnder(other, index)).length;
  const standsUnder = (other: number, index: number) => isUnder(flags[other] as Flag, boxes[index] as Box);
  return waiting.reduce((best, index) => (under(index) < under(best) ? index : best));
}

function isUnder(flag: Flag, box: Box): boolean {
  return flag.x > box.left - FLAG_OFFSET && flag.x < box.right + FLAG_OFFSET;
}

/** Above every label it overlaps, and above every label whose rule it would cross. */
function lowestLane(
  index: number,
  boxes: readonly Box[],
  flags: readonly Flag[],
  lanes: readonly number[],
): number {
  const box = boxes[index] as Box;
  let lane = 0;
  boxes.forEach((other, at) => {
    const placed = lanes[at] ?? -1;
    const touches = other.left < box.right + GAP && other.right > box.left - GAP;
    const under = isUnder(flags[at] as Flag, box);
    if (placed >= 0 && (touches || under)) lane = Math.max(lane, placed + 1);
  });
  return lane;
}
