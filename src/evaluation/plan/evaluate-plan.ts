import { demand } from "../../core/check.ts";
import { type Note, note } from "../../core/note.ts";
import { SOFTWARE_VERSION } from "../../core/version.ts";
import type { Plan } from "../../records/plan/plan.ts";
import { digestOfFiles } from "../digest.ts";
import { type PlanAnswer, type Planning, PlanningSchema } from "./document.ts";
import { agreementSection } from "./sections/agreement.ts";
import { answerSection } from "./sections/answer.ts";
import { comparisonsSection } from "./sections/comparisons.ts";
import { criteriaSection } from "./sections/criteria.ts";
import { effortSection, MOST_ENROLLED } from "./sections/effort.ts";
import { enrolmentSection } from "./sections/enrolment.ts";
import type { Asking } from "./sections/needs.ts";
import { stoppingSection } from "./sections/stopping.ts";
import { jointAnswer, togetherSection } from "./sections/together.ts";
import { whatIfSection } from "./sections/what-if.ts";
import { normalSizesSection, widthsSection } from "./sections/widths.ts";
import { planWorktop } from "./worktop.ts";

/** A file that went in. The hash is the caller's business: SHA-256, 64 hexadecimal digits. */
export interface PlanInput {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

/**
 * Everything that follows from a plan, as plain data in full precision: how many people each criterion, width
 * and comparison takes, how many to enrol for them, how long it takes and what it costs. Pure: the same plan
 * and inputs give the same document, byte for byte.
 *
 * @param plan   as read by `parsePlan`; what can't be reached gives `null` and a note, never an error
 * @param inputs plan file, and kit file where there is one
 */
export function evaluatePlan(plan: Plan, inputs: readonly PlanInput[]): Planning {
  const worktop = planWorktop(plan);
  const asking: Asking = {
    criteria: criteriaSection(worktop),
    widths: widthsSection(worktop),
    comparisons: comparisonsSection(worktop),
  };
  const normalSizes = normalSizesSection(worktop);
  const enrolment = enrolmentSection(worktop, asking);
  const together = togetherSection(worktop, asking.criteria);
  const answered = answerSection(worktop, asking, enrolment);
  const effort = effortSection(worktop, answered.enrol);
  const answer: PlanAnswer = {
    ...answered,
    jointPower: jointAnswer(together, asking.criteria),
    days:
      effort?.values.days.atAssurances.find(({ assurance }) => assurance === answered.assurance)?.days ??
      null,
    cost: plan.costs === undefined ? null : (effort?.values.cost.total ?? null),
  };
  const sections = {
    answer,
    criteria: asking.criteria,
    widths: asking.widths,
    normalSizes,
    enrolment,
    together,
    comparisons: asking.comparisons,
    agreement: agreementSection(worktop),
    stopping: stoppingSection(worktop),
    whatIf: whatIfSection(worktop),
    effort,
    notes: notesOn(plan, answer),
  };
  const document = {
    format: "fourfold-planning",
    version: 1,
    software: SOFTWARE_VERSION,
    provenance: {
      inputs: inputs.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256 })),
      planSha256: digestOfFiles(inputs),
      methods: worktop.used(),
    },
    plan,
    ...sections,
  };
  return demand(PlanningSchema, document, "planning");
}

/** What a reader of the whole plan must know, gravest first. */
function notesOn(plan: Plan, answer: PlanAnswer): Note[] {
  const notes: Note[] = [];
  for (const id of [...answer.criteria.out, ...answer.out]) {
    const message = `${id} can't be planned as it stands, and asks for nobody here: its own entry says what to change`;
    notes.push(note("not_planned", "answer.enrol", message));
  }
  if (answer.enrol === null) notes.push(note("no_enrolment", "answer.enrol", NO_ENROLMENT));
  if (answer.enrol !== null && answer.enrol > MOST_ENROLLED) {
    const message = "so many people come to no study: how long it takes and what it costs is left open";
    notes.push(note("too_many", "effort", message));
  } else if (plan.recruitment.sites.length === 0) {
    notes.push(
      note("no_sites", "effort", "no sites are stated: how long it takes and what it costs is left open"),
    );
  } else if (plan.costs === undefined) {
    notes.push(note("no_costs", "answer.cost", "no costs are stated"));
  }
  if (plan.alike === undefined) {
    const message =
      "people are taken as independent: those of one site may be alike, and then more are needed";
    notes.push(note("independent_people", "criteria", message));
  }
  if (plan.decision.control === "fixed_sequence") {
    const message =
      "each criterion is planned by itself; it is judged only where those before it were met, which has the probability that all of these are met";
    notes.push(note("fixed_sequence", "criteria", message));
  }
  if (answer.beside.length > 0) {
    const message =
      "people of an unpaired comparison's second group have another kit: they are enrolled besides, and count for no criterion";
    notes.push(note("second_group", "answer.beside", message));
  }
  return notes;
}

const NO_ENROLMENT =
  "no number of people to enrol can be given: nothing can be planned as it stands, or people of a kind that is needed can't be had; the entries say what to change";
