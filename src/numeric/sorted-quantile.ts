/**
 * The quantile of numbers in rising order, straight between neighbours (type 7 of Hyndman and Fan 1996, R's
 * standard).
 * @param share from 0 to 1
 */
export function sortedQuantile(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const low = Math.floor(place);
  const lower = sorted[low] as number;
  const upper = sorted[Math.min(low + 1, sorted.length - 1)] as number;
  return lower + (place - low) * (upper - lower);
}
