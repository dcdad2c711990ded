import type {
  Discrepant,
  LatentClass,
  ReferenceErrors,
  ReferenceWarning,
  Verification,
} from "../document.ts";

interface Found {
  readonly referenceErrors: readonly ReferenceErrors[];
  readonly verification: readonly Verification[];
  readonly discrepant: Discrepant | null;
  readonly latentClass: readonly LatentClass[];
}

/** What a reader must know before relying on the figures, for want of a sure reference; verdicts first. */
export function referenceWarnings(found: Found): ReferenceWarning[] {
  return [
    ...found.referenceErrors.flatMap(hanging),
    ...found.verification.flatMap(changing),
    ...(found.discrepant?.alarms ?? []).map(
      ({ subjects, count, total }): ReferenceWarning => ({
        code: "discrepant_only_retested",
        subject: subjects.join(", "),
        facts: { count, total },
      }),
    ),
    ...found.latentClass.flatMap(doubtful),
  ];
}

function cellIn({ analyte, kit, specimen, reader }: ReferenceErrors | Verification) {
  return { analyte, kit, specimen, reader };
}

/** The verdict is another with the reference as believed, or changes within what is stated of it. */
function hanging(errors: ReferenceErrors): ReferenceWarning[] {
  const { believed: stated } = errors;
  return errors.criteria.flatMap(
    ({ criterion, perfect, believed, throughout, borders }): ReferenceWarning[] => {
      if (perfect === believed && throughout === believed) return [];
      return [
        {
          code: "verdict_hangs_on_reference",
          subject: criterion,
          ...cellIn(errors),
          facts: {
            perfect,
            believed,
            throughout,
            sensitivityBorder: borderWithin(borders.referenceSensitivity, stated.sensitivity),
            specificityBorder: borderWithin(borders.referenceSpecificity, stated.specificity),
          },
        },
      ];
    },
  );
}

type Borders = ReferenceErrors["criteria"][number]["borders"]["referenceSensitivity"];

/** The nearer of the two changes that lie within the range stated. */
function borderWithin(
  { below, above }: Borders,
  { believed, from, to }: ReferenceErrors["believed"]["sensitivity"],
): number | null {
  const inside = [below.at, above.at].filter((at) => at !== null && at >= from && at <= to) as number[];
  const [nearest = null] = inside.sort((one, other) => Math.abs(one - believed) - Math.abs(other - believed));
  return nearest;
}

/** The correction gives another verdict, or the verdict changes within the odds ratios looked at. */
function changing(partly: Verification): ReferenceWarning[] {
  return partly.criteria.flatMap((criterion): ReferenceWarning[] => {
    const { naive, corrected, verdictHolds, axes } = criterion;
    if (naive === corrected && verdictHolds !== false) return [];
    const ends = [axes.both.holds, axes.reactive.holds, axes.nonreactive.holds];
    const from = ends.flatMap((holds) => holds.from ?? []);
    const to = ends.flatMap((holds) => holds.to ?? []);
    return [
      {
        code: "partial_verification_changes_verdict",
        subject: criterion.criterion,
        ...cellIn(partly),
        facts: {
          naive,
          corrected,
          holdsFrom: from.length === 0 ? null : Math.max(...from),
          holdsTo: to.length === 0 ? null : Math.min(...to),
          from: partly.oddsRatio.from,
          to: partly.oddsRatio.to,
        },
      },
    ];
  });
}

const UNTOLD = ["not_identifiable", "not_identified_here"];
/** A fit is called poor below this p-value. */
const POOR = 0.05;

function doubtful(model: LatentClass): ReferenceWarning[] {
  const subject = model.id;
  const { likelihood, bayesian, notes } = model;
  const warnings: ReferenceWarning[] = [];
  const untold = notes.some(({ code, path }) => UNTOLD.includes(code) && path.startsWith("likelihood."));
  if (untold && likelihood !== null && bayesian === null) {
    const { rank, unknowns } = likelihood.fit;
    warnings.push({ code: "not_identified", subject, facts: { rank, unknowns } });
  }
  const p = likelihood?.fit.p ?? null;
  if (bayesian === null && p !== null && p < POOR) {
    warnings.push({ code: "poor_fit", subject, facts: { by: "likelihood", p } });
  }
  return bayesian === null ? warnings : [...warnings, ...doubtfulBelief(model, bayesian)];
}

function doubtfulBelief(
  { id: subject, notes }: LatentClass,
  { identified, search, conflict, check }: NonNullable<LatentClass["bayesian"]>,
): ReferenceWarning[] {
  const told = (code: string) =>
    notes.some((entry) => entry.code === code && entry.path.startsWith("bayesian."));
  const warnings: ReferenceWarning[] = [];
  if (told("rests_on_priors")) {
    const { rank, unknowns } = identified;
    warnings.push({ code: "rests_on_priors", subject, facts: { rank, unknowns } });
  }
  if (told("not_converged")) {
    const { worstRHat, fewestEffective } = search;
    warnings.push({ code: "not_converged", subject, facts: { worstRHat, fewestEffective } });
  }
  if (told("prior_conflict")) {
    const against = conflict.filter(({ p }) => p !== null && p < POOR);
    const [worst] = against.toSorted((one, other) => (one.p ?? 1) - (other.p ?? 1));
    if (worst !== undefined) {
      const { parameter, p } = worst;
      warnings.push({ code: "prior_conflict", subject, facts: { parameter, p, shares: against.length } });
    }
  }
  if (told("poor_fit")) {
    warnings.push({ code: "poor_fit", subject, facts: { by: "bayesian", p: check.overall.p } });
  }
  return warnings;
}
