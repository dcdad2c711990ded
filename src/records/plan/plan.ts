import * as v from "valibot";
import { STUDY_INTERVALS } from "../../core/interval-names.ts";
import { Name, Words } from "../plain-fields.ts";
import { Decision, File } from "../study-fields.ts";
import {
  Alike,
  Costs,
  PlannedAgreement,
  PlannedAnalyte,
  PlannedComparison,
  PlannedCriterion,
  PlannedStopping,
  PlannedWidth,
  Power,
  Recruitment,
  Together,
  WhatIf,
} from "./plan-fields.ts";

/**
 * A plan: what is demanded of a kit, what is expected of it, and how people will come in. From it follow
 * how many people to enrol, and a study folder with the criteria already in it.
 */
export const PlanSchema = v.strictObject({
  format: v.pipe(v.literal("fourfold-plan/1"), v.description("what this file is, and its version")),
  id: v.pipe(Name, v.description("short name of the study that is planned")),
  title: Words,
  kit: v.optional(v.pipe(File, v.description("the kit file, copied into the study folder"))),
  analytes: v.pipe(v.array(PlannedAnalyte), v.minLength(1, "expected at least one analyte")),
  specimens: v.pipe(
    v.array(v.strictObject({ type: Name, title: Words })),
    v.minLength(1, "expected at least one specimen type"),
    v.description("specimen types analysed, the primary one first"),
  ),
  criteria: v.pipe(v.array(PlannedCriterion), v.minLength(1, "expected at least one criterion")),
  decision: v.optional(Decision, { control: "each" }),
  power: v.optional(
    v.pipe(
      Power,
      v.description("probability wanted that a criterion is met if the kit is as good as expected"),
    ),
    0.8,
  ),
  interval: v.strictObject({
    method: v.picklist(STUDY_INTERVALS),
    level: v.pipe(
      v.number(),
      v.gtValue(0.5, "expected a level above 0.5 and below 1"),
      v.ltValue(1, "expected a level above 0.5 and below 1"),
      v.description("confidence level"),
    ),
  }),
  alike: v.optional(Alike),
  together: v.optional(Together),
  recruitment: v.optional(Recruitment, {}),
  costs: v.optional(Costs),
  widths: v.optional(v.array(PlannedWidth), []),
  comparisons: v.optional(v.array(PlannedComparison), []),
  agreement: v.optional(v.array(PlannedAgreement), []),
  stopping: v.optional(v.array(PlannedStopping), []),
  what_if: v.optional(v.array(WhatIf), []),
  seed: v.optional(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(0xffffffff)), 1),
});

export type Plan = v.InferOutput<typeof PlanSchema>;
export type PlanCriterion = Plan["criteria"][number];
export type PlanComparison = Plan["comparisons"][number];
export type PlanStopping = Plan["stopping"][number];
