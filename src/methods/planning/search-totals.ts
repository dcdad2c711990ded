/** Where the power is reached. */
export interface TotalsFound {
  /** The first total that reaches it. */
  readonly first: number | null;
  /** The total from which on every larger one up to the horizon reaches it; `null`: the last one looked at does not. */
  readonly stays: number | null;
  /** Power at `stays`. */
  readonly power: number | null;
  /** Power at one fewer; 0 where nobody would be left. */
  readonly powerBefore: number | null;
}

export const NOT_FOUND: TotalsFound = { first: null, stays: null, power: null, powerBefore: null };

/** A power this little below the one wanted counts as reached: it is rounding. */
const ROUNDING = 1e-12;

/**
 * Reckons the power at every total from 1 to the horizon, none left out: power goes up and down like a saw
 * from one total to the next, so that neither a larger nor a smaller total may be taken on trust.
 *
 * @param powerOf asked for each total once, in rising order
 */
export function searchTotals(
  powerOf: (total: number) => number,
  wanted: number,
  horizon: number,
): TotalsFound {
  let first: number | null = null;
  let stays: { total: number; power: number; before: number } | null = null;
  let before = 0;
  for (let total = 1; total <= horizon; total += 1) {
    const power = powerOf(total);
    if (power < wanted - ROUNDING) stays = null;
    else {
      first ??= total;
      stays ??= { total, power, before };
    }
    before = power;
  }
  return {
    first,
    stays: stays?.total ?? null,
    power: stays === null ? null : Math.min(1, stays.power),
    powerBefore: stays === null ? null : Math.min(1, stays.before),
  };
}
