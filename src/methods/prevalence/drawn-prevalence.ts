import { randomBeta } from "d3-random";
import { randomStream } from "../../core/random.ts";
import { type Simulated, simulated } from "../predictive/simulated.ts";
import { type Accuracy, roganGladen, type Survey } from "./corrected.ts";

/** Percentiles of drawn prevalences, and how many draws had none. */
export interface DrawnPrevalence {
  /** `null` where fewer than 2 draws had a prevalence. */
  readonly summary: Simulated | null;
  readonly undefinedDraws: number;
}

/**
 * The true prevalence with everything uncertain: the apparent prevalence and each estimated accuracy are
 * drawn from their Jeffreys posteriors, each from its own stream, and the result is cut to 0..1. A draw
 * with sensitivity + specificity of 1 or less says nothing and is left out.
 */
export function drawnPrevalence(survey: Survey, draws: number, seed: number, level: number): DrawnPrevalence {
  const apparent = betaOf(survey.count, survey.total, seed, 0);
  const sensitivity = accuracyOf(survey.sensitivity, seed, 1);
  const specificity = accuracyOf(survey.specificity, seed, 2);
  const kept = new Float64Array(draws);
  let used = 0;
  for (let draw = 0; draw < draws; draw += 1) {
    const [share, found, cleared] = [apparent(), sensitivity(), specificity()];
    if (!(found + cleared > 1)) continue;
    kept[used] = Math.min(1, Math.max(0, roganGladen(share, found, cleared)));
    used += 1;
  }
  const summary = used < 2 ? null : simulated(kept.subarray(0, used), level);
  return { summary, undefinedDraws: draws - used };
}

function betaOf(count: number, total: number, seed: number, task: number): () => number {
  return randomBeta.source(randomStream(seed, task))(count + 0.5, total - count + 0.5);
}

function accuracyOf({ value, people }: Accuracy, seed: number, task: number): () => number {
  return people === null ? () => value : betaOf(Math.round(value * people), people, seed, task);
}
