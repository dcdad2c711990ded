import type { Algorithms } from "../../evaluation/algorithm/document.ts";
import type { Placed } from "../contents.ts";
import type { Shared } from "../context.ts";
import type { AlgorithmSectionId } from "./contents.ts";

/** What every part of an algorithm's page works with. */
export interface AlgorithmReport extends Shared {
  readonly algorithms: Algorithms;
  /** The sections that this file fills, in order, numbered. */
  readonly contents: readonly Placed<AlgorithmSectionId>[];
}

/** What a section's component takes. */
export interface AlgorithmSectionProps {
  readonly report: AlgorithmReport;
}
