import { randomBeta } from "d3-random";
import { InputError } from "../../core/input-error.ts";
import type { RandomSource } from "../../core/random.ts";
import { isUncertain, quantileOf } from "./quantities.ts";
import type { UncertainShare } from "./uncertain-fields.ts";

/** A share at its centre, and drawn. */
export interface ShareToDraw {
  /** The value, or the median of its distribution. */
  readonly centre: number;
  readonly uncertain: boolean;
  draw(): number;
}

/** @throws InputError at `path` where a part is larger than its whole, or a range runs backwards */
export function shareToDraw(
  share: UncertainShare,
  path: readonly (string | number)[],
  random: RandomSource,
): ShareToDraw {
  const quantity = { path, name: path.join(" "), spread: share };
  const draw = drawing(share, path, random);
  return { centre: quantileOf(quantity, 0.5), uncertain: isUncertain(quantity), draw };
}

function drawing(
  share: UncertainShare,
  path: readonly (string | number)[],
  random: RandomSource,
): () => number {
  switch (share.kind) {
    case "value":
      return () => share.value;
    case "range": {
      const { low, high } = share;
      if (low > high) throw new InputError([...path, "low"], `at most the highest, ${high}`, low);
      return () => low + random() * (high - low);
    }
    case "beta":
      return randomBeta.source(random)(share.a, share.b);
    case "counts": {
      const { right, total } = share;
      if (right > total) throw new InputError([...path, "right"], `at most the total, ${total}`, right);
      return randomBeta.source(random)(right + 0.5, total - right + 0.5);
    }
  }
}
