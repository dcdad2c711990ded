import { binomialCdf } from "../../numeric/binomial.ts";
import { bothShort } from "./both-short.ts";
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
