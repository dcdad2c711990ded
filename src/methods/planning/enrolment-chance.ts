import { binomialCdf } from "../../numeric/binomial.ts";
import { bothShort } from "./both-short.ts";
import { averagedOverBeta } from "./enrolment-average.ts";
import type { PrevalenceShape } from "./enrolment-prevalence.ts";

/** What is needed, and how people come by it. */
export interface EnrolmentQuestion {
  readonly positives: number;
  readonly negatives: number;
  readonly prevalence: PrevalenceShape;
  /** Share of those with, and of those without the condition who give a usable pair. */
  readonly usablePositives: number;
  readonly usableNegatives: number;
}

/** How probably so many enrolled are enough. */
export interface Chance {
  readonly positives: number;
  readonly negatives: number;
  readonly both: number;
}
export type Kind = keyof Chance;

/** A prevalence with its complement, each relatively accurate. */
export interface Share {
  readonly present: number;
  readonly absent: number;
}

/** All three chances. */
export function chanceOf(question: EnrolmentQuestion, total: number): Chance {
  return {
    positives: chanceFor("positives", question, total),
    negatives: chanceFor("negatives", question, total),
    both: chanceFor("both", question, total),
  };
}

/**
 * One of the chances. Of a range, positives are judged at its low end, negatives at its high end, and both at the
 * worse of the two ends: as a function of the prevalence that chance first rises, then falls.
 */
export function chanceFor(kind: Kind, question: EnrolmentQuestion, total: number): number {
  const { prevalence } = question;
  if (prevalence.kind === "beta") return averagedOverBeta(kind, question, prevalence.shape, total);
  const at = (present: number) => chanceAt(kind, question, total, { present, absent: 1 - present });
  if (kind === "positives") return at(prevalence.low);
  if (kind === "negatives") return at(prevalence.high);
  return prevalence.low === prevalence.high
    ? at(prevalence.low)
    : Math.min(at(prevalence.low), at(prevalence.high));
}

/** The chance at one prevalence. */
export function chanceAt(kind: Kind, question: EnrolmentQuestion, total: number, share: Share): number {
  const { positives, negatives, usablePositives, usableNegatives } = question;
  const positiveShare = share.present * usablePositives;
  const negativeShare = share.absent * usableNegatives;
  if (kind === "positives") return atLeast(positives, total, positiveShare);
  if (kind === "negatives") return atLeast(negatives, total, negativeShare);
  if (total < positives + negatives) return 0;
  const unusable = share.present * (1 - usablePositives) + share.absent * (1 - usableNegatives);
  const tooFewPositives = short(positives, total, positiveShare);
  const tooFewNegatives = short(negatives, total, negativeShare);
  const overlap =
    Math.min(tooFewPositives, tooFewNegatives) < NEGLIGIBLE
      ? 0
      : bothShort(positives, negatives, total, { positiveShare, negativeShare, unusable });
  return Math.min(1, Math.max(0, 1 - tooFewPositives - tooFewNegatives + overlap));
}

const NEGLIGIBLE = 1e-16;

function atLeast(needed: number, total: number, share: number): number {
  return needed === 0 ? 1 : binomialCdf(needed - 1, total, share, "upper");
}

function short(needed: number, total: number, share: number): number {
  return needed === 0 ? 0 : binomialCdf(needed - 1, total, share, "lower");
}
