import { note } from "../../core/note.ts";
import { type DiscrepantInput, referenceDiscrepant } from "../../methods/reference/discrepant.ts";
import type { Accuracy, Discrepant, ReferenceErrors } from "../document.ts";
import type { Worktop } from "../worktop.ts";

const CODE = "discrepant_only_retested";

/** What is supposed where the study says nothing: figures of our own, for the demonstration alone. */
const SUPPOSED = { sensitivity: 0.9, specificity: 0.97, prevalence: 0.1 };

/**
 * Where the records show that further reference tests were done on those who disagree only: what that
 * practice does to the looks of a kit, on invented people. Never an analysis of the study itself.
 */
export function discrepantSection(
  worktop: Worktop,
  accuracy: readonly Accuracy[],
  errors: readonly ReferenceErrors[],
): Discrepant | null {
  const alarms = worktop.records.alarms.filter(({ code }) => code === CODE);
  const [first] = alarms;
  if (first === undefined) return null;
  const supposed = supposedOf(first.subjects[0] ?? "", accuracy, errors);
  const { values, notes } = worktop.compute(referenceDiscrepant, supposed);
  const { unresolved, resolved, everybody, retested, gain } = values;
  const message =
    "kit and prevalence as this study saw them, the comparator as stated or else as good as the kit, a third test that never errs: supposed, to show what the practice does";
  return {
    alarms: alarms.map(({ subjects, count, total }) => ({ subjects: [...subjects], count, total })),
    demonstration: { supposed, unresolved, resolved, everybody, retested, gain },
    notes: [note("demonstration", "demonstration.supposed", message), ...notes.map(here)],
  };
}

function here({ code, path, message }: ReturnType<typeof note>) {
  return note(code, `demonstration.${path}`, message);
}

function supposedOf(
  analyte: string,
  accuracy: readonly Accuracy[],
  errors: readonly ReferenceErrors[],
): DiscrepantInput {
  const seen = accuracy.find((cell) => cell.analyte === analyte);
  const stated = errors.find((cell) => cell.analyte === analyte)?.believed;
  const kit = {
    sensitivity: inside(seen?.sensitivity.value, SUPPOSED.sensitivity),
    specificity: inside(seen?.specificity.value, SUPPOSED.specificity),
  };
  const comparator =
    stated === undefined
      ? kit
      : { sensitivity: stated.sensitivity.believed, specificity: stated.specificity.believed };
  const positive = seen === undefined ? null : seen.counts.truePositives + seen.counts.falseNegatives;
  const all = seen === undefined ? 0 : Object.values(seen.counts).reduce((sum, people) => sum + people, 0);
  const prevalence = inside(positive === null || all === 0 ? null : positive / all, SUPPOSED.prevalence);
  return { kit, comparator, resolver: { sensitivity: 1, specificity: 1 }, prevalence };
}

/** A test that never erred would show nothing. */
function inside(value: number | null | undefined, instead: number): number {
  return value == null || value <= 0 || value >= 1 ? instead : value;
}
