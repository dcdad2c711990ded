import { demand } from "../core/check.ts";
import { SOFTWARE_VERSION } from "../core/version.ts";
import type { PairedSet, StudyRecords } from "../records/model.ts";
import { kitFilesOf } from "../records/study.ts";
import { STUDY_FILE } from "../records/study-file.ts";
import { evaluatedSets } from "./cells.ts";
import { digestOfFiles } from "./digest.ts";
import { type Evaluation, EvaluationSchema } from "./document.ts";
import { isShown } from "./exploration/shown.ts";
import { CURRENT_VERSION } from "./migrations.ts";
import { readDevices } from "./read-devices.ts";
import type { Exploration } from "./schema/exploration.ts";
import { accuracySection } from "./sections/accuracy.ts";
import { agreementSection } from "./sections/agreement.ts";
import { answersSection } from "./sections/answers.ts";
import { assuranceSection } from "./sections/assurance.ts";
import { clusteredSection } from "./sections/clustered.ts";
import { comparisonsSection } from "./sections/comparisons.ts";
import { decisionSection } from "./sections/decision.ts";
import { discrepantSection } from "./sections/discrepant.ts";
import { flowSection } from "./sections/flow.ts";
import { intensitiesSection } from "./sections/intensities.ts";
import { intensityComparisonsSection } from "./sections/intensity-comparisons.ts";
import { interpretationSection } from "./sections/interpretation.ts";
import { invalidSection } from "./sections/invalid.ts";
import { jointSection } from "./sections/joint.ts";
import { latentClassSection } from "./sections/latent-class.ts";
import { manyReadersSection } from "./sections/many-readers.ts";
import { panelsSection } from "./sections/panels.ts";
import { participantsSection } from "./sections/participants.ts";
import { pooledSection } from "./sections/pooled.ts";
import { predictiveSection } from "./sections/predictive.ts";
import { queriesSection } from "./sections/queries.ts";
import { readingTimeSection } from "./sections/reading-time.ts";
import { referenceErrorsSection } from "./sections/reference-errors.ts";
import { referenceWarnings } from "./sections/reference-warnings.ts";
import { rereadingsSection } from "./sections/rereadings.ts";
import { subgroupsSection } from "./sections/subgroups.ts";
import { truePrevalenceSection } from "./sections/true-prevalence.ts";
import { verificationSection } from "./sections/verification.ts";
import { fieldWarnings } from "./sections/warnings.ts";
import { type Worktop, worktopFor } from "./worktop.ts";

/** A file that went in. The hash is the caller's business: SHA-256, 64 hexadecimal digits. */
export interface EvaluationInput {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
  /** Rows below the header; `null` where the file is no table. */
  readonly rows: number | null;
}

/**
 * Everything the report says of a study, as plain data in full precision: the plan of the study file
 * carried out on its records. Pure: the same records and inputs give the same document, byte for byte.
 *
 * Cells (analyte, kit, specimen type, reader) stand in the order of the study file, so that the primary
 * specimen type and reader come first. The document is held against its own schema before it is
 * handed out, which also puts the keys in their one order.
 *
 * @param exploration what of the records' study differs from its stated plan, as `readExplored` gives it
 */
export function evaluate(
  records: StudyRecords,
  inputs: readonly EvaluationInput[],
  exploration: Exploration | null = null,
): Evaluation {
  const worktop = worktopFor(records);
  const sets = evaluatedSets(records);
  const read = readDevices(records);
  const shown = records.study.strata.filter(({ id }) => isShown(exploration, id));
  const answers = answersSection(worktop, sets);
  const accuracy = sets.map((set) => accuracySection(worktop, set));
  const sections = {
    answers,
    alarms: records.alarms.map((alarm) => ({ ...alarm, subjects: [...alarm.subjects] })),
    participants: participantsSection(worktop, sets),
    flows: sets.map((set) => flowSection(worktop, set)),
    queries: queriesSection(records),
    accuracy,
    joint: jointSection(worktop, sets),
    invalid: sets.map((set) => invalidSection(worktop, set)),
    subgroups: sets.flatMap((set) => subgroupsSection(worktop, set, shown)),
    predictive: sets.map((set) => predictiveSection(worktop, set)),
    readingTime: sets.flatMap((set) => readingTimeSection(worktop, set) ?? []),
    interpretations: interpretationSection(worktop),
    rereadings: rereadingsSection(worktop),
    agreement: agreementSection(worktop, read),
    manyReaders: manyReadersSection(worktop, read),
    comparisons: comparisonsSection(worktop, sets),
    clustered: clusteredSection(worktop, sets),
    decision: decisionSection(worktop, answers),
    assurance: assuranceSection(worktop, answers),
    truePrevalence: truePrevalenceSection(worktop, sets),
    ...doubtsOfReference(worktop, sets, { answers, accuracy }),
    ...fieldMeasures(worktop, sets, answers),
  };
  const document = {
    format: "fourfold-evaluation",
    version: CURRENT_VERSION,
    software: SOFTWARE_VERSION,
    provenance: provenance(worktop, inputs),
    study: records.study,
    kits: records.kits,
    ...sections,
    exploration,
  };
  return demand(EvaluationSchema, document, "evaluation");
}

/** How much the reference matters: nothing of it costs anything where the study file and the records say nothing. */
function doubtsOfReference(
  worktop: Worktop,
  sets: readonly PairedSet[],
  { answers, accuracy }: Pick<Evaluation, "answers" | "accuracy">,
) {
  const referenceErrors = referenceErrorsSection(worktop, sets, answers);
  const found = {
    referenceErrors,
    verification: verificationSection(worktop, sets, answers),
    discrepant: discrepantSection(worktop, accuracy, referenceErrors),
    latentClass: latentClassSection(worktop),
  };
  return { ...found, referenceWarnings: referenceWarnings(found) };
}

/** Groups pooled, instruments and panels: nothing of it costs anything where the study file names none. */
function fieldMeasures(worktop: Worktop, sets: readonly PairedSet[], answers: Evaluation["answers"]) {
  const pooled = pooledSection(worktop, sets, answers);
  const { cells, intensities, notes } = intensitiesSection(worktop, sets);
  const panels = panelsSection(worktop);
  return {
    pooled,
    intensities,
    intensityComparisons: intensityComparisonsSection(worktop, cells),
    panels,
    warnings: fieldWarnings(worktop, { pooled, intensities, panels }),
    notes: [...notes],
  };
}

/** Methods are asked for last, when all have been used. */
function provenance(worktop: Worktop, inputs: readonly EvaluationInput[]): Evaluation["provenance"] {
  const plan = [STUDY_FILE, ...kitFilesOf(worktop.study)];
  const isPlan = ({ name }: EvaluationInput) => plan.includes(name);
  return {
    inputs: inputs.map(({ name, bytes, sha256, rows }) => ({ name, bytes, sha256, rows })),
    planSha256: digestOfFiles(inputs.filter(isPlan)),
    dataSha256: digestOfFiles(inputs.filter((input) => !isPlan(input))),
    methods: worktop.used(),
  };
}
