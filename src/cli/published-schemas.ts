import { algorithmsJsonSchema } from "../evaluation/algorithm/json-schema.ts";
import { evaluationJsonSchema } from "../evaluation/json-schema.ts";
import { planningJsonSchema } from "../evaluation/plan/json-schema.ts";
import { poolingJsonSchema } from "../evaluation/pool/json-schema.ts";
import { algorithmJsonSchema } from "../records/algorithm/json-schema.ts";
import { kitJsonSchema, studyJsonSchema } from "../records/json-schema.ts";
import { planJsonSchema } from "../records/plan/json-schema.ts";
import { poolJsonSchema } from "../records/pool/json-schema.ts";

/** A generated file: its path from the root of the package, and what it must hold. */
export interface PublishedSchema {
  readonly path: string;
  readonly text: string;
}

/** The JSON Schemas that other programs may rely on, each named after the version of its format. */
export function publishedSchemas(): PublishedSchema[] {
  const published = [
    { path: "src/evaluation/evaluation.v1.schema.json", schema: evaluationJsonSchema() },
    { path: "src/records/study.v1.schema.json", schema: studyJsonSchema() },
    { path: "src/records/kit.v1.schema.json", schema: kitJsonSchema() },
    { path: "src/evaluation/plan/planning.v1.schema.json", schema: planningJsonSchema() },
    { path: "src/records/plan/plan.v1.schema.json", schema: planJsonSchema() },
    { path: "src/evaluation/algorithm/algorithms.v1.schema.json", schema: algorithmsJsonSchema() },
    { path: "src/records/algorithm/algorithm.v1.schema.json", schema: algorithmJsonSchema() },
    { path: "src/evaluation/pool/pooling.v1.schema.json", schema: poolingJsonSchema() },
    { path: "src/records/pool/pool.v1.schema.json", schema: poolJsonSchema() },
  ];
  return published.map(({ path, schema }) => ({ path, text: `${JSON.stringify(schema, null, 2)}\n` }));
}
