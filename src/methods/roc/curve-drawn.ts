import { randomStream } from "../../core/random.ts";
import { limitError, percentileLimits } from "../clusters/bootstrap-limits.ts";
import type { CurveOptions, CurveValues } from "./curve-fields.ts";
import { partialArea, standardised } from "./partial-area.ts";
import { pairsBeyond, type Rungs } from "./placements.ts";
import { moments, redrawInto, requireAffordable, standing } from "./redrawn.ts";

/**
 * The area, and partial areas, in people drawn anew within each group. Replicate r has the random stream
 * (seed, r) to itself.
 */
export function curveDrawn(rungs: Rungs, options: CurveOptions): NonNullable<CurveValues["drawn"]> {
  const { totalPositives, totalNegatives } = rungs;
  const { replicates, ranges, seed, level } = options;
  requireAffordable(totalPositives + totalNegatives, replicates);
  const [mine, others] = [
    standing(rungs.positives, totalPositives),
    standing(rungs.negatives, totalNegatives),
  ];
  const size = rungs.positives.length;
  const drawn: Rungs = {
    positives: new Float64Array(size),
    negatives: new Float64Array(size),
    totalPositives,
    totalNegatives,
  };
  const areas = new Float64Array(replicates);
  const parts = ranges.map(() => new Float64Array(replicates));
  for (let replicate = 0; replicate < replicates; replicate += 1) {
    const random = randomStream(seed, replicate);
    redrawInto(drawn.positives, mine, random);
    redrawInto(drawn.negatives, others, random);
    areas[replicate] = pairsBeyond(drawn) / (totalPositives * totalNegatives);
    ranges.forEach((range, place) => {
      (parts[place] as Float64Array)[replicate] = partialArea(drawn, range);
    });
  }
  areas.sort();
  const [below, above] = [(1 - level) / 2, (1 + level) / 2];
  return {
    area: {
      value: pairsBeyond(rungs) / (totalPositives * totalNegatives),
      ...percentileLimits(areas, level),
    },
    standardError: moments(areas).deviation,
    monteCarloError: Math.max(limitError(areas, below), limitError(areas, above)),
    ranges: ranges.map((range, place) => {
      const sorted = (parts[place] as Float64Array).sort();
      const value = partialArea(rungs, range);
      const { lower, upper } = percentileLimits(sorted, level);
      return {
        area: { value, lower, upper },
        standardised: {
          value: standardised(value, range),
          lower: standardised(lower, range),
          upper: standardised(upper, range),
        },
        standardError: moments(sorted).deviation,
      };
    }),
  };
}
