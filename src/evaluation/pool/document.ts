import * as v from "valibot";
import { bivariate } from "../../methods/pooling/bivariate.ts";
import { influence } from "../../methods/pooling/influence.ts";
import { smallStudy } from "../../methods/pooling/small-study.ts";
import { univariate } from "../../methods/pooling/univariate.ts";
import { PoolFileSchema } from "../../records/pool/pool-schema.ts";
import { Asked } from "../plan/asked.ts";
import { Count, Estimate, Notes, Proportion, Real, Share, Verdict } from "../schema/parts.ts";

/**
 * The pooling document: everything that is said of a table of studies, as plain data in full precision. Same files,
 * same bytes: fixed key order, no time stamp, no path of a machine. Where a number can't be had it is `null`, and a
 * note says why.
 */
const Label = v.pipe(v.string(), v.description("name of a study of the table"));
const Measure = v.picklist(["sensitivity", "specificity"]);

const StudySchema = v.strictObject({
  study: Label,
  level: v.pipe(v.nullable(v.string()), v.description("of the covariate; null: none, or not said")),
  truePositives: Count,
  falsePositives: Count,
  falseNegatives: Count,
  trueNegatives: Count,
  sensitivity: v.pipe(Proportion, v.description("in this study alone, exact limits")),
  specificity: v.pipe(Proportion, v.description("in this study alone, exact limits")),
});

const LeftOutSchema = v.strictObject({
  study: v.nullable(v.string()),
  row: v.pipe(Count, v.description("line of the table")),
  column: v.nullable(v.string()),
  expected: v.string(),
  received: v.string(),
});

/** What is said of one measure. */
const MeasureSchema = v.strictObject({
  summary: v.pipe(Estimate, v.description("at the middle of the studies")),
  prediction: v.pipe(Estimate, v.description("where the true value of a place not studied may lie")),
  betweenSd: v.pipe(Estimate, v.description("between-study standard deviation on the logit scale")),
  alikeP: v.pipe(Real, v.description("p-value of one true value in all studies")),
  together: v.pipe(Proportion, v.description("all people together, as if of one study; exact limits")),
});

const Where = v.strictObject({
  summary: v.pipe(Estimate, v.description("at the middle of the studies of this level")),
  prediction: v.pipe(
    Estimate,
    v.description(
      "where the true value of a place of this level may lie: t with studies less levels less 1 degrees of freedom",
    ),
  ),
});

/** What is said of the studies of one level of the covariate. */
const LevelSchema = v.strictObject({
  level: v.string(),
  studies: Count,
  sensitivity: Where,
  specificity: Where,
});

const CriterionSchema = v.strictObject({
  measure: Measure,
  atLeast: Share,
  source: v.string(),
  together: v.pipe(Verdict, v.description("all people together, as if of one study")),
  summary: v.pipe(Verdict, v.description("the middle of the studies, by its own limits")),
  newPlace: v.pipe(Verdict, v.description("a place not studied: the whole prediction interval decides")),
  chance: v.pipe(Real, v.description("that the true value of a place not studied reaches the criterion")),
  changedBy: v.pipe(v.array(Label), v.description("studies without which the summary's verdict is another")),
});

export const WARNINGS = [
  "no_summary",
  "not_converged",
  "boundary",
  "few_studies",
  "levels_differ",
  "studies_differ",
  "verdict_hangs_on_one",
  "left_out",
] as const;

export const PoolAnswerSchema = v.strictObject({
  basis: v.pipe(
    v.nullable(v.picklist(["bivariate", "univariate"])),
    v.description("the model behind the figures; univariate where the bivariate has none; null: neither"),
  ),
  sensitivity: MeasureSchema,
  specificity: MeasureSchema,
  correlation: v.pipe(Estimate, v.description("between-study correlation of the two logits")),
  levels: v.pipe(v.array(LevelSchema), v.description("of the covariate; none: no covariate, or no fit")),
  criteria: v.array(CriterionSchema),
  warnings: v.pipe(
    v.array(
      v.strictObject({
        code: v.picklist(WARNINGS),
        measures: v.array(Measure),
        message: v.pipe(v.string(), v.description("in words; empty where the figures say it")),
      }),
    ),
    v.description("what to know before the figures, gravest first"),
  ),
});

export const PoolingSchema = v.strictObject({
  format: v.literal("fourfold-pooling"),
  version: v.literal(1),
  software: v.pipe(v.string(), v.description("version of Fourfold that made this document")),
  provenance: v.strictObject({
    inputs: v.array(v.strictObject({ name: v.string(), bytes: Count, sha256: v.string() })),
    fileSha256: v.pipe(v.string(), v.description("hash of the pooling file, its table and their names")),
    methods: v.array(v.strictObject({ id: v.string(), version: Count })),
  }),
  file: PoolFileSchema,
  answer: PoolAnswerSchema,
  studies: v.array(StudySchema),
  leftOut: v.array(LeftOutSchema),
  bivariate: v.pipe(Asked(bivariate), v.description("all studies, binomial likelihood")),
  univariate: v.strictObject({ sensitivity: Asked(univariate), specificity: Asked(univariate) }),
  approximations: v.pipe(
    v.array(Asked(bivariate)),
    v.description("the same by normal approximations of the logits: full, then restricted likelihood"),
  ),
  influence: v.pipe(v.nullable(Asked(influence)), v.description("null: too many studies to leave each out")),
  covariate: v.pipe(
    v.nullable(Asked(bivariate)),
    v.description("the studies whose level is known, with a summary point per level; null: no covariate"),
  ),
  smallStudy: Asked(smallStudy),
  notes: Notes,
});

export type Pooling = v.InferOutput<typeof PoolingSchema>;
export type PoolAnswer = Pooling["answer"];
export type PooledMeasure = PoolAnswer["sensitivity"];
export type PoolWarning = PoolAnswer["warnings"][number];
export type JudgedCriterion = PoolAnswer["criteria"][number];
export type PooledLevel = PoolAnswer["levels"][number];
export type PooledStudy = Pooling["studies"][number];
export type PooledInfluence = NonNullable<Pooling["influence"]>;
export type PooledCovariate = NonNullable<NonNullable<Pooling["covariate"]>["values"]["covariate"]>;
export type PooledFit = Pooling["bivariate"];
