/**
 * The reading below which a share of them lies, straight lines between neighbours: place 1 + (n - 1) share.
 * `sorted` is not empty. Source: hyndman1996, type 7
 */
export function quantileOf(sorted: Float64Array, share: number): number {
  const place = (sorted.length - 1) * share;
  const low = Math.floor(place);
  const high = Math.min(low + 1, sorted.length - 1);
  const [below, above] = [sorted[low] as number, sorted[high] as number];
  return below + (place - low) * (above - below);
}
