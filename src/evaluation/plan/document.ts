import * as v from "valibot";
import { planningClusteredSize } from "../../methods/planning/clustered-size.ts";
import { planningCriterionPower } from "../../methods/planning/criterion-power.ts";
import { planningCriterionSize } from "../../methods/planning/criterion-size.ts";
import { planningEffort } from "../../methods/planning/effort.ts";
import { planningEnrolment } from "../../methods/planning/enrolment.ts";
import { planningGroupSequential } from "../../methods/planning/group-sequential.ts";
import { jointPower } from "../../methods/planning/joint-power.ts";
import { jointSize } from "../../methods/planning/joint-size.ts";
import { planningKappa } from "../../methods/planning/kappa.ts";
import { planningNoFailures } from "../../methods/planning/no-failures.ts";
import { planningPairedDifference } from "../../methods/planning/paired-difference.ts";
import { planningPairedNoninferiority } from "../../methods/planning/paired-noninferiority.ts";
import { planningPrecision } from "../../methods/planning/precision.ts";
import { planningPrecisionNormal } from "../../methods/planning/precision-normal.ts";
import { planningStoppingRule } from "../../methods/planning/stopping-rule.ts";
import { planningTwoStage } from "../../methods/planning/two-stage.ts";
import { planningUnpairedDifference } from "../../methods/planning/unpaired-difference.ts";
import { planningUnpairedNoninferiority } from "../../methods/planning/unpaired-noninferiority.ts";
import { whatIf } from "../../methods/planning/what-if.ts";
import { PlanSchema } from "../../records/plan/plan.ts";
import { Count, Measure, Notes, Real, Share } from "../schema/parts.ts";
import { Asked } from "./asked.ts";

/**
 * The planning document: everything that is said of a plan, as plain data in full precision. Same plan, same
 * bytes: fixed key order, no time stamp, no path of a machine. Where something can't be planned its number is
 * `null`, and a note beside it says what to change.
 */
const GROUPS = ["positives", "negatives", "tested"] as const;
const Of = v.pipe(
  v.picklist(GROUPS),
  v.description(
    "positives, negatives: by the reference, with a usable pair of results; tested: everybody tested",
  ),
);
const Id = v.pipe(v.string(), v.description("id of a criterion, width or comparison of the plan"));
const People = v.nullable(Count);

/** How many of one kind are needed, and what asks for so many. */
const NeedSchema = v.strictObject({
  needed: v.pipe(
    People,
    v.description(
      "people of that kind with the kit that is planned for; null: nothing that can be planned asks for any",
    ),
  ),
  because: v.pipe(v.nullable(Id), v.description("what asks for so many")),
});

const AnswerSchema = v.strictObject({
  enrol: v.pipe(
    People,
    v.description("people to enrol: the most that any analyte asks for, and those with other kits besides"),
  ),
  assurance: v.pipe(Share, v.description("probability that so many bring enough of each kind")),
  assuredTogether: v.pipe(
    v.nullable(Share),
    v.description("the least probability that so many are enough for all analytes at once"),
  ),
  beside: v.pipe(
    v.array(v.strictObject({ kit: v.string(), comparisons: v.array(v.string()), enrol: People })),
    v.description(
      "people of `enrol` who get the second kit of an unpaired comparison, and count for nothing else",
    ),
  ),
  deciding: v.nullable(v.strictObject({ analyte: v.string(), of: Of, because: Id })),
  byAnalyte: v.array(
    v.strictObject({
      analyte: v.string(),
      positives: NeedSchema,
      negatives: NeedSchema,
      tested: NeedSchema,
      enrol: People,
    }),
  ),
  criteria: v.strictObject({ planned: Count, out: v.array(v.string()) }),
  out: v.pipe(v.array(Id), v.description("widths and comparisons that can't be planned")),
  jointPower: v.pipe(
    v.nullable(v.strictObject({ stated: Real, independent: Real, lowest: Real, highest: Real })),
    v.description("probability that all primary criteria are met at the numbers needed"),
  ),
  days: v.pipe(Real, v.description("working days until all are enrolled, at the assurance")),
  cost: v.pipe(Real, v.description("cost with the days expected, in the plan's own money")),
});

/** Why a criterion is planned with the power it has. */
const POWER_REASONS = ["own", "shared_independent", "shared_guaranteed", "holm"] as const;
const CriterionSchema = v.strictObject({
  criterion: v.string(),
  analyte: v.string(),
  measure: Measure,
  of: Of,
  power: v.pipe(Share, v.description("power wanted for this criterion alone")),
  why: v.picklist(POWER_REASONS),
  size: Asked(planningCriterionSize),
  atSize: v.nullable(Asked(planningCriterionPower)),
  noFailures: v.nullable(Asked(planningNoFailures)),
  curve: v.array(v.strictObject({ total: Count, needed: People, power: Share })),
  clustered: v.nullable(Asked(planningClusteredSize)),
  needed: v.pipe(People, v.description("people of that kind, clusters allowed for")),
  notes: Notes,
});

const WidthSchema = v.strictObject({
  width: v.string(),
  analyte: v.string(),
  of: Of,
  size: Asked(planningPrecision),
  clustered: v.nullable(Asked(planningClusteredSize)),
  needed: People,
  notes: Notes,
});

const EnrolmentSchema = v.strictObject({
  analyte: v.string(),
  needed: v.strictObject({ positives: Count, negatives: Count, tested: Count }),
  enrolment: v.nullable(Asked(planningEnrolment)),
  forTested: v.pipe(People, v.description("people to enrol for enough who are tested, at the assurance")),
  curve: v.pipe(
    v.array(v.strictObject({ total: Count, chance: Share })),
    v.description("probability that so many enrolled bring enough positives and negatives"),
  ),
  notes: Notes,
});

const TogetherSchema = v.strictObject({
  criteria: v.pipe(v.array(v.string()), v.description("the primary criteria that must all be met")),
  size: v.nullable(Asked(jointSize)),
  pairs: v.array(
    v.strictObject({
      measure: v.picklist(["sensitivity", "specificity"]),
      first: v.string(),
      second: v.string(),
      shared: v.pipe(Count, v.description("people expected in both totals")),
      power: Asked(jointPower),
    }),
  ),
  notes: Notes,
});

const ComparisonSchema = v.strictObject({
  comparison: v.string(),
  analyte: v.string(),
  of: Of,
  kind: v.picklist(["difference", "noninferiority"]),
  design: v.picklist(["paired", "unpaired"]),
  pairedDifference: v.nullable(Asked(planningPairedDifference)),
  pairedNoninferiority: v.nullable(Asked(planningPairedNoninferiority)),
  unpairedDifference: v.nullable(Asked(planningUnpairedDifference)),
  unpairedNoninferiority: v.nullable(Asked(planningUnpairedNoninferiority)),
  clustered: v.pipe(
    v.array(Asked(planningClusteredSize)),
    v.description("none; or one for the pairs; or one for each of two groups"),
  ),
  groups: v.nullable(v.strictObject({ first: Count, second: Count })),
  needed: v.pipe(People, v.description("people of that kind; unpaired: of both groups together")),
  enrolment: v.pipe(
    v.nullable(Asked(planningEnrolment)),
    v.description("unpaired: people to enrol for the second group"),
  ),
  notes: Notes,
});

const StoppingSchema = v.strictObject({
  stopping: v.string(),
  criterion: v.string(),
  twoStage: v.nullable(Asked(planningTwoStage)),
  groupSequential: v.nullable(Asked(planningGroupSequential)),
  confirmed: v.array(
    v.strictObject({
      name: v.picklist(["smallestExpected", "minimax", "sequential"]),
      rule: Asked(planningStoppingRule),
    }),
  ),
});

export const PlanningSchema = v.strictObject({
  format: v.literal("fourfold-planning"),
  version: v.literal(1),
  software: v.pipe(v.string(), v.description("version of Fourfold that made this document")),
  provenance: v.strictObject({
    inputs: v.array(v.strictObject({ name: v.string(), bytes: Count, sha256: v.string() })),
    planSha256: v.pipe(v.string(), v.description("hash of plan file and kit file together")),
    methods: v.array(v.strictObject({ id: v.string(), version: Count })),
  }),
  plan: PlanSchema,
  answer: AnswerSchema,
  criteria: v.array(CriterionSchema),
  widths: v.array(WidthSchema),
  normalSizes: v.array(v.strictObject({ analyte: v.string(), size: Asked(planningPrecisionNormal) })),
  enrolment: v.array(EnrolmentSchema),
  together: v.nullable(TogetherSchema),
  comparisons: v.array(ComparisonSchema),
  agreement: v.array(v.strictObject({ agreement: v.string(), size: Asked(planningKappa) })),
  stopping: v.array(StoppingSchema),
  whatIf: v.array(v.strictObject({ criterion: v.string(), grid: Asked(whatIf) })),
  effort: v.nullable(Asked(planningEffort)),
  notes: Notes,
});

export type Planning = v.InferOutput<typeof PlanningSchema>;
export type PlanAnswer = Planning["answer"];
export type CriterionPlan = Planning["criteria"][number];
export type WidthPlan = Planning["widths"][number];
export type NormalSize = Planning["normalSizes"][number];
export type EnrolmentPlan = Planning["enrolment"][number];
export type TogetherPlan = NonNullable<Planning["together"]>;
export type ComparisonPlan = Planning["comparisons"][number];
export type AgreementPlan = Planning["agreement"][number];
export type StoppingPlan = Planning["stopping"][number];
export type WhatIfPlan = Planning["whatIf"][number];
export type EffortPlan = NonNullable<Planning["effort"]>;
export type Group = (typeof GROUPS)[number];
