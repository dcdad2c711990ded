import type * as v from "valibot";
import { compute, type Method } from "../../core/method.ts";
import { taskNumber } from "../../core/random.ts";
import type { Plan, PlanCriterion } from "../../records/plan/plan.ts";
import { judgedBy } from "../criteria.ts";
import { type Carried, carried } from "./asked.ts";
import type { Group } from "./document.ts";
import { type PowerWanted, powersWanted } from "./powers.ts";

/** What every section of a planning works with: the plan, and one way to call a method. */
export interface PlanWorktop {
  readonly plan: Plan;
  /** Runs a method and remembers that it was used. */
  ask<Input extends v.GenericSchema, Options extends v.GenericSchema, Values extends v.GenericSchema>(
    method: Method<Input, Options, Values>,
    input: v.InferInput<Input>,
    options?: v.InferInput<Options>,
  ): Carried<v.InferOutput<Input>, v.InferOutput<Options>, v.InferOutput<Values>>;
  /** The power that a criterion is planned with, and how it is judged. */
  powerOf(criterion: PlanCriterion): PowerWanted;
  /** Seed of one random result: of the plan's seed and the place, so that no two share their draws. */
  seedOf(place: string): number;
  /** Every method used so far, by id. */
  used(): { id: string; version: number }[];
}

export function planWorktop(plan: Plan): PlanWorktop {
  const used = new Map<string, number>();
  const powers = powersWanted(plan);
  return {
    plan,
    ask(method, input, options) {
      used.set(method.id, method.version);
      return carried(compute(method, input, options));
    },
    powerOf: ({ id }) => powers.get(id) as PowerWanted,
    seedOf: (place) => (plan.seed ^ taskNumber(place)) >>> 0,
    used: () =>
      [...used].map(([id, version]) => ({ id, version })).sort((one, other) => (one.id < other.id ? -1 : 1)),
  };
}

/** Whose results a measure counts. */
export function groupOf(measure: PlanCriterion["measure"]): Group {
  if (measure === "invalid_rate") return "tested";
  return measure === "sensitivity" ? "positives" : "negatives";
}

/** How a criterion of a plan is judged, as options of the methods. */
export function criterionOptions(plan: Plan, criterion: PlanCriterion, level = plan.interval.level) {
  return judgedBy({ ...plan.interval, level }, criterion);
}

/** Share of the people enrolled who end with a usable pair of results, and of those who are tested at all. */
export function usableShares({ recruitment }: Plan): { readonly pair: number; readonly tested: number } {
  const { invalid, lost, unverified } = recruitment;
  return { pair: (1 - invalid) * (1 - lost) * (1 - unverified), tested: 1 - lost };
}
