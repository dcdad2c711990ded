import type { AlgorithmChartWords } from "./algorithm-words.ts";
import { logit } from "./logit-scale.ts";
import { drawn } from "./numbers.ts";

/** The PPV of an algorithm at one prevalence. */
export interface Point {
  readonly prevalence: number;
  /** PPV after the first reactive result, after the first two, and so on. */
  readonly afterReactive: readonly (number | null)[];
  readonly ppv: number | null;
  readonly independentPpv: number | null;
}

/** One of the lines of a chart of predictive values. */
export interface Line {
  readonly name: string;
  readonly of: (point: Point) => number | null;
  readonly kind: "step" | "whole" | "independent";
}

/** Lines nearer than this on the stretched scale, a few pixels, are one: the whole algorithm's is drawn. */
const NEAR = 0.15;

/** A line for each reactive result that is not the whole, one if independent where that differs, and the whole. */
export function linesOf(
  kits: readonly string[],
  points: readonly Point[],
  words: AlgorithmChartWords,
): Line[] {
  const steps = kits.map(
    (_, at): Line => ({
      name: words.afterReactive(kits.slice(0, at + 1)),
      of: (point) => point.afterReactive[at] ?? null,
      kind: "step",
    }),
  );
  const near = (one: number | null, other: number | null) => {
    const [here, there] = [heightOf(one), heightOf(other)];
    return here !== null && there !== null && Math.abs(here - there) < NEAR;
  };
  const own = steps.filter(({ of }) => !points.every((point) => near(of(point), point.ppv)));
  const whole: Line = { name: words.whole, of: ({ ppv }) => ppv, kind: "whole" };
  const independent: Line = {
    name: words.wholeIndependent,
    of: ({ independentPpv }) => independentPpv,
    kind: "independent",
  };
  const same = points.every(({ ppv, independentPpv }) => near(ppv, independentPpv));
  return [...own, ...(same ? [] : [independent]), whole];
}

/** The same as a specification holds it. */
export function shownHeight(share: number): number | null {
  const height = heightOf(share);
  return height === null ? null : drawn(height);
}

/** Height on the stretched scale; `null` for exactly 0 and 1, which have none. */
export function heightOf(share: number | null): number | null {
  return share === null || share <= 0 || share >= 1 ? null : logit(share);
}

/** The line's value at a prevalence, straight between neighbours on both stretched scales. */
export function between(points: readonly Point[], { of }: Line, prevalence: number): number | null {
  const after = points.findIndex((point) => point.prevalence >= prevalence - 1e-12);
  const right = points[after];
  const left = points[Math.max(0, after - 1)];
  if (right === undefined || left === undefined) return null;
  const [low, high] = [of(left), of(right)];
  const [from, to] = [heightOf(low), heightOf(high)];
  if (from === null || to === null || right.prevalence <= left.prevalence) return high;
  const part = Math.log(prevalence / left.prevalence) / Math.log(right.prevalence / left.prevalence);
  return 1 / (1 + Math.exp(-(from + part * (to - from))));
}
