import { randomBeta } from "d3-random";
import * as v from "valibot";
import { count, proportion } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import type { RandomSource } from "../../core/random.ts";

const shape = (meaning: string) =>
  v.pipe(
    v.number(),
    v.gtValue(0, "expected a number above 0"),
    v.maxValue(1e9, "expected at most 1e9"),
    v.description(meaning),
  );

/** What is known of a share: its value, the counts of a study, or a beta distribution. */
export function knownShare(meaning: string) {
  return v.pipe(
    v.variant("kind", [
      v.strictObject({ kind: v.literal("value"), value: proportion(meaning) }),
      v.strictObject({
        kind: v.literal("counts"),
        right: count("right results in a study"),
        total: count("people of that truth in the study"),
      }),
      v.strictObject({
        kind: v.literal("beta"),
        a: shape("first parameter of a beta distribution"),
        b: shape("second parameter"),
      }),
    ]),
    v.description(`${meaning}; counts stand for a beta distribution with Jeffreys prior`),
  );
}
export type KnownShare = v.InferOutput<ReturnType<typeof knownShare>>;

/** A share at its centre, and drawn. */
export interface ShareToDraw {
  /** The value, or the mean of the beta distribution. */
  readonly centre: number;
  readonly uncertain: boolean;
  draw(): number;
}

/** @throws InputError at `path` where counts are no counts */
export function shareToDraw(
  share: KnownShare,
  path: readonly (string | number)[],
  random: RandomSource,
): ShareToDraw {
  if (share.kind === "value") return { centre: share.value, uncertain: false, draw: () => share.value };
  const { a, b } = share.kind === "beta" ? share : jeffreys(share, path);
  return { centre: a / (a + b), uncertain: true, draw: randomBeta.source(random)(a, b) };
}

function jeffreys({ right, total }: { right: number; total: number }, path: readonly (string | number)[]) {
  if (total < 1) throw new InputError([...path, "total"], "1 or more", total);
  if (right > total) throw new InputError([...path, "right"], `at most the total, ${total}`, right);
  return { a: right + 0.5, b: total - right + 0.5 };
}
