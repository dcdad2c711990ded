import type { PooledCounts, Side } from "./bivariate-data.ts";
import type { FitStart } from "./bivariate-model.ts";
import { loadingsOf } from "./loadings.ts";

/** Least standard deviation to begin with: from 0 no search leaves. */
const LEAST = 0.2;

/** A rough fit by moments of the logits, 0.5 added to the counts: where the search begins. */
export function beginning({ size, first, second }: PooledCounts): FitStart {
  const [one, two] = [roughly(first), roughly(second)];
  const both = Array.from({ length: size }, (_, study) => study).filter(
    (study) => (first.total[study] as number) > 0 && (second.total[study] as number) > 0,
  );
  const product = both.reduce(
    (sum, study) => sum + (one.offset[study] as number) * (two.offset[study] as number),
    0,
  );
  const square = (offset: Float64Array) =>
    both.reduce((sum, study) => sum + Math.pow(offset[study] as number, 2), 0);
  const correlation = product / Math.sqrt(square(one.offset) * square(two.offset) + 1e-12);
  return {
    means: Float64Array.from([...one.means, ...two.means]),
    loadings: loadingsOf({
      first: one.deviation,
      second: two.deviation,
      correlation: Math.min(0.8, Math.max(-0.8, correlation)),
    }),
  };
}

/** Means per level, offsets from them, and the standard deviation beyond what the counts explain. */
function roughly({ right, total, level, levels }: Side) {
  const weight = total.map((all, study) => {
    const wrong = all - (right[study] as number);
    return all === 0 ? 0 : 1 / (0.1 + 1 / ((right[study] as number) + 0.5) + 1 / (wrong + 0.5));
  });
  const logit = right.map((some, study) => Math.log((some + 0.5) / ((total[study] as number) - some + 0.5)));
  const sums = new Float64Array(levels);
  const weights = new Float64Array(levels);
  logit.forEach((value, study) => {
    const place = level[study] as number;
    sums[place] = (sums[place] as number) + (weight[study] as number) * value;
    weights[place] = (weights[place] as number) + (weight[study] as number);
  });
  const means = sums.map((sum, place) => sum / Math.max(1e-12, weights[place] as number));
  const offset = logit.map((value, study) =>
    total[study] === 0 ? 0 : value - (means[level[study] as number] as number),
  );
  const seen = total.filter((all) => all > 0).length;
  const spread = offset.reduce((sum, by) => sum + by * by, 0) / Math.max(1, seen - levels);
  const explained =
    weight.reduce((sum, share) => sum + (share > 0 ? 1 / share - 0.1 : 0), 0) / Math.max(1, seen);
  return { means, offset, deviation: Math.sqrt(Math.max(Math.pow(LEAST, 2), spread - explained)) };
}
