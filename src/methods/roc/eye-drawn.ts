import { type RandomSource, randomStream } from "../../core/random.ts";
import type { EyeInput, EyeOptions } from "./eye-fields.ts";
import { type Ladder, rungsOf } from "./ladder.ts";
import { type AtSteps, meetingAt } from "./meeting.ts";
import { requireAffordable } from "./redrawn.ts";

/** Eye and instrument on the same people, at equal specificity and at equal sensitivity. */
export interface EyeContrast {
  readonly sensitivity: number;
  readonly sensitivityDifference: number;
  readonly cutoffAtSpecificity: number | null;
  readonly specificity: number;
  readonly specificityDifference: number;
  readonly cutoffAtSensitivity: number | null;
}

/** People by rung, and how many of each group the eye called reactive. */
interface Tried {
  readonly ladder: Ladder;
  readonly truePositives: number;
  readonly falsePositives: number;
}

export function eyeContrast({ ladder, truePositives, falsePositives }: Tried, atSteps: AtSteps): EyeContrast {
  const { totalPositives, totalNegatives } = ladder;
  const across = meetingAt(ladder, "negatives", falsePositives, atSteps);
  const along = meetingAt(ladder, "positives", truePositives, atSteps);
  const sensitivity = across.others / totalPositives;
  const specificity = (totalNegatives - along.others) / totalNegatives;
  return {
    sensitivity,
    sensitivityDifference: sensitivity - truePositives / totalPositives,
    cutoffAtSpecificity: across.cutoff,
    specificity,
    specificityDifference: specificity - (totalNegatives - falsePositives) / totalNegatives,
    cutoffAtSensitivity: along.cutoff,
  };
}

/**
 * The same in people drawn anew within each group, each with both results. Replicate r has the random stream
 * (seed, r) to itself.
 */
export function eyeContrastsDrawn(
  ladder: Ladder,
  { positives, negatives, atSteps }: EyeInput,
  { replicates, seed }: EyeOptions,
): EyeContrast[] {
  requireAffordable(positives.length + negatives.length + ladder.keys.length, replicates);
  const [mine, others] = [standingOf(ladder, positives), standingOf(ladder, negatives)];
  const size = ladder.keys.length;
  const drawn: Ladder = {
    ...ladder,
    positives: new Float64Array(size),
    negatives: new Float64Array(size),
  };
  return Array.from({ length: replicates }, (_, replicate) => {
    const random = randomStream(seed, replicate);
    const truePositives = redrawWithEye(drawn.positives, mine, random);
    const falsePositives = redrawWithEye(drawn.negatives, others, random);
    return eyeContrast({ ladder: drawn, truePositives, falsePositives }, atSteps);
  });
}

interface Standing {
  readonly rungs: Uint32Array;
  readonly reactive: Uint8Array;
}

function standingOf(ladder: Ladder, people: EyeInput["positives"]): Standing {
  return {
    rungs: rungsOf(
      ladder,
      people.map(({ reading }) => reading),
    ),
    reactive: Uint8Array.from(people, ({ reactive }) => (reactive ? 1 : 0)),
  };
}

/** Draws people onto the rungs; says how many of them the eye called reactive. */
function redrawWithEye(counts: Float64Array, { rungs, reactive }: Standing, random: RandomSource): number {
  counts.fill(0);
  let called = 0;
  const people = rungs.length;
  for (let draw = 0; draw < people; draw += 1) {
    const person = Math.floor(random() * people);
    const rung = rungs[person] as number;
    counts[rung] = (counts[rung] as number) + 1;
    called += reactive[person] as number;
  }
  return called;
}
