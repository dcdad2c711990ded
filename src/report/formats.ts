/**
 * Every number of the report is rounded here and nowhere else. Counts come before percentages; a
 * percentage has one decimal, two where its interval is narrower than 0.5 points, and more where
 * fewer would tell a falsehood (see `percentDecimals`).
 */
export interface Limits {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Narrow no-break space: keeps a number and its unit on one line. */
export const THIN = "\u202f";
const NO_BREAK = "\u00a0";
const MINUS = "\u2212";
const EN_DASH = "\u2013";
const MOST_DECIMALS = 4;

/** A fixed number of decimals, a true minus sign, thousands separators, and never "-0.0". */
export function fixed(value: number, decimals: number): string {
  const plain = Math.abs(value).toFixed(decimals);
  const [whole = "0", fraction] = plain.split(".");
  const sign = value < 0 && Number(plain) !== 0 ? MINUS : "";
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  return fraction === undefined ? `${sign}${grouped}` : `${sign}${grouped}.${fraction}`;
}

/** A count of people, devices or rows: "1,541". */
export function count(value: number): string {
  return fixed(value, 0);
}

/** A count out of all: "1,541 / 1,549". */
export function countOf(part: number, total: number): string {
  return `${count(part)}${NO_BREAK}/${NO_BREAK}${count(total)}`;
}

/** An expected number of people, not a count: whole, but "< 1" rather than a false 0. */
export function expectedPeople(value: number): string {
  return value > 0 && value < 0.5 ? `<${NO_BREAK}1` : fixed(value, 0);
}

/**
 * An expected number of people where few matter: whole from 10 on, one decimal below, "< 0.1" rather than a
 * false 0.
 */
export function expectedFew(value: number): string {
  if (value > 0 && value < 0.05) return `<${NO_BREAK}0.1`;
  return fixed(value, value === 0 || value >= 9.95 ? 0 : 1);
}

/**
 * Decimals for a percentage and its limits. One; two where the interval is narrower than 0.5
 * points; more (four at most) while rounding would turn an estimate that is not exactly 0 or 1
 * into 0 or 100, or would print a limit as equal to a threshold on whose one side it lies.
 */
export function percentDecimals(estimate: Limits, threshold?: number): number {
  const { value, lower, upper } = estimate;
  const narrow = lower !== null && upper !== null && upper - lower < 0.005;
  let decimals = narrow ? 2 : 1;
  while (decimals < MOST_DECIMALS && misleads(decimals, value, lower, upper, threshold)) decimals += 1;
  return decimals;
}

function misleads(
  decimals: number,
  value: number | null,
  lower: number | null,
  upper: number | null,
  threshold: number | undefined,
): boolean {
  const shown = (share: number) => (share * 100).toFixed(decimals);
  const falseExtreme = value !== null && [0, 1].some((end) => value !== end && shown(value) === shown(end));
  if (falseExtreme || threshold === undefined) return falseExtreme;
  return [value, lower, upper].some(
    (share) => share !== null && share !== threshold && shown(share) === shown(threshold),
  );
}

/** A share as a percentage without its sign: "98.2". */
export function percent(share: number, decimals = 1): string {
  return fixed(share * 100, decimals);
}

/** A share as a percentage with its sign: "98.2 %". */
export function percentSigned(share: number, decimals = 1): string {
  return `${percent(share, decimals)}${THIN}%`;
}

/** A share that was stated, not measured (criterion, level, prevalence): no decimals it did not have. */
export function statedPercent(share: number): string {
  return String(Number((share * 100).toFixed(6))).replace("-", MINUS);
}

/** A share that was computed and may be very small, to two significant digits: "0.52", "34". */
export function significantPercent(share: number): string {
  const percentage = Number((share * 100).toPrecision(2));
  const size = percentage === 0 ? 0 : Math.floor(Math.log10(Math.abs(percentage)));
  return fixed(percentage, Math.min(20, Math.max(0, 1 - size)));
}

/** The two limits of an interval: "93.8 – 99.8"; an open side is said in words by the caller. */
export function range(lower: string, upper: string): string {
  return `${lower}${NO_BREAK}${EN_DASH}${NO_BREAK}${upper}`;
}

/** Limits of a share as percentages. `null` where either limit is missing. */
export function percentRange(estimate: Limits, decimals = percentDecimals(estimate)): string | null {
  if (estimate.lower === null || estimate.upper === null) return null;
  return range(percent(estimate.lower, decimals), percent(estimate.upper, decimals));
}

/** Value and interval in one piece of text, for text alternatives: "98.2 % (93.8 – 99.8)". */
export function percentWithRange(estimate: Limits): string | null {
  if (estimate.value === null) return null;
  const decimals = percentDecimals(estimate);
  const limits = percentRange(estimate, decimals);
  const value = percentSigned(estimate.value, decimals);
  return limits === null ? value : `${value} (${limits})`;
}

/** A difference of two shares in percentage points, always with its sign: "+1.2". */
export function points(difference: number, decimals = 1): string {
  const text = fixed(difference * 100, decimals);
  return difference > 0 && Number((difference * 100).toFixed(decimals)) !== 0 ? `+${text}` : text;
}

/** A difference that was stated or stands on a scale, in points with its sign: "+5", "\u22122.5", "0". */
export function statedPoints(difference: number): string {
  const text = statedPercent(difference);
  return difference > 0 ? `+${text}` : text;
}

/**
 * Decimals for a difference in points and its limits: one; more (four at most) while one of them would be
 * printed as 0 or as the margin on whose one side it lies.
 */
export function pointsDecimals(difference: Limits, margins: readonly number[] = []): number {
  const shares = [difference.value, difference.lower, difference.upper].filter((share) => share !== null);
  let decimals = 1;
  const shown = (share: number) => (share * 100).toFixed(decimals);
  const same = (share: number, mark: number) =>
    share !== mark && Number(shown(share)) === Number(shown(mark));
  while (
    decimals < MOST_DECIMALS &&
    shares.some((share) => [0, ...margins].some((mark) => same(share, mark)))
  ) {
    decimals += 1;
  }
  return decimals;
}

/** Limits of a difference in points: "−11.2 – +0.4". `null` where either is missing. */
export function pointsRange(difference: Limits, decimals = pointsDecimals(difference)): string | null {
  if (difference.lower === null || difference.upper === null) return null;
  return range(points(difference.lower, decimals), points(difference.upper, decimals));
}

/** A difference with its limits in one piece of text: "−6.1 points (−11.2 – −2.0)", without the word. */
export function pointsWithRange(difference: Limits): string | null {
  if (difference.value === null) return null;
  const decimals = pointsDecimals(difference);
  const limits = pointsRange(difference, decimals);
  const value = points(difference.value, decimals);
  return limits === null ? value : `${value} (${limits})`;
}

/** An index with its limits in one piece of text: "0.55 (0.31 – 0.79)". */
export function indexWithRange(estimate: Limits): string | null {
  if (estimate.value === null) return null;
  const { lower, upper } = estimate;
  const decimals = indexDecimals(estimate);
  const value = index(estimate.value, decimals);
  if (lower === null || upper === null) return value;
  return `${value} (${range(index(lower, decimals), index(upper, decimals))})`;
}

/** A ratio to three significant digits, without an exponent: "189", "0.0178", "12,300". */
export function ratio(value: number): string {
  if (value === 0) return "0";
  const rounded = Number(value.toPrecision(3));
  const size = Math.floor(Math.log10(Math.abs(rounded)));
  return fixed(rounded, Math.min(20, Math.max(0, 2 - size)));
}

/** A number between -1 and 1 such as Youden's index or a correlation: two decimals unless told. */
export function index(value: number, decimals = 2): string {
  return fixed(value, decimals);
}

/** Decimals for an index and its limits: two; more (four at most) while rounding would make it 1 or -1. */
export function indexDecimals({ value }: Limits): number {
  let decimals = 2;
  const false1 = (share: number) => Math.abs(share) < 1 && Math.abs(Number(share.toFixed(decimals))) === 1;
  while (decimals < MOST_DECIMALS && value !== null && false1(value)) decimals += 1;
  return decimals;
}

/** A correlation that is usually small: three decimals. */
export function correlation(value: number): string {
  return fixed(value, 3);
}

/** A p-value: "< 0.001", three decimals below 0.1, two above, "> 0.99". */
export function pValue(value: number): string {
  if (value < 0.001) return `<${NO_BREAK}0.001`;
  if (value > 0.99) return `>${NO_BREAK}0.99`;
  return fixed(value, value < 0.0995 ? 3 : 2);
}

/** A probability: "> 0.99", "< 0.01", else two decimals. */
export function probability(value: number): string {
  if (value > 0.99) return `>${NO_BREAK}0.99`;
  if (value < 0.01) return `<${NO_BREAK}0.01`;
  return fixed(value, 2);
}

/** A probability as a whole percentage with its sign: "71 %", "< 1 %", "> 99 %". */
export function chance(value: number): string {
  if (value > 0.99 && value < 1) return `>${NO_BREAK}99${THIN}%`;
  if (value < 0.01 && value > 0) return `<${NO_BREAK}1${THIN}%`;
  return percentSigned(value, 0);
}

/** A test statistic: two decimals. */
export function statistic(value: number): string {
  return fixed(value, 2);
}

/** A number as the study or kit file states it: 7.5 stays 7.5, 20 stays 20. */
export function stated(value: number): string {
  return String(Number(value.toPrecision(12))).replace("-", MINUS);
}

/** A stated range: "15–20", or "15" where both ends are one. */
export function statedRange(from: number, to: number): string {
  return from === to ? stated(from) : `${stated(from)}${EN_DASH}${stated(to)}`;
}

/** The beginning of a hash; the whole of it stands under provenance. */
export function shortHash(hash: string): string {
  return hash.length > 12 ? `${hash.slice(0, 12)}…` : hash;
}
