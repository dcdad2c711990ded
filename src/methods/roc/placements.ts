/** People of both groups, rung by rung, the rung that speaks most for the condition first. */
export interface Rungs {
  readonly positives: Float64Array;
  readonly negatives: Float64Array;
  readonly totalPositives: number;
  readonly totalNegatives: number;
}

/** For each rung: the share of the other group that somebody there lies on the right side of, ties half. */
export interface Placements {
  /** Of a person with the condition: share of those without who lie behind. */
  readonly ofPositives: Float64Array;
  /** Of a person without the condition: share of those with it who lie beyond. */
  readonly ofNegatives: Float64Array;
}

/** Pairs in which the person with the condition lies beyond the one without; ties count half. */
export function pairsBeyond({ positives, negatives }: Rungs): number {
  let [beyond, pairs] = [0, 0];
  for (let rung = 0; rung < positives.length; rung += 1) {
    const here = positives[rung] as number;
    pairs += (negatives[rung] as number) * (beyond + here / 2);
    beyond += here;
  }
  return pairs;
}

/** Source: delong1988, computed by ranks (sun2014). Both groups must have somebody. */
export function placementsOf({ positives, negatives, totalPositives, totalNegatives }: Rungs): Placements {
  const size = positives.length;
  const placements = { ofPositives: new Float64Array(size), ofNegatives: new Float64Array(size) };
  let [positivesBeyond, negativesBeyond] = [0, 0];
  for (let rung = 0; rung < size; rung += 1) {
    const [mine, others] = [positives[rung] as number, negatives[rung] as number];
    placements.ofPositives[rung] = (totalNegatives - negativesBeyond - others / 2) / totalNegatives;
    placements.ofNegatives[rung] = (positivesBeyond + mine / 2) / totalPositives;
    positivesBeyond += mine;
    negativesBeyond += others;
  }
  return placements;
}

/**
 * The variance of the area: that of the placements in each group over its size, added.
 * `null` where a group has fewer than two people.
 */
export function placementVariance(rungs: Rungs, area: number): number | null {
  const { positives, negatives, totalPositives, totalNegatives } = rungs;
  if (totalPositives < 2 || totalNegatives < 2) return null;
  const { ofPositives, ofNegatives } = placementsOf(rungs);
  return (
    spread(ofPositives, positives, totalPositives, area) +
    spread(ofNegatives, negatives, totalNegatives, area)
  );
}

function spread(placements: Float64Array, people: Float64Array, total: number, mean: number): number {
  let squares = 0;
  for (let rung = 0; rung < people.length; rung += 1) {
    squares += (people[rung] as number) * Math.pow((placements[rung] as number) - mean, 2);
  }
  return squares / (total - 1) / total;
}
