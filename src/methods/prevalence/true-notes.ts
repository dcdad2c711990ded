import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import type { Accuracy } from "./corrected.ts";
import type { Estimated } from "./intervals.ts";

/** What the notes speak of. */
export interface Noted {
  readonly sensitivity: Accuracy | null;
  readonly specificity: Accuracy | null;
  readonly estimated: Estimated;
  /** The interval chosen, before it was cut. */
  readonly chosen: Estimate;
  readonly values: {
    readonly apparent: { readonly total: number };
    readonly prevalence: Estimate;
    readonly interval: string;
  };
  readonly known: boolean;
}

const ALL = ["prevalence", "roganGladen", "treatedAsKnown", "delta", "langReiczigel", "simulated"];

export function notesOn(noted: Noted): Note[] {
  const { sensitivity, specificity, estimated, values } = noted;
  if (values.apparent.total === 0) {
    return notesAt("no_observations", ["apparent", ...ALL], "nobody was surveyed");
  }
  if (sensitivity === null || specificity === null) {
    const what = sensitivity === null ? "sensitivity" : "specificity";
    return notesAt("no_observations", ALL, `nothing is known of the ${what}`);
  }
  if (estimated.roganGladen === null) {
    const message = "sensitivity + specificity is 1 or less: the test says nothing of the prevalence";
    return notesAt("uninformative_test", ALL, message);
  }
  return [...outside(noted, estimated.roganGladen), ...doubts(noted)];
}

/** The estimate or the limits chosen leave 0..1. */
function outside({ chosen, values }: Noted, point: number): Note[] {
  const notes: Note[] = [];
  if (point < 0) {
    const message = "fewer reactive people than false reactives alone would give: the estimate is below 0";
    notes.push(note("below_zero", "prevalence.value", message));
  } else if (point > 1) {
    const message = "more reactive people than the sensitivity allows: the estimate is above 1";
    notes.push(note("above_one", "prevalence.value", message));
  }
  if ((chosen.upper ?? 0) < 0 || (chosen.lower ?? 1) > 1) {
    const message = "the whole interval lies outside 0 to 1: the accuracies can't hold for these people";
    notes.push(note("incompatible", "prevalence", message));
  }
  for (const side of ["lower", "upper"] as const) {
    const raw = chosen[side];
    if (raw === null || (raw >= 0 && raw <= 1) || values.prevalence[side] === raw) continue;
    notes.push(
      note("truncated", `prevalence.${side}`, "the formula's limit lies outside 0 to 1 and was cut"),
    );
  }
  return notes;
}

function doubts({ sensitivity, specificity, estimated, values, known }: Noted): Note[] {
  const notes: Note[] = [];
  const asIfKnown = ["exact", "blaker", "wilson"].includes(values.interval);
  if (!known && asIfKnown) {
    const message = "sensitivity or specificity was estimated, yet is taken as known: too narrow";
    notes.push(note("taken_as_known", "prevalence", message));
  }
  const certain = [sensitivity, specificity].some(
    (part) => part !== null && part.people !== null && (part.value === 0 || part.value === 1),
  );
  if (certain && values.interval === "delta") {
    const message = "an estimated accuracy of 0 or 1 adds no width here, which does not mean certainty";
    notes.push(note("no_width", "prevalence", message));
  }
  if (estimated.langReiczigel.centre === null) {
    const paths = ["langReiczigel", ...(values.interval === "lang_reiczigel" ? ["prevalence"] : [])];
    const message = "the accuracies come from so few people that, drawn towards 1/2, they say nothing";
    notes.push(...notesAt("uninformative_test", paths, message));
  }
  const { undefinedDraws, interval } = estimated.simulated;
  if (undefinedDraws > 0) {
    const message = `${undefinedDraws} draws had a sensitivity + specificity of 1 or less and were left out`;
    notes.push(note("undefined_draws", "simulated", message));
    if (interval.value === null && values.interval === "simulated") {
      notes.push(note("undefined_draws", "prevalence", message));
    }
  }
  return notes;
}
