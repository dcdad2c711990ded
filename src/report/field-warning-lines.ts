import type { Warning } from "../evaluation/document.ts";
import type { Report } from "./context.ts";
import * as formats from "./formats.ts";
import { cellTitle, termsOf } from "./names.ts";
import { isOfSites, nounOf, spanOf } from "./pooled-names.ts";
import type { Warned } from "./reference-warning-lines.ts";

type Code = Warning["code"];
type Of<One extends Code> = Extract<Warning, { readonly code: One }>;

/** What a reader must know of groups pooled, of cutoffs chosen here and of dilution panels: one line for each kind. */
export function fieldWarningLines(report: Report): Warned[] {
  const of = <One extends Code>(code: One) =>
    report.evaluation.warnings.filter((one): one is Of<One> => one.code === code);
  return [
    ...differing(report, of("groups_differ")),
    ...chosen(report, of("cutoff_chosen_here")),
    ...unfinished(report, of("pooling_not_converged")),
    ...atBorder(report, of("pooling_boundary")),
    ...withoutLimit(report, of("no_detection_limit")),
  ];
}

/** The stratum that was pooled: one for the whole study. */
function stratumOf({ evaluation }: Report): string {
  return evaluation.pooled[0]?.by.stratum ?? "site";
}

function differing(report: Report, found: readonly Of<"groups_differ">[]): Warned[] {
  if (found.length === 0) return [];
  const { warnings } = report.words.sites;
  const stratum = stratumOf(report);
  const parts = found.map(({ facts, ...cell }) => {
    const { together, predictedLower: lower, predictedUpper: upper, criterion } = facts;
    return {
      name: `${termsOf(report, cell.analyte)[facts.measure]} (${cellTitle(report, cell)})`,
      together: together === null ? report.words.page.notEstimable : formats.percentSigned(together),
      elsewhere: spanOf(report, { value: together, lower, upper }),
      hides: criterion !== null,
      chance: criterion?.chance == null ? null : formats.chance(criterion.chance),
    };
  });
  return [
    {
      label: isOfSites(report, stratum) ? warnings.label : warnings.groupLabel,
      text: warnings.differ({ noun: nounOf(report, stratum), parts }),
      place: "first",
      section: "sites",
    },
  ];
}

/** The cutoff that flatters most is told in figures. */
function chosen(report: Report, found: readonly Of<"cutoff_chosen_here">[]): Warned[] {
  const { warnings } = report.words.instrument;
  const flatters = ({ facts }: Of<"cutoff_chosen_here">) =>
    (facts.sensitivity ?? 0) +
    (facts.specificity ?? 0) -
    (facts.correctedSensitivity ?? 0) -
    (facts.correctedSpecificity ?? 0);
  const [worst] = found.toSorted((one, other) => flatters(other) - flatters(one));
  if (worst === undefined) return [];
  const { facts } = worst;
  const both = (sensitivity: number | null, specificity: number | null) => {
    const text = (share: number | null) =>
      share === null ? report.words.page.notEstimable : formats.percentSigned(share);
    return warnings.both(text(sensitivity), text(specificity));
  };
  const text = warnings.chosen({
    number: found.length,
    name: cellTitle(report, worst),
    measures: termsOf(report, worst.analyte),
    seen: both(facts.sensitivity, facts.specificity),
    expected: both(facts.correctedSensitivity, facts.correctedSpecificity),
  });
  return [{ label: warnings.label, text, place: "last", section: "intensity" }];
}

function unfinished(report: Report, found: readonly Of<"pooling_not_converged">[]): Warned[] {
  if (found.length === 0) return [];
  const { warnings } = report.words.sites;
  const names = found.map((one) => cellTitle(report, one));
  return [
    { label: warnings.modelLabel, text: warnings.notConverged(names), place: "last", section: "sites" },
  ];
}

function atBorder(report: Report, found: readonly Of<"pooling_boundary">[]): Warned[] {
  const [first] = found;
  if (first === undefined) return [];
  const { warnings } = report.words.sites;
  const names = found.map((one) => cellTitle(report, one));
  const text = warnings.boundary(names, first.facts.groups, nounOf(report, stratumOf(report)));
  return [{ label: warnings.modelLabel, text, place: "last", section: "sites" }];
}

function withoutLimit(report: Report, found: readonly Of<"no_detection_limit">[]): Warned[] {
  if (found.length === 0) return [];
  const { warnings } = report.words.detection;
  const titles = found.map(
    ({ subject }) => report.evaluation.panels.find(({ id }) => id === subject)?.title ?? subject,
  );
  return [{ label: warnings.label, text: warnings.none(titles), place: "last", section: "detection" }];
}
