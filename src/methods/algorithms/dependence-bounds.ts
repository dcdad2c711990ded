/** What two shares allow of the covariance and of phi of two yes-or-no results. */
export interface DependenceBounds {
  readonly covariance: { readonly least: number; readonly most: number };
  /** Both 0 where one of the results never varies. */
  readonly phi: { readonly least: number; readonly most: number };
}

/**
 * The bounds of Fréchet: with shares p and q of reactive results, both are reactive in at least
 * max(0, p + q - 1) and at most min(p, q) of all people.
 *
 * @param first  share of reactive results of one run, 0 to 1
 * @param second of the other
 * Source: recalled (Fréchet 1951; for two tests Vacek 1985), follows from the four cells being 0 or more.
 */
export function dependenceBounds(first: number, second: number): DependenceBounds {
  const firstNot = 1 - first;
  const secondNot = 1 - second;
  const least = -Math.min(first * second, firstNot * secondNot);
  const most = Math.min(first * secondNot, second * firstNot);
  const scale = Math.sqrt(first * firstNot * second * secondNot);
  const share = (covariance: number) => (scale > 0 ? covariance / scale : 0);
  return { covariance: { least, most }, phi: { least: share(least), most: share(most) } };
}
