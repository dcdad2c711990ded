import { type RandomSource, randomStream } from "../../core/random.ts";
import { normalCdf } from "../../numeric/normal.ts";
import { percentileLimits } from "../clusters/bootstrap-limits.ts";
import type { CompareInput, CompareOptions, CompareValues } from "./compare-fields.ts";
import { type Ladder, rungsOf } from "./ladder.ts";
import { partialArea } from "./partial-area.ts";
import { moments, redrawInto, requireAffordable } from "./redrawn.ts";

/** One curve, with the rung of every person and room for a replicate. */
interface Standing {
  readonly ladder: Ladder;
  readonly positives: Uint32Array;
  readonly negatives: Uint32Array;
  readonly drawn: Ladder;
}

/**
 * Differences of partial areas with percentile limits. Paired: a person drawn brings both readings. Replicate r has
 * the random stream (seed, r) to itself.
 */
export function comparedRanges(
  ladders: readonly [Ladder, Ladder],
  { design, first, second }: CompareInput,
  { ranges, replicates, seed, level }: CompareOptions,
): CompareValues["ranges"] {
  if (ranges.length === 0) return [];
  const [one, other] = [standingOf(ladders[0], first), standingOf(ladders[1], second)];
  const people = [one, other].reduce(
    (sum, { positives, negatives }) => sum + positives.length + negatives.length,
    0,
  );
  requireAffordable(people, replicates);
  const differences = ranges.map(() => new Float64Array(replicates));
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const random = randomStream(seed, replicate);
    if (design === "paired") {
      redrawTogether(one, other, random);
    } else {
      redrawAlone(one, random);
      redrawAlone(other, random);
    }
    ranges.forEach((range, place) => {
      (differences[place] as Float64Array)[replicate] =
        partialArea(one.drawn, range) - partialArea(other.drawn, range);
    });
  }
  return ranges.map((range, place) => {
    const sorted = (differences[place] as Float64Array).sort();
    const areas = { first: partialArea(one.ladder, range), second: partialArea(other.ladder, range) };
    const value = areas.first - areas.second;
    const { deviation } = moments(sorted);
    const z = deviation > 0 ? value / deviation : null;
    return {
      range,
      ...areas,
      difference: { value, ...percentileLimits(sorted, level) },
      standardError: deviation,
      z,
      p: z === null ? null : Math.min(1, 2 * normalCdf(Math.abs(z), "upper")),
    };
  });
}

function standingOf(
  ladder: Ladder,
  { positives, negatives }: Pick<CompareInput["first"], "positives" | "negatives">,
): Standing {
  const size = ladder.keys.length;
  return {
    ladder,
    positives: rungsOf(ladder, positives),
    negatives: rungsOf(ladder, negatives),
    drawn: { ...ladder, positives: new Float64Array(size), negatives: new Float64Array(size) },
  };
}

function redrawAlone({ drawn, positives, negatives }: Standing, random: RandomSource): void {
  redrawInto(drawn.positives, positives, random);
  redrawInto(drawn.negatives, negatives, random);
}

function redrawTogether(one: Standing, other: Standing, random: RandomSource): void {
  for (const group of ["positives", "negatives"] as const) {
    const [mine, theirs] = [one.drawn[group].fill(0), other.drawn[group].fill(0)];
    const people = one[group].length;
    for (let draw = 0; draw < people; draw += 1) {
      const person = Math.floor(random() * people);
      const [here, there] = [one[group][person] as number, other[group][person] as number];
      mine[here] = (mine[here] as number) + 1;
      theirs[there] = (theirs[there] as number) + 1;
    }
  }
}
