import * as v from "valibot";
import { Name, Words } from "../plain-fields.ts";
import {
  AlgorithmCosts,
  AlgorithmKit,
  Channel,
  Observed,
  Order,
  Search,
  Targets,
  TestingAlgorithm,
} from "./algorithm-fields.ts";
import { Dependence } from "./dependence-fields.ts";

/**
 * An algorithm file: kits, how far they are wrong about the same people, who is tested where, and what is done
 * after each result. From it follow predictive values, costs and kits, for every algorithm and channel.
 */
export const AlgorithmFileSchema = v.strictObject({
  format: v.pipe(v.literal("fourfold-algorithm/1"), v.description("what this file is, and its version")),
  id: v.pipe(Name, v.description("short name of the programme")),
  title: Words,
  analytes: v.pipe(
    v.array(v.strictObject({ id: Name, title: Words })),
    v.minLength(1, "expected at least one analyte"),
    v.maxLength(2, "expected at most two analytes"),
  ),
  kits: v.pipe(
    v.array(AlgorithmKit),
    v.minLength(1, "expected at least one kit"),
    v.maxLength(12, "expected at most 12 kits"),
    v.description("kits, and methods of a laboratory"),
  ),
  dependence: v.optional(
    v.pipe(
      Dependence,
      v.description("needed as soon as anybody is tested twice: independence must be named"),
    ),
  ),
  channels: v.pipe(
    v.array(Channel),
    v.minLength(1, "expected at least one channel"),
    v.maxLength(12, "expected at most 12 channels"),
    v.description("where people are tested"),
  ),
  algorithms: v.pipe(
    v.array(TestingAlgorithm),
    v.minLength(1, "expected at least one algorithm"),
    v.maxLength(20, "expected at most 20 algorithms"),
  ),
  costs: v.optional(AlgorithmCosts),
  targets: v.optional(Targets, {}),
  search: v.optional(Search),
  order: v.optional(Order, {}),
  observed: v.optional(v.array(Observed), []),
  level: v.optional(
    v.pipe(
      v.number(),
      v.gtValue(0.5, "expected a level above 0.5 and below 1"),
      v.ltValue(1, "expected a level above 0.5 and below 1"),
      v.description("of every interval"),
    ),
    0.95,
  ),
  draws: v.optional(
    v.pipe(
      v.number(),
      v.integer("expected a whole number"),
      v.minValue(1000, "expected 1,000 to 100,000"),
      v.maxValue(100_000, "expected 1,000 to 100,000"),
      v.description("how often the uncertain numbers are drawn"),
    ),
    10_000,
  ),
  seed: v.optional(v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(0xffffffff)), 1),
});

export type AlgorithmFile = v.InferOutput<typeof AlgorithmFileSchema>;
export type FileKit = AlgorithmFile["kits"][number];
export type FileChannel = AlgorithmFile["channels"][number];
export type FileAlgorithm = AlgorithmFile["algorithms"][number];
export type FileStep = NonNullable<FileAlgorithm["steps"]>[number];
export type FileDependence = NonNullable<AlgorithmFile["dependence"]>;
export type FilePair = Extract<FileDependence, { kind: "pairs" }>["pairs"][number];
