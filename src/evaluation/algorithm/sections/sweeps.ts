import { InputError } from "../../../core/input-error.ts";
import { recompute } from "../../../methods/algorithms/at-prevalences.ts";
import type { Dependence } from "../../../methods/algorithms/fields.ts";
import {
  type FollowedAlgorithm as Followed,
  followAlgorithm,
  layOut,
} from "../../../methods/algorithms/followed.ts";
import type { PathPlan } from "../../../methods/algorithms/path-outcomes.ts";
import type { DependenceSweep, FollowedAlgorithm } from "../document.ts";
import { type RunTogether, runTogether } from "../follow.ts";
import { boundsOf } from "../pairs.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { mostSteps } from "./uncertainty.ts";

/** Values looked at, from none to the most. */
const VALUES = 21;
/** Standard deviations of the shared effect looked at: beyond it hardly anything changes. */
const MOST_SPREAD = 3;
/** The most runs of one person with which pairs are followed so often. */
const MOST_RUNS = 4;

type Truth = "diseased" | "nondiseased";

/** How the answer changes with the dependence, for every algorithm and channel, all else as stated. */
export function sweepsOf(worktop: AlgorithmWorktop): DependenceSweep[] {
  return worktop.followed.flatMap((followed) => {
    const pairs = runTogether(worktop.file, followed);
    if (pairs.length === 0) return [];
    if (worktop.file.dependence?.kind === "shared") return overSpread(worktop, followed);
    if (mostSteps(followed) > MOST_RUNS) return [];
    return pairs
      .filter(({ first, second }) => first !== second)
      .flatMap((pair) => overPhi(worktop, followed, pair));
  });
}

function overPhi(
  worktop: AlgorithmWorktop,
  followed: FollowedAlgorithm,
  pair: RunTogether,
): DependenceSweep[] {
  const { analyte } = followed;
  const all = pairsDependence(worktop, followed);
  const stated = all.pairs.find((one) => one.first === pair.first && one.second === pair.second);
  const bounds = boundsOf(worktop.file, analyte, pair.first, pair.second);
  const values = (truth: Truth) => spaced(0, bounds[truth].most);
  return swept(worktop, followed, values, (truth, value) => ({
    kind: "pairs",
    pairs: all.pairs.map((one) => (one === stated ? { ...one, [truth]: value } : one)),
  })).map((sweep) => ({
    channel: sweep.channel,
    algorithm: followed.algorithm,
    over: "phi",
    first: pair.first,
    second: pair.second,
    stated: { diseased: stated?.diseased ?? 0, nondiseased: stated?.nondiseased ?? 0 },
    nondiseased: sweep.nondiseased,
    diseased: sweep.diseased,
  }));
}

/** What is stated by pairs; independence as pairs of no correlation. */
export function pairsDependence(worktop: AlgorithmWorktop, followed: FollowedAlgorithm) {
  const stated = worktop.dependenceOf([followed]);
  if (stated.kind === "pairs") return stated;
  const pairs = runTogether(worktop.file, followed).map((pair) => ({ ...pair, diseased: 0, nondiseased: 0 }));
  return { kind: "pairs" as const, pairs };
}

function overSpread(worktop: AlgorithmWorktop, followed: FollowedAlgorithm): DependenceSweep[] {
  const stated = worktop.dependenceOf([followed]);
  if (stated.kind !== "shared") return [];
  return swept(
    worktop,
    followed,
    () => spaced(0, MOST_SPREAD),
    (truth, value) => ({
      ...stated,
      [truth]: { spread: value },
    }),
  ).map((sweep) => ({
    channel: sweep.channel,
    algorithm: followed.algorithm,
    over: "spread",
    first: null,
    second: null,
    stated: { diseased: stated.diseased.spread, nondiseased: stated.nondiseased.spread },
    nondiseased: sweep.nondiseased,
    diseased: sweep.diseased,
  }));
}

const spaced = (from: number, to: number) =>
  Array.from({ length: VALUES }, (_, at) => from + ((to - from) * at) / (VALUES - 1));

type Swept = Pick<DependenceSweep, "channel" | "nondiseased" | "diseased">;

function swept(
  worktop: AlgorithmWorktop,
  followed: FollowedAlgorithm,
  values: (truth: Truth) => readonly number[],
  dependence: (truth: Truth, value: number) => Dependence,
): Swept[] {
  const { analyte, kits, steps } = followed;
  const known = new Map<string, Followed | null>();
  return worktop.file.channels.map((channel) => {
    const retest = worktop.retestOf(followed, channel);
    const plan = layOut(worktop.kitsOf(analyte, kits), { steps: [...steps], retest });
    const prevalence = worktop.prevalenceOf(channel, analyte);
    const at = (truth: Truth) =>
      values(truth).flatMap((value) => {
        const key = `${retest?.share ?? "none"} ${truth} ${value}`;
        const found = known.get(key) ?? followedOrNot(plan, dependence(truth, value));
        known.set(key, found);
        const [line] = found === null ? [] : recompute(found, [prevalence]);
        return found === null || line === undefined ? [] : [{ value, line, found }];
      });
    return {
      channel: channel.id,
      nondiseased: at("nondiseased").map(({ value, line }) => ({
        value,
        ppv: line.ppv,
        falsePositives: line.perPeople.falsePositives ?? 0,
      })),
      diseased: at("diseased").map(({ value, line, found }) => ({
        value,
        sensitivity: found.diseased.positive,
        missed: line.perPeople.missed ?? 0,
      })),
    };
  });
}

/** `null` where the correlations can't hold together any more. */
export function followedOrNot(plan: PathPlan, dependence: Dependence): Followed | null {
  try {
    return followAlgorithm(plan, dependence);
  } catch (error) {
    if (error instanceof InputError) return null;
    throw error;
  }
}
