import type { Evaluation } from "../evaluation/document.ts";
import { type ChoiceSubject, choicesOf } from "../evaluation/exploration/choices.ts";
import type { Chosen, Exploration } from "../evaluation/schema/exploration.ts";
import { worded } from "./names.ts";
import type { Words } from "./words/en.ts";

type Study = Evaluation["study"];

/** A change of the plan in words. */
interface ChangeLine {
  readonly path: string;
  readonly what: string;
  readonly planned: string;
  readonly explored: string;
}

/** What differs from the stated plan, in words, in the order of the study file. */
export function changeLines(
  study: Study,
  exploration: Exploration | null,
  words: Words,
): readonly ChangeLine[] {
  const choices = choicesOf(study);
  return (exploration?.changes ?? []).map(({ path, planned, explored }) => {
    const subject = choices.find((choice) => choice.path === path)?.subject;
    if (subject === undefined)
      return { path, what: path, planned: String(planned), explored: String(explored) };
    return {
      path,
      what: subjectInWords(study, subject, words),
      planned: chosenInWords(study, subject, planned, words),
      explored: chosenInWords(study, subject, explored, words),
    };
  });
}

/** What a choice is about. */
export function subjectInWords(study: Study, subject: ChoiceSubject, words: Words): string {
  const { exploration } = words;
  switch (subject.kind) {
    case "criterion":
      return criterionInWords(study, subject.criterion, words);
    case "prevalence":
      return exploration.prevalence(titleOf(study.analytes, subject.analyte), subject.programme);
    case "stratum":
      return exploration.subgroups(words.grammar.inline(subject.stratum.title));
    case "group":
      return subject.stratum.title;
    case "interval_method":
      return exploration.intervalMethod;
    case "outside_window":
      return exploration.outsideWindow;
    default:
      return exploration[subject.kind];
  }
}

/** "Sensitivity, HBsAg, venous whole blood". */
function criterionInWords(study: Study, criterion: Study["criteria"][number], words: Words): string {
  const { measure, analyte: id } = criterion;
  const analyte = study.analytes.find((one) => one.id === id);
  const terms = analyte?.reference.role === "comparator" ? words.terms.agreement : words.terms.accuracy;
  const type = criterion.specimen ?? study.specimens[0]?.type ?? "";
  const name = measure === "invalid_rate" ? words.answer.invalidRate : terms[measure];
  return words.exploration.threshold(
    words.grammar.sentence(name),
    analyte?.title ?? id,
    words.grammar.inline(specimenTitle(study, type)),
  );
}

/** What a choice says, in words. */
export function chosenInWords(study: Study, subject: ChoiceSubject, value: Chosen, words: Words): string {
  const { exploration, codes, answer } = words;
  if (typeof value === "number") {
    if (subject.kind !== "criterion") return exploration.percent(value);
    const least = subject.criterion.at_least !== undefined;
    return `${answer.criterion(least ? "at_least" : "at_most", value)}\u202f%`;
  }
  if (typeof value === "boolean") return value ? exploration.shown : exploration.hidden;
  if (value === null) return nothingInWords(subject, exploration);
  const tables: Partial<Record<ChoiceSubject["kind"], Readonly<Record<string, string>>>> = {
    interval_method: codes.intervals,
    invalid: codes.invalidTreatments,
    outside_window: codes.windowTreatments,
    repeat: exploration.repeats,
  };
  const table = tables[subject.kind];
  return table === undefined
    ? exploration.only(groupInWords(study, subject, value, words))
    : worded(table, value);
}

function nothingInWords({ kind }: ChoiceSubject, words: Words["exploration"]): string {
  if (kind === "prevalence") return words.none;
  return kind === "specimen" ? words.everySpecimen : words.everybody;
}

/** The name of a group of people. */
export function groupInWords(study: Study, { kind }: ChoiceSubject, group: string, words: Words): string {
  if (kind === "specimen") return words.grammar.inline(specimenTitle(study, group));
  if (kind === "site") return titleOf(study.sites, group);
  if (kind !== "selection") return group;
  const arms = study.arms.filter((arm) => arm.selection === group);
  return arms.length === 1 ? (arms[0]?.title ?? group) : worded(words.codes.selections, group);
}

function titleOf(entries: readonly { readonly id: string; readonly title: string }[], id: string): string {
  return entries.find((entry) => entry.id === id)?.title ?? id;
}

function specimenTitle({ specimens }: Study, type: string): string {
  return specimens.find((specimen) => specimen.type === type)?.title ?? type;
}
