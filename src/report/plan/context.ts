import type { Planning } from "../../evaluation/plan/document.ts";
import type { Placed } from "../contents.ts";
import type { Shared } from "../context.ts";
import type { PlanSectionId } from "./contents.ts";

/** What every part of a plan's page works with. */
export interface PlanReport extends Shared {
  readonly planning: Planning;
  /** The sections that this plan fills, in order, numbered. */
  readonly contents: readonly Placed<PlanSectionId>[];
}

/** What a section's component takes. */
export interface PlanSectionProps {
  readonly report: PlanReport;
}
