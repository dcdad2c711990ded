import { betaExcess, logBetaKernel } from "../../numeric/beta-kernel.ts";
import { betaQuantilePair } from "../../numeric/beta-quantile.ts";
import { logBetaScale } from "../../numeric/gamma-function.ts";
import { gaussLegendre } from "../../numeric/gauss-legendre.ts";
import { betaTail } from "../../numeric/incomplete-beta.ts";
import type { BetaShape } from "../decision/beta-binomial.ts";
import { chanceAt, type EnrolmentQuestion, type Kind, type Share } from "./chance-at-prevalence.ts";

/** Chances this near to 0 or 1 are taken as such, and so much of the beta distribution is left out. */
const NOTHING = 1e-15;
/** Log odds beyond which a proportion can't be told from 0 or 1. */
const FARTHEST = 600;
const RULE = gaussLegendre(24);
/** A stretch of the log odds is cut into so many pieces or more, none longer than this. */
const FEWEST_PIECES = 3;
const LONGEST_PIECE = 3;

/** From where to where, in log odds, something is neither as good as 0 nor as good as 1. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * The mean of the chance over a beta distributed prevalence, to about 1e-12.
 *
 * In the log odds the beta density is smooth for any shape. The chance of enough positives climbs from 0 to 1,
 * that of enough negatives falls from 1 to 0, each within a short stretch known from beta quantiles: only there
 * is anything integrated (Gauss and Legendre); between them the beta distribution itself gives the part.
 */
export function averagedOverBeta(
  kind: Kind,
  question: EnrolmentQuestion,
  shape: BetaShape,
  total: number,
): number {
  const rise = kind === "negatives" ? ALWAYS : riseOf(question.positives, question.usablePositives, total);
  const fall = kind === "positives" ? ALWAYS : riseOf(question.negatives, question.usableNegatives, total);
  if (rise === null || fall === null) return 0;
  const support = stretchOf(shape.a, shape.b);
  const falling = { from: -fall.to, to: -fall.from };
  const ends = [support.from, support.to, rise.from, rise.to, falling.from, falling.to]
    .filter((end) => end >= support.from && end <= support.to)
    .sort((a, b) => a - b);
  let sum = 0;
  for (let at = 1; at < ends.length; at += 1) {
    const [from, to] = [ends[at - 1] as number, ends[at] as number];
    if (to === from) continue;
    const middle = (from + to) / 2;
    if (middle < rise.from || middle > falling.to) continue;
    if (middle > rise.to && middle < falling.from) sum += massBetween(from, to, shape, support);
    else sum += integral(from, to, shape, (share) => chanceAt(kind, question, total, share));
  }
  return Math.min(1, Math.max(0, sum));
}

/** Enough whatever the prevalence. */
const ALWAYS: Stretch = { from: Number.NEGATIVE_INFINITY, to: Number.NEGATIVE_INFINITY };

/**
 * Where the chance of enough people of a kind climbs, as a function of the log odds of that kind. At least
 * `needed` of a total come with a share q as probably as a beta variable of these shapes is below q. `null` where
 * it never climbs.
 */
function riseOf(needed: number, usable: number, total: number): Stretch | null {
  if (needed === 0) return ALWAYS;
  if (needed > total || usable === 0) return null;
  const [a, b] = [needed, total - needed + 1];
  const place = (tail: "lower" | "upper") => {
    const { x, complement } = betaQuantilePair(NOTHING, a, b, tail);
    // The share among the enrolled, divided by the usable share, is the prevalence.
    const absent = usable - 1 + complement;
    return absent > 0 ? clamp(Math.log(x / absent)) : FARTHEST;
  };
  return { from: place("lower"), to: place("upper") };
}

function stretchOf(a: number, b: number): Stretch {
  const logOdds = (tail: "lower" | "upper") => {
    const { x, complement } = betaQuantilePair(NOTHING, a, b, tail);
    return clamp(Math.log(x) - Math.log(complement));
  };
  return { from: logOdds("lower"), to: logOdds("upper") };
}

function clamp(logOdds: number): number {
  return Math.min(FARTHEST, Math.max(-FARTHEST, logOdds));
}

function shareAt(logOdds: number): Share {
  return { present: 1 / (1 + Math.exp(-logOdds)), absent: 1 / (1 + Math.exp(logOdds)) };
}

/** The beta distribution's part of a stretch; what lies beyond its ends is counted with it. */
function massBetween(from: number, to: number, { a, b }: BetaShape, support: Stretch): number {
  const tail = (logOdds: number, side: "lower" | "upper") => {
    const { present, absent } = shareAt(logOdds);
    return betaTail(a, b, present, absent, side);
  };
  const under = from === support.from ? 0 : tail(from, "lower");
  const over = to === support.to ? 0 : tail(to, "upper");
  return Math.max(0, 1 - under - over);
}

function integral(from: number, to: number, { a, b }: BetaShape, chance: (share: Share) => number): number {
  const pieces = Math.max(FEWEST_PIECES, Math.ceil((to - from) / LONGEST_PIECE));
  const half = (to - from) / pieces / 2;
  const scale = logBetaScale(a, b);
  let sum = 0;
  for (let piece = 0; piece < pieces; piece += 1) {
    const centre = from + (2 * piece + 1) * half;
    for (const [at, node] of RULE.nodes.entries()) {
      const share = shareAt(centre + half * node);
      const excess = betaExcess(a, b, share.present, share.absent);
      const density = Math.exp(logBetaKernel(a, b, scale, share.present, share.absent, excess));
      if (density > 0) sum += (RULE.weights[at] as number) * half * density * chance(share);
    }
  }
  return sum;
}
