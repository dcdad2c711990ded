/** Numbers as the words of a chart show them. */

/** A count of people with thousands separators: 1541 gives "1,541". */
export function people(value: number): string {
  return String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, ",");
}

/** A share that was stated, as a percentage without decimals it did not have: 0.045 gives "4.5". */
export function statedPercent(share: number): string {
  return String(Number((share * 100).toFixed(6)));
}

/** A number of a drawing to six significant digits: finer than any pixel, and short in a specification. */
export function drawn(value: number): number {
  return Number(value.toPrecision(6));
}

const MOST_DECIMALS = 4;

/**
 * An estimated share as a percentage: 0.8987 gives "89.9 %"; more decimals (four at most) while
 * rounding would turn a share into 0 or 100 that is neither. `null` gives the words for nothing.
 */
export function estimatedPercent(share: number | null, nothing: string): string {
  if (share === null) return nothing;
  const shown = (decimals: number) => (share * 100).toFixed(decimals);
  let decimals = 1;
  while (
    decimals < MOST_DECIMALS &&
    [0, 1].some((end) => share !== end && Number(shown(decimals)) === end * 100)
  ) {
    decimals += 1;
  }
  return `${shown(decimals)}\u202f%`;
}

/** The same with its limits: "89.9 % (81.2–95.0)"; the value alone where there are none. */
export function estimatedRange(
  { value, lower, upper }: { value: number | null; lower: number | null; upper: number | null },
  nothing: string,
): string {
  const text = estimatedPercent(value, nothing);
  if (value === null || lower === null || upper === null) return text;
  return `${text} (${(lower * 100).toFixed(1)}\u00a0\u2013\u00a0${(upper * 100).toFixed(1)})`;
}

/** A stated range: "15–20", or "15" where both ends are one. */
export function statedRange(from: number, to: number): string {
  return from === to ? String(from) : `${from}\u2013${to}`;
}
