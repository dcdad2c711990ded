import { normalCdf } from "../../numeric/normal.ts";

/** Devices that one person uses up: so many, with such a probability. */
export interface RunsPerPerson {
  readonly runs: number;
  readonly probability: number;
}

/** Moments of the devices one person uses up, on the lattice `least`, `least + span`, … */
export interface RunMoments {
  readonly least: number;
  readonly span: number;
  /** Largest number of steps of `span` above `least`. */
  readonly steps: number;
  readonly mean: number;
  readonly variance: number;
  readonly third: number;
  /** Fourth cumulant. */
  readonly fourth: number;
}

/** P(more than so many devices are used up by everybody). */
export type MoreThan = (runs: number) => number;

export function momentsOf(perPerson: readonly RunsPerPerson[]): RunMoments {
  const used = perPerson.filter(({ probability }) => probability > 0);
  const least = Math.min(...used.map(({ runs }) => runs));
  const most = Math.max(...used.map(({ runs }) => runs));
  const span = used.reduce((divisor, { runs }) => greatestDivisor(divisor, runs - least), 0) || 1;
  const mean = used.reduce((sum, { runs, probability }) => sum + runs * probability, 0);
  const central = (power: number) =>
    used.reduce((sum, { runs, probability }) => sum + probability * Math.pow(runs - mean, power), 0);
  const variance = most > least ? central(2) : 0;
  return {
    least,
    span,
    steps: (most - least) / span,
    mean,
    variance,
    third: central(3),
    fourth: central(4) - 3 * (variance * variance),
  };
}

function greatestDivisor(one: number, other: number): number {
  return other === 0 ? one : greatestDivisor(other, one % other);
}

/** Masses left off at either end are below this: they leave no trace in 15 digits even for 100 million people. */
const LEFT_OFF = 1e-25;

/** Sums of devices: masses on steps from `start`. */
interface Sums {
  readonly start: number;
  readonly masses: Float64Array;
}

/** The exact distribution of the sum over all people, by doubling. */
export function exactMoreThan(
  perPerson: readonly RunsPerPerson[],
  { least, span, steps }: RunMoments,
  people: number,
): MoreThan {
  const one = new Float64Array(steps + 1);
  for (const { runs, probability } of perPerson) {
    if (probability > 0) one[(runs - least) / span] = probability;
  }
  let sums: Sums = { start: 0, masses: Float64Array.of(1) };
  for (const bit of people.toString(2)) {
    sums = added(sums, sums);
    if (bit === "1") sums = added(sums, { start: 0, masses: one });
  }
  const above = new Float64Array(sums.masses.length + 1);
  for (let step = sums.masses.length - 1; step >= 0; step -= 1) {
    above[step] = (above[step + 1] as number) + (sums.masses[step] as number);
  }
  return (runs) => {
    const step = Math.floor((runs - people * least) / span) + 1 - sums.start;
    return Math.min(1, step <= 0 ? 1 : (above[step] ?? 0));
  };
}

/** The distribution of the sum of two. */
function added(first: Sums, second: Sums): Sums {
  const masses = new Float64Array(first.masses.length + second.masses.length - 1);
  for (const [place, mass] of first.masses.entries()) {
    if (mass === 0) continue;
    for (let step = 0; step < second.masses.length; step += 1) {
      masses[place + step] = (masses[place + step] as number) + mass * (second.masses[step] as number);
    }
  }
  return trimmed(first.start + second.start, masses);
}

function trimmed(start: number, masses: Float64Array): Sums {
  let [low, high, below, beyond] = [0, masses.length - 1, 0, 0];
  while (low < high && below + (masses[low] as number) < LEFT_OFF) {
    below += masses[low] as number;
    low += 1;
  }
  while (high > low && beyond + (masses[high] as number) < LEFT_OFF) {
    beyond += masses[high] as number;
    high -= 1;
  }
  return { start: start + low, masses: masses.slice(low, high + 1) };
}

/** About how many multiplications `exactMoreThan` takes. */
export function exactEffort({ variance, span, steps }: RunMoments, people: number): number {
  const width = Math.min(people * steps, (24 * Math.sqrt(people * variance)) / span + 40 * (steps + 1));
  return width * width;
}

/** Size of the skewness of the sum over all people. */
export function skewOf({ third, variance }: RunMoments, people: number): number {
  return variance > 0 ? Math.abs(third) / Math.pow(variance, 1.5) / Math.sqrt(people) : 0;
}

/**
 * The same from four moments: a sum is made normal by the expansion of Cornish and Fisher, taken at the
 * middle between two steps of the sum with a uniform number of one step's width added, whose distribution agrees there.
 *
 * Behaves badly far out and for few people: use it where the exact one takes too long.
 * Source: cornish1938
 */
export function approximateMoreThan(moments: RunMoments, people: number): MoreThan {
  const { least, span, steps, mean, third, fourth } = moments;
  const variance = moments.variance * people + (span * span) / 12;
  const spread = Math.sqrt(variance);
  const skew = (third * people) / Math.pow(spread, 3);
  const excess = (fourth * people - Math.pow(span, 4) / 120) / (variance * variance);
  return (runs) => {
    const step = Math.floor((runs - people * least) / span);
    if (step < 0) return 1;
    if (step >= people * steps) return 0;
    const x = (people * least + (step + 0.5) * span - people * mean) / spread;
    if (Math.abs(x) > FAR) return x > 0 ? 0 : 1;
    const normal =
      x -
      (skew * (x * x - 1)) / 6 -
      (excess * (Math.pow(x, 3) - 3 * x)) / 24 +
      (skew * skew * (4 * Math.pow(x, 3) - 7 * x)) / 36;
    return normalCdf(normal, "upper");
  };
}

/** Standard deviations beyond which the expansion is not asked. */
const FAR = 12;
