import * as v from "valibot";
import { Name, Words } from "../plain-fields.ts";
import { File } from "../study-fields.ts";

const Column = v.pipe(v.string(), v.minLength(1, "expected the name of a column"));
const ABOVE = "expected a proportion above 0 and below 1";

/** Where the counts of a study stand in the table. */
const Columns = v.strictObject({
  study: v.pipe(Column, v.description("name of the study or site, each once")),
  true_positives: v.pipe(Column, v.description("people: test reactive, condition present")),
  false_positives: v.pipe(Column, v.description("people: test reactive, condition absent")),
  false_negatives: v.pipe(Column, v.description("people: test non-reactive, condition present")),
  true_negatives: v.pipe(Column, v.description("people: test non-reactive, condition absent")),
  covariate: v.optional(v.pipe(Column, v.description("what tells studies apart, one level for each study"))),
});

const Criterion = v.strictObject({
  measure: v.picklist(["sensitivity", "specificity"], "expected sensitivity or specificity"),
  at_least: v.pipe(
    v.number(),
    v.gtValue(0, ABOVE),
    v.ltValue(1, ABOVE),
    v.description("what it has to reach; the lower limit decides"),
  ),
  source: v.pipe(Words, v.description("where that figure comes from")),
});

/** A pooling file: which table of counts is pooled, what tells its studies apart, what is asked of the result. */
export const PoolFileSchema = v.strictObject({
  format: v.pipe(v.literal("fourfold-pool/1"), v.description("what this file is, and its version")),
  id: v.pipe(Name, v.description("short name of the pooling")),
  title: Words,
  question: v.pipe(Words, v.description("which test, for which condition, against which reference, in whom")),
  table: v.pipe(File, v.description("the table of counts, a CSV file beside this one")),
  columns: Columns,
  covariate: v.optional(
    v.pipe(Words, v.description("what the column of the covariate holds, in words; needed with that column")),
  ),
  criteria: v.optional(
    v.pipe(
      v.array(Criterion),
      v.maxLength(2, "expected at most one criterion for each measure"),
      v.description("what sensitivity and specificity have to reach"),
    ),
    [],
  ),
  level: v.optional(
    v.pipe(
      v.number(),
      v.gtValue(0.5, "expected a level above 0.5 and below 1"),
      v.ltValue(1, "expected a level above 0.5 and below 1"),
      v.description("of every interval"),
    ),
    0.95,
  ),
  source: v.pipe(Words, v.description("where the counts come from")),
});

export type PoolFile = v.InferOutput<typeof PoolFileSchema>;
export type PoolCriterion = PoolFile["criteria"][number];
export type PoolMeasure = PoolCriterion["measure"];
