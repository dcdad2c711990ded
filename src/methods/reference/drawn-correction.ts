import { randomGamma } from "d3-random";
import { randomStream } from "../../core/random.ts";
import type { ShareToDraw } from "../algorithms/known-share.ts";
import { correctionOf, sharesOf } from "./known-errors.ts";
import type { CrossedCounts, ErrorCovariance } from "./known-errors-fields.ts";

export interface DrawnCorrections {
  readonly prevalence: Float64Array;
  readonly sensitivity: Float64Array;
  readonly specificity: Float64Array;
  /** Draws for which the formula has no value; they are left out. */
  readonly undefinedDraws: number;
  /** Draws of which something left 0..1 and was cut. */
  readonly cutDraws: number;
}

export interface DrawnReference {
  readonly sensitivity: ShareToDraw;
  readonly specificity: ShareToDraw;
}

/**
 * Corrections with everything uncertain drawn: the table from its Dirichlet posterior (Jeffreys prior, one
 * half for each cell), each accuracy of the reference from what is known of it. Cut to 0..1.
 */
export function drawnCorrections(
  counts: CrossedCounts,
  reference: DrawnReference,
  covariance: ErrorCovariance,
  draws: number,
  seed: number,
): DrawnCorrections {
  const table = tableDraws(counts, seed);
  const kept = Array.from({ length: 3 }, () => new Float64Array(draws));
  let used = 0;
  let cutDraws = 0;
  for (let draw = 0; draw < draws; draw += 1) {
    const errors = {
      reference: { sensitivity: reference.sensitivity.draw(), specificity: reference.specificity.draw() },
      covariance,
    };
    const drawn = correctionOf(sharesOf(table()), errors);
    if (drawn === null) continue;
    let cut = false;
    for (const [at, raw] of [drawn.prevalence, drawn.sensitivity, drawn.specificity].entries()) {
      const inside = Math.min(1, Math.max(0, raw));
      if (inside !== raw) cut = true;
      (kept[at] as Float64Array)[used] = inside;
    }
    if (cut) cutDraws += 1;
    used += 1;
  }
  const [prevalence, sensitivity, specificity] = kept.map((column) => column.subarray(0, used));
  return {
    prevalence: prevalence as Float64Array,
    sensitivity: sensitivity as Float64Array,
    specificity: specificity as Float64Array,
    undefinedDraws: draws - used,
    cutDraws,
  };
}

/** Gamma variables in the proportions of a Dirichlet; each cell has a stream of its own. */
function tableDraws(counts: CrossedCounts, seed: number): () => CrossedCounts {
  const cell = (people: number, task: number) => randomGamma.source(randomStream(seed, task))(people + 0.5);
  const bothReactive = cell(counts.bothReactive, 0);
  const kitOnly = cell(counts.kitOnly, 1);
  const referenceOnly = cell(counts.referenceOnly, 2);
  const neither = cell(counts.neither, 3);
  return () => ({
    bothReactive: bothReactive(),
    kitOnly: kitOnly(),
    referenceOnly: referenceOnly(),
    neither: neither(),
  });
}
