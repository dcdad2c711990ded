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

/** Longest list in which a likely name is looked for, and how often: looking is slow. */
const SEARCHED = 2000;
const SEARCHES = 50;

/** As `suggestion`, for long lists of identifiers: only the first few times, and not in very long lists. */
export function patientSuggestion(known: ReadonlyMap<string, unknown>): (name: string) => string {
  let left = SEARCHES;
  return (name) => {
    if (known.size > SEARCHED || left === 0) return "";
    left -= 1;
    return suggestion(name, [...known.keys()]);
  };
}

/** Fewest single-letter changes from one word to the other, neighbours swapped being one change. */
function editSteps(from: string, to: string): number {
  const table: number[][] = [Array.from({ length: to.length + 1 }, (_, index) => index)];
  const at = (row: number, column: number) => table[row]?.[column] ?? 0;
  for (let row = 1; row <= from.length; row++) {
    const current = [row];
    table.push(current);
    for (let column = 1; column <= to.length; column++) {
      const same = from[row - 1] === to[column - 1];
      const swapped =
        row > 1 && column > 1 && from[row - 1] === to[column - 2] && from[row - 2] === to[column - 1];
      const replace = at(row - 1, column - 1) + (same ? 0 : 1);
      const insert = (current[column - 1] ?? 0) + 1;
      const remove = at(row - 1, column) + 1;
      const swap = swapped ? at(row - 2, column - 2) + 1 : replace;
      current.push(Math.min(replace, insert, remove, swap));
    }
  }
  return at(from.length, to.length);
}
