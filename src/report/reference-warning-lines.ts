import type { ReferenceWarning } from "../evaluation/document.ts";
import type { SectionId } from "./contents.ts";
import type { Report } from "./context.ts";
import { fieldWarningLines } from "./field-warning-lines.ts";
import { criterionTitle } from "./reference-names.ts";

/** One line of the first page. */
export interface Warned {
  readonly label: string;
  readonly text: string;
  /** Verdicts that hang on the reference stand before what the records show, doubts about a model after it. */
  readonly place: "first" | "last";
  /** Where the evidence stands. */
  readonly section: SectionId;
}

type Of<Code extends ReferenceWarning["code"]> = Extract<ReferenceWarning, { readonly code: Code }>;

/**
 * What a reader must know for want of a sure reference, then of pooled groups, cutoffs and panels: one line for
 * each kind, gravest first.
 */
export function warningLines(report: Report): Warned[] {
  const { referenceWarnings: words } = report.words;
  const of = <Code extends ReferenceWarning["code"]>(code: Code) =>
    report.evaluation.referenceWarnings.filter((one): one is Of<Code> => one.code === code);
  const line = <One>(
    found: readonly One[],
    place: Warned["place"],
    text: (found: readonly One[]) => string,
  ): Warned[] =>
    found.length === 0
      ? []
      : [
          {
            label: place === "first" ? words.label.reference : words.label.model,
            text: text(found),
            place,
            section: "reference",
          },
        ];
  const models = (found: readonly { readonly subject: string }[]) =>
    found.map(({ subject }) => words.model(modelTitle(report, subject)));
  return [
    ...line(of("verdict_hangs_on_reference"), "first", (found) =>
      words.hangsOnReference(
        found.map(({ subject, facts }) => ({ name: criterionTitle(report, subject), ...facts })),
      ),
    ),
    ...line(of("partial_verification_changes_verdict"), "first", (found) =>
      words.partialVerification(
        found.map(({ subject, facts }) => ({ name: criterionTitle(report, subject), ...facts })),
      ),
    ),
    ...retested(report, of("discrepant_only_retested")),
    ...line(of("not_converged"), "last", (found) => words.notConverged(models(found))),
    ...line(of("not_identified"), "last", (found) => words.notIdentified(models(found))),
    ...line(of("rests_on_priors"), "last", (found) => words.restsOnPriors(models(found))),
    ...line(of("prior_conflict"), "last", (found) =>
      words.priorConflict(models(found), found.length === 1 ? (found[0]?.facts.p ?? null) : null),
    ),
    ...line(of("poor_fit"), "last", (found) => words.poorFit(models(found))),
    ...fieldWarningLines(report),
  ];
}

/** Said already where the records' own alarm is there. */
function retested(report: Report, found: readonly Of<"discrepant_only_retested">[]): Warned[] {
  const { referenceWarnings: words } = report.words;
  if (report.evaluation.alarms.some(({ code }) => code === "discrepant_only_retested")) return [];
  return found.map(({ facts }) => ({
    label: words.label.reference,
    text: words.discrepantOnly(facts.count, facts.total),
    place: "first",
    section: "reference",
  }));
}

function modelTitle(report: Report, id: string): string {
  return report.evaluation.latentClass.find((model) => model.id === id)?.title ?? id;
}
