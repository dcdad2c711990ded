/**
 * Heights for labels that stand beside the ends of lines: as near to their own height as can be, in the same
 * order, no two nearer than `room`, none outside `from` to `to` (unless there are too many for that).
 *
 * @param heights where each label would stand, pixels
 * @returns one height per label, same order
 */
export function spreadLabels(heights: readonly number[], room: number, from: number, to: number): number[] {
  const order = heights.map((_, at) => at).sort((one, other) => at(heights, one) - at(heights, other));
  const blocks: { members: number[]; top: number }[] = [];
  for (const index of order) {
    blocks.push({ members: [index], top: at(heights, index) });
    while (blocks.length > 1 && overlap(blocks, room)) {
      const last = blocks.pop();
      const before = blocks.pop();
      if (last === undefined || before === undefined) break;
      const members = [...before.members, ...last.members];
      const ideal = members.reduce((sum, one, place) => sum + at(heights, one) - place * room, 0);
      blocks.push({ members, top: ideal / members.length });
    }
  }
  const spread = new Array<number>(heights.length).fill(0);
  let floor = from;
  for (const { members, top } of blocks) {
    let height = Math.max(floor, top);
    for (const index of members) {
      spread[index] = height;
      height += room;
    }
    floor = height;
  }
  let ceiling = to;
  for (const index of order.toReversed()) {
    spread[index] = Math.min(at(spread, index), ceiling);
    ceiling = at(spread, index) - room;
  }
  return spread;
}

function at(values: readonly number[], index: number): number {
  return values[index] ?? 0;
}

function overlap(blocks: readonly { members: readonly number[]; top: number }[], room: number): boolean {
  const last = blocks.at(-1);
  const before = blocks.at(-2);
  if (last === undefined || before === undefined) return false;
  return last.top < before.top + before.members.length * room;
}
