import type { Pooling } from "../../evaluation/pool/document.ts";
import type { Placed } from "../contents.ts";
import type { Shared } from "../context.ts";
import type { PoolSectionId } from "./contents.ts";

/** What every part of the page of pooled studies works with. */
export interface PoolReport extends Shared {
  readonly pooling: Pooling;
  /** The sections that this file fills, in order, numbered. */
  readonly contents: readonly Placed<PoolSectionId>[];
}

/** What a section's component takes. */
export interface PoolSectionProps {
  readonly report: PoolReport;
}
