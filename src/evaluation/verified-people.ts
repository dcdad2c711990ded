import type { Pair, PairedSet, SetAside } from "../records/model.ts";
import { type Treatment, treatedRapid } from "../records/treatment.ts";

/** People with one result by what is known of their true state. */
export interface States {
  diseased: number;
  nondiseased: number;
  unverified: number;
}

/** People of one group of the strata that decide who is verified. */
export interface VerifiedGroup {
  readonly label: string;
  readonly reactive: States;
  readonly nonreactive: States;
}

/** `people` = all groups together + the sum of `setAside`. */
export interface VerifiedPeople {
  readonly people: number;
  readonly groups: readonly VerifiedGroup[];
  readonly setAside: readonly SetAside[];
}

type End =
  | { readonly result: "reactive" | "nonreactive"; readonly state: keyof States }
  | { readonly reason: Reason };

/** Why people are set aside, in the order in which they are told. */
const REASONS = [
  "rapid_not_done",
  "reference_indeterminate",
  "outside_window",
  "invalid",
  "invalid_unverified",
] as const;
type Reason = (typeof REASONS)[number];

/**
 * Counts people by kit result and by what is known of their true state, those without the reference test
 * included. An indeterminate reference is no want of verification: those people are set aside, as in the
 * fourfold table. Where invalid results count as results of some kind, so do those of unverified people; an
 * invalid result that counts as a failure does so only where the reference is known.
 */
export function verifiedPeople(
  set: PairedSet,
  treatment: Treatment,
  strata: readonly string[],
): VerifiedPeople {
  const groups = new Map<string, VerifiedGroup>();
  const reasons = new Map<Reason, number>();
  let people = 0;
  for (const pair of set.pairs) {
    people += pair.weight;
    const end = endOf(pair, treatment);
    if ("reason" in end) {
      reasons.set(end.reason, (reasons.get(end.reason) ?? 0) + pair.weight);
      continue;
    }
    const label = labelOf(pair, strata);
    const group = groups.get(label) ?? { label, reactive: nobody(), nonreactive: nobody() };
    groups.set(label, group);
    group[end.result][end.state] += pair.weight;
  }
  return {
    people,
    groups: [...groups.values()].sort((one, other) => (one.label < other.label ? -1 : 1)),
    setAside: REASONS.flatMap((reason) => {
      const count = reasons.get(reason);
      return count === undefined ? [] : [{ reason, people: count }];
    }),
  };
}

/** All groups as one. */
export function together(groups: readonly VerifiedGroup[]): Pick<VerifiedGroup, "reactive" | "nonreactive"> {
  const sum = { reactive: nobody(), nonreactive: nobody() };
  for (const group of groups) {
    for (const result of ["reactive", "nonreactive"] as const) {
      sum[result].diseased += group[result].diseased;
      sum[result].nondiseased += group[result].nondiseased;
      sum[result].unverified += group[result].unverified;
    }
  }
  return sum;
}

function nobody(): States {
  return { diseased: 0, nondiseased: 0, unverified: 0 };
}

export const EVERYBODY = "everybody";
export const NOT_RECORDED = "not recorded";

function labelOf(pair: Pair, strata: readonly string[]): string {
  if (strata.length === 0) return EVERYBODY;
  return strata.map((stratum) => pair.strata[stratum] ?? NOT_RECORDED).join(", ");
}

function endOf(pair: Pair, treatment: Treatment): End {
  const rapid = treatedRapid(pair, treatment);
  if (rapid === "not_done") return { reason: "rapid_not_done" };
  if (pair.reference === "indeterminate") return { reason: "reference_indeterminate" };
  if (rapid === "outside_window") return { reason: "outside_window" };
  const state = STATES[pair.reference];
  if (rapid !== "invalid") return { result: rapid, state };
  if (treatment.invalid === "set_aside") return { reason: "invalid" };
  if (treatment.invalid !== "failure") return { result: treatment.invalid, state };
  if (state === "unverified") return { reason: "invalid_unverified" };
  return { result: state === "diseased" ? "nonreactive" : "reactive", state };
}

const STATES = { positive: "diseased", negative: "nondiseased", not_done: "unverified" } as const;
