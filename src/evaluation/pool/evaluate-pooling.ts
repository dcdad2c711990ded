import { demand } from "../../core/check.ts";
import { SOFTWARE_VERSION } from "../../core/version.ts";
import type { PoolRead } from "../../records/pool/parse-pool.ts";
import type { PoolStudy } from "../../records/pool/read-studies.ts";
import { digestOfFiles } from "../digest.ts";
import { type PooledStudy, type Pooling, PoolingSchema } from "./document.ts";
import { answerSection } from "./sections/answer.ts";
import { modelsSection } from "./sections/models.ts";
import { notesOn } from "./sections/notes.ts";
import { poolWorktop } from "./worktop.ts";

/** A file that went in. The hash is the caller's business: SHA-256, 64 hexadecimal digits. */
export interface PoolInput {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

/**
 * Everything that follows from a table of studies, as plain data in full precision: both measures at the middle of the
 * studies and in a place not studied, by a bivariate model of the counts; beside it each measure by itself and the
 * usual approximations; the summary without each study; what tells studies apart; whether small studies are more
 * favourable. Pure: the same files give the same document, byte for byte.
 *
 * @param read   as read by `readPool`
 * @param inputs the pooling file and its table
 */
export function evaluatePooling(read: PoolRead, inputs: readonly PoolInput[]): Pooling {
  const worktop = poolWorktop(read.file, read.studies);
  const models = modelsSection(worktop);
  const leftOut = [...read.leftOut];
  const studies = read.studies.map((study, at) => studyOf(study, at, models));
  const answer = answerSection(worktop, { ...models, leftOut });
  const document = {
    format: "fourfold-pooling",
    version: 1,
    software: SOFTWARE_VERSION,
    provenance: {
      inputs: inputs.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256 })),
      fileSha256: digestOfFiles(inputs),
      methods: worktop.used(),
    },
    file: read.file,
    answer,
    studies,
    leftOut,
    ...models,
    notes: notesOn({ ...models, file: read.file, studies }),
  };
  return demand(PoolingSchema, document, "pooling");
}

function studyOf(
  { label, level, truePositives, falsePositives, falseNegatives, trueNegatives }: PoolStudy,
  at: number,
  { univariate }: Pick<Pooling, "univariate">,
): PooledStudy {
  const nobody = { count: 0, total: 0, value: null, lower: null, upper: null };
  return {
    study: label,
    level,
    truePositives,
    falsePositives,
    falseNegatives,
    trueNegatives,
    sensitivity: univariate.sensitivity.values.list[at]?.proportion ?? nobody,
    specificity: univariate.specificity.values.list[at]?.proportion ?? nobody,
  };
}
