/**
 * The known name nearest to a mistyped one, or `null` where none is near: at most a third of the
 * letters differ (insertions, deletions, replacements), and upper or lower case does not count.
 */
export function nearest(name: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let fewest = Math.max(1, Math.floor(Math.max(name.length, 3) / 3)) + 1;
  for (const candidate of known) {
    const steps = editSteps(name.toLowerCase(), candidate.toLowerCase());
    if (steps < fewest) {
      fewest = steps;
      best = candidate;
    }
  }
  return best;
}

/** `; did you mean "x"?`, or nothing. */
export function suggestion(name: string, known: readonly string[]): string {
  const near = nearest(name.slice(0, 80), known);
  return near === null ? "" : `; did you mean ${JSON.stringify(near)}?`;
}

/** Fewest single-letter changes from one word to the other, by the row-by-row table. */
function editSteps(from: string, to: string): number {
  let previous = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let row = 1; row <= from.length; row++) {
    const current = [row];
    for (let column = 1; column <= to.length; column++) {
      const replace = (previous[column - 1] ?? 0) + (from[row - 1] === to[column - 1] ? 0 : 1);
      const insert = (current[column - 1] ?? 0) + 1;
      const remove = (previous[column] ?? 0) + 1;
      current.push(Math.min(replace, insert, remove));
    }
    previous = current;
  }
  return previous[to.length] ?? 0;
}
