import { normalCdf, normalDensity } from "../../numeric/normal.ts";

/** People by category, the one that speaks least for the condition first; nobody's categories left out. */
export interface Categories {
  readonly positives: readonly number[];
  readonly negatives: readonly number[];
}

/**
 * Unknowns: a, b, then the borders between categories, in standard deviations of people without the condition.
 * P(at or below border t) is Phi(t) without the condition and Phi(b t - a) with it.
 */
export type Unknowns = Float64Array;

export interface Climbed {
  readonly logLikelihood: number;
  readonly gradient: Float64Array;
  /** Expected information, row by row. */
  readonly information: Float64Array;
}

/** The probability of every category in both groups, lowest first. */
export function binormalShares(unknowns: Unknowns): {
  readonly positives: Float64Array;
  readonly negatives: Float64Array;
} {
  const size = unknowns.length - 1;
  const [positives, negatives] = [new Float64Array(size), new Float64Array(size)];
  for (let category = 0; category < size; category += 1) {
    const [low, high] = [borderOf(unknowns, category), borderOf(unknowns, category + 1)];
    negatives[category] = between(low, high);
    positives[category] = between(moved(unknowns, low), moved(unknowns, high));
  }
  return { positives, negatives };
}

export function binormalLogLikelihood({ positives, negatives }: Categories, unknowns: Unknowns): number {
  const shares = binormalShares(unknowns);
  let sum = 0;
  positives.forEach((people, category) => {
    if (people > 0) sum += people * Math.log(shares.positives[category] as number);
  });
  negatives.forEach((people, category) => {
    if (people > 0) sum += people * Math.log(shares.negatives[category] as number);
  });
  return sum;
}

/** Log-likelihood with its slopes, and the information that the model expects. Source: dorfman1969 */
export function binormalSlopes(categories: Categories, unknowns: Unknowns): Climbed {
  const size = unknowns.length;
  const shares = binormalShares(unknowns);
  const gradient = new Float64Array(size);
  const information = new Float64Array(size * size);
  const groups = [
    { people: categories.positives, shares: shares.positives, slopes: slopesOfPositives },
    { people: categories.negatives, shares: shares.negatives, slopes: slopesOfNegatives },
  ];
  for (const group of groups) {
    const total = group.people.reduce((sum, people) => sum + people, 0);
    group.people.forEach((people, category) => {
      const share = group.shares[category] as number;
      if (!(share > 0)) return;
      const slopes = group.slopes(unknowns, category);
      for (const [one, slope] of slopes) {
        gradient[one] = (gradient[one] as number) + (people * slope) / share;
        for (const [other, otherSlope] of slopes) {
          const at = one * size + other;
          information[at] = (information[at] as number) + (total * slope * otherSlope) / share;
        }
      }
    });
  }
  return { logLikelihood: binormalLogLikelihood(categories, unknowns), gradient, information };
}

type Slopes = readonly (readonly [number, number])[];

/** What moves the probability of a category among people with the condition: place of the unknown, slope. */
function slopesOfPositives(unknowns: Unknowns, category: number): Slopes {
  const [low, high] = [borderOf(unknowns, category), borderOf(unknowns, category + 1)];
  const [atLow, atHigh] = [densityAt(moved(unknowns, low)), densityAt(moved(unknowns, high))];
  const b = unknowns[1] as number;
  const times = (density: number, border: number) => (density === 0 ? 0 : density * border);
  const slopes: [number, number][] = [
    [0, atLow - atHigh],
    [1, times(atHigh, high) - times(atLow, low)],
  ];
  if (category > 0) slopes.push([category + 1, -b * atLow]);
  if (category + 2 < unknowns.length) slopes.push([category + 2, b * atHigh]);
  return slopes;
}

function slopesOfNegatives(unknowns: Unknowns, category: number): Slopes {
  const slopes: [number, number][] = [];
  if (category > 0) slopes.push([category + 1, -densityAt(borderOf(unknowns, category))]);
  if (category + 2 < unknowns.length) {
    slopes.push([category + 2, densityAt(borderOf(unknowns, category + 1))]);
  }
  return slopes;
}

/** The lower border of a category: infinite below the first and above the last. */
function borderOf(unknowns: Unknowns, category: number): number {
  if (category === 0) return Number.NEGATIVE_INFINITY;
  return category + 1 < unknowns.length ? (unknowns[category + 1] as number) : Number.POSITIVE_INFINITY;
}

function moved(unknowns: Unknowns, border: number): number {
  return (unknowns[1] as number) * border - (unknowns[0] as number);
}

function densityAt(z: number): number {
  return Number.isFinite(z) ? normalDensity(z) : 0;
}

/** P(low < Z <= high), from whichever tail is the smaller. */
function between(low: number, high: number): number {
  return low > 0 ? normalCdf(low, "upper") - normalCdf(high, "upper") : normalCdf(high) - normalCdf(low);
}
