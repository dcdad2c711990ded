import type { LatentClass } from "../evaluation/document.ts";
import type { Report } from "./context.ts";
import * as formats from "./formats.ts";
import { alternativeTitle, quantityTitle, rHatText } from "./reference-names.ts";

/** Where a note is about other beliefs than those stated. */
export const OTHER = "priorSensitivity";

/** Whether the counts, the chains, the fit and the beliefs bear the answer. */
export function trustText(report: Report, model: LatentClass): string {
  const { latent: words } = report.words;
  const { likelihood, bayesian } = model;
  const told = (code: string) =>
    model.notes.some((note) => note.code === code && !note.path.startsWith(OTHER));
  const parts: (string | null)[] = [];
  if (bayesian === null) {
    if (likelihood === null) return "";
    const { rank, unknowns, p } = likelihood.fit;
    const untold = told("not_identifiable") || told("not_identified_here");
    parts.push(untold ? words.notIdentified(rank ?? 0, unknowns ?? 0) : words.identified);
    if (!untold && !likelihood.search.converged) parts.push(words.noSearch);
    if (p !== null) parts.push(p < POOR ? words.poorFit(p) : words.fits(p));
    return parts.filter((part) => part !== null).join(" ");
  }
  const { identified, search, check } = bayesian;
  const { rank, unknowns } = identified;
  parts.push(identified.byDataAlone ? words.identified : words.restsOnPriors(rank ?? 0, unknowns ?? 0));
  const [rHat, effective] = [
    rHatText(search.worstRHat),
    formats.count(Math.round(search.fewestEffective ?? 0)),
  ];
  parts.push(
    told("not_converged")
      ? words.notConverged(rHat, effective)
      : words.converged(search.chains ?? 0, rHat, effective),
  );
  if (check.overall.p !== null) {
    parts.push(told("poor_fit") ? words.poorFit(check.overall.p) : words.fits(check.overall.p));
  }
  parts.push(conflictText(report, model), movesText(report, model));
  return parts.filter((part) => part !== null).join(" ");
}

/** A fit is called poor below this p-value. */
const POOR = 0.05;

function conflictText(report: Report, model: LatentClass): string {
  const { latent: words } = report.words;
  const against = (model.bayesian?.conflict ?? []).filter(({ p }) => p !== null && p < POOR);
  if (against.length === 0) return words.noConflict;
  return words.conflict(against.map(({ parameter }) => quantityTitle(report, model, parameter)));
}

/** The belief that the answer hangs on most. */
function movesText(report: Report, model: LatentClass): string | null {
  const { latent: words } = report.words;
  const { priorSensitivity } = model;
  if (priorSensitivity === null) return null;
  const stated = priorSensitivity.alternatives.find(({ name }) => name === "as_stated");
  const shares = priorSensitivity.alternatives.flatMap(({ name, shares: all }) =>
    all.flatMap((share) => (share.shift === null ? [] : [{ name, ...share, size: Math.abs(share.shift) }])),
  );
  const [largest] = shares.toSorted((one, other) => other.size - one.size);
  const before = stated?.shares.find(({ parameter }) => parameter === largest?.parameter);
  if (largest === undefined || largest.median === null || largest.size === 0) return null;
  const from = before?.median ?? null;
  if (from === null) return null;
  const number = numberText(largest.parameter, [from, largest.median]);
  return words.moves(
    alternativeTitle(report, model, largest.name),
    formats.fixed(largest.size, 1),
    quantityTitle(report, model, largest.parameter),
    number(from),
    number(largest.median),
  );
}

/** Shares as percentages with decimals that tell them apart from 0 and 100; covariances as they are. */
function numberText(parameter: string, all: readonly number[]): (value: number) => string {
  if (parameter.startsWith("couplings")) return (value) => formats.fixed(value, 4);
  const decimals = all.map((value) => formats.percentDecimals({ value, lower: null, upper: null }));
  return (value) => formats.percentSigned(value, Math.max(...decimals));
}
