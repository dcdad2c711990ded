import { type Note, note } from "../../../core/note.ts";
import { planningClusteredSize } from "../../../methods/planning/clustered-size.ts";
import { notesUnder } from "../../notes.ts";
import type { CriterionPlan } from "../document.ts";
import type { PlanWorktop } from "../worktop.ts";

/** What the likeness of people at one site makes of a number needed. */
export interface Allowed {
  readonly clustered: CriterionPlan["clustered"];
  readonly needed: number | null;
  readonly notes: Note[];
}

/** More people of one kind than this are planned for by nobody, and no enrolment is worked out. */
const MOST = 1_000_000;

/** The number needed once people of a site are allowed to be alike; the number itself where the plan says nothing. */
export function allowedFor({ plan, ask }: PlanWorktop, total: number | null): Allowed {
  if (total === null || plan.alike === undefined) return withinReason(null, total, []);
  const { icc, clusters, size, cv } = plan.alike;
  const by =
    clusters === undefined
      ? { kind: "size" as const, size: size as number }
      : { kind: "clusters" as const, clusters };
  const clustered = ask(planningClusteredSize, { total, icc, by, cv });
  const needed = clustered.values.total;
  return withinReason(
    clustered,
    needed,
    notesUnder(clustered.notes, { total: "needed", clusters: "needed" }),
  );
}

function withinReason(clustered: CriterionPlan["clustered"], needed: number | null, notes: Note[]): Allowed {
  if (needed === null || needed <= MOST) return { clustered, needed, notes };
  const message = `it would take more than ${MOST.toLocaleString("en-GB")} people: plan more sites, demand less, or expect people of a site to be less alike`;
  return { clustered, needed: null, notes: [...notes, note("too_many", "needed", message)] };
}
