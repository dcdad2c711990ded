/** Shares of items by the answers of two readers, reactive or not. */
export interface ReadersTable {
  readonly both: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly neither: number;
}

interface Readers {
  readonly kappa: number;
  readonly reactiveFirst: number;
  readonly reactiveSecond: number;
}

/** A kappa this little outside is at the bound. */
const ROUNDING = 1e-9;

/**
 * The least and the largest kappa of two readers who call these shares reactive: when they call the same
 * items reactive as seldom, or as often, as the shares allow.
 */
export function feasibleKappa(first: number, second: number): { least: number; most: number } {
  const at = (both: number) => 1 - (first + second - 2 * both) / (first + second - 2 * first * second);
  return { least: at(Math.max(0, first + second - 1)), most: at(Math.min(first, second)) };
}

/** The one table with this kappa and these shares; `null` where there is none. Source: cohen1960 */
export function readersTable(
  { kappa, reactiveFirst: first, reactiveSecond: second }: Readers,
  { least, most }: { readonly least: number; readonly most: number },
): ReadersTable | null {
  if (kappa < least - ROUNDING || kappa > most + ROUNDING) return null;
  const chance = first * second;
  const wanted = chance + (kappa * (first + second - 2 * chance)) / 2;
  const both = Math.min(first, second, Math.max(0, first + second - 1, wanted));
  return {
    both,
    firstOnly: first - both,
    secondOnly: second - both,
    neither: Math.max(0, 1 - first - second + both),
  };
}
