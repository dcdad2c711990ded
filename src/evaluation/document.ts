import * as v from "valibot";
import { KitSchema } from "../records/kit.ts";
import { StudySchema } from "../records/study.ts";
import { AgreementSchema, ManyReadersSchema, RereadSchema } from "./schema/agreement.ts";
import { ClusteredSchema } from "./schema/clusters.ts";
import { ComparisonSchema } from "./schema/comparison.ts";
import { AssuranceSchema, DecisionSchema, TruePrevalenceSchema } from "./schema/decision.ts";
import { ExplorationSchema } from "./schema/exploration.ts";
import { IntensityComparisonSchema, IntensitySchema, PanelSchema } from "./schema/intensity.ts";
import { LatentClassSchema } from "./schema/latent-class.ts";
import { Count, Notes, Proportion } from "./schema/parts.ts";
import { PooledSchema } from "./schema/pooling.ts";
import { DiscrepantSchema, ReferenceErrorsSchema, VerificationSchema } from "./schema/reference.ts";
import { ReferenceWarningSchema } from "./schema/reference-warnings.ts";
import {
  AccuracySchema,
  AnswerSchema,
  FlowSchema,
  InterpretationSchema,
  InvalidSchema,
  JointSchema,
  PredictiveSchema,
  ReadingTimeSchema,
  SubgroupSchema,
} from "./schema/sections.ts";
import { WarningSchema } from "./schema/warnings.ts";

/**
 * The evaluation document: everything the report says, as plain data in full precision. Same inputs
 * and plan give the same bytes: fixed key order, no time stamp, no path of a machine.
 */
const AlarmSchema = v.strictObject({
  code: v.string(),
  count: Count,
  total: v.nullable(Count),
  subjects: v.array(v.string()),
});

const IssueSchema = v.strictObject({
  rule: v.string(),
  severity: v.picklist(["error", "warning", "note"]),
  file: v.string(),
  row: v.nullable(Count),
  column: v.nullable(v.string()),
  expected: v.string(),
  received: v.string(),
  consequence: v.picklist(["row_set_aside", "value_ignored", "kept"]),
});

const QueriesSchema = v.strictObject({
  total: Count,
  groups: v.array(
    v.strictObject({
      rule: v.string(),
      severity: v.picklist(["error", "warning", "note"]),
      file: v.string(),
      consequence: v.picklist(["row_set_aside", "value_ignored", "kept"]),
      count: Count,
      examples: v.pipe(v.array(IssueSchema), v.description("the first few, in file order")),
    }),
  ),
  ledger: v.array(
    v.strictObject({
      file: v.string(),
      rows: Count,
      analysed: Count,
      setAside: v.array(v.strictObject({ reason: v.string(), rows: Count })),
    }),
  ),
});

const ParticipantsSchema = v.strictObject({
  enrolled: Count,
  devices: Count,
  readings: Count,
  operators: Count,
  repeats: Count,
  lineWithoutControl: Count,
  lots: v.array(v.string()),
  firstResultOn: v.nullable(v.string()),
  lastResultOn: v.nullable(v.string()),
  bySite: v.array(
    v.strictObject({
      site: v.string(),
      people: Count,
      referencePositive: v.array(v.strictObject({ analyte: v.string(), proportion: Proportion })),
    }),
  ),
  bySelection: v.array(
    v.strictObject({
      selection: v.string(),
      people: Count,
      referencePositive: v.array(v.strictObject({ analyte: v.string(), proportion: Proportion })),
    }),
  ),
});

export const EvaluationSchema = v.strictObject({
  format: v.literal("fourfold-evaluation"),
  version: v.literal(1),
  software: v.pipe(v.string(), v.description("version of Fourfold that made this document")),
  provenance: v.strictObject({
    inputs: v.array(
      v.strictObject({ name: v.string(), bytes: Count, sha256: v.string(), rows: v.nullable(Count) }),
    ),
    planSha256: v.pipe(v.string(), v.description("hash of study file and kit file together")),
    dataSha256: v.pipe(v.string(), v.description("hash of all tables together")),
    methods: v.array(v.strictObject({ id: v.string(), version: Count })),
  }),
  study: StudySchema,
  kits: v.pipe(v.array(KitSchema), v.minLength(1), v.description("the main kit first")),
  answers: v.array(AnswerSchema),
  alarms: v.array(AlarmSchema),
  participants: ParticipantsSchema,
  flows: v.array(FlowSchema),
  queries: QueriesSchema,
  accuracy: v.pipe(v.array(AccuracySchema), v.description("primary analysis; the main cell first")),
  joint: v.array(JointSchema),
  invalid: v.array(InvalidSchema),
  subgroups: v.array(SubgroupSchema),
  predictive: v.array(PredictiveSchema),
  readingTime: v.array(ReadingTimeSchema),
  interpretations: v.array(InterpretationSchema),
  rereadings: v.array(RereadSchema),
  agreement: v.array(AgreementSchema),
  manyReaders: v.array(ManyReadersSchema),
  comparisons: v.array(ComparisonSchema),
  clustered: v.array(ClusteredSchema),
  decision: v.nullable(DecisionSchema),
  assurance: v.array(AssuranceSchema),
  truePrevalence: v.array(TruePrevalenceSchema),
  /** The next five came later: documents without them are read as having none. */
  referenceErrors: v.optional(v.array(ReferenceErrorsSchema), []),
  verification: v.optional(v.array(VerificationSchema), []),
  discrepant: v.optional(v.nullable(DiscrepantSchema), null),
  latentClass: v.optional(v.array(LatentClassSchema), []),
  referenceWarnings: v.optional(v.array(ReferenceWarningSchema), []),
  /** Came later too: documents without it keep to the study's plan. */
  exploration: v.optional(
    v.pipe(v.nullable(ExplorationSchema), v.description("what differs from the stated plan; null: nothing")),
    null,
  ),
  /** The next five came later still: documents without them are read as having none. */
  pooled: v.optional(v.array(PooledSchema), []),
  intensities: v.optional(v.array(IntensitySchema), []),
  intensityComparisons: v.optional(v.array(IntensityComparisonSchema), []),
  panels: v.optional(v.array(PanelSchema), []),
  warnings: v.optional(v.array(WarningSchema), []),
  notes: Notes,
});

export type Evaluation = v.InferOutput<typeof EvaluationSchema>;
export type Answer = Evaluation["answers"][number];
export type Accuracy = Evaluation["accuracy"][number];
export type Flow = Evaluation["flows"][number];
export type Joint = Evaluation["joint"][number];
export type Invalid = Evaluation["invalid"][number];
export type Subgroup = Evaluation["subgroups"][number];
export type Predictive = Evaluation["predictive"][number];
export type ReadingTime = Evaluation["readingTime"][number];
export type Interpretation = Evaluation["interpretations"][number];
export type Reread = Evaluation["rereadings"][number];
export type Agreement = Evaluation["agreement"][number];
export type ManyReaders = Evaluation["manyReaders"][number];
export type Comparison = Evaluation["comparisons"][number];
export type Clustered = Evaluation["clustered"][number];
export type Decision = NonNullable<Evaluation["decision"]>;
export type Assurance = Evaluation["assurance"][number];
export type TruePrevalence = Evaluation["truePrevalence"][number];
export type ReferenceErrors = Evaluation["referenceErrors"][number];
export type Verification = Evaluation["verification"][number];
export type Discrepant = NonNullable<Evaluation["discrepant"]>;
export type LatentClass = Evaluation["latentClass"][number];
export type ReferenceWarning = Evaluation["referenceWarnings"][number];
export type Pooled = Evaluation["pooled"][number];
export type Intensity = Evaluation["intensities"][number];
export type IntensityComparison = Evaluation["intensityComparisons"][number];
export type Panel = Evaluation["panels"][number];
export type Warning = Evaluation["warnings"][number];
