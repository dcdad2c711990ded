import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import { notesAt } from "../notes-at.ts";
import { simulated } from "../predictive/simulated.ts";
import { alphaStandardError } from "./alpha.ts";
import { aroundValue, fewDisagreements, withoutWidth } from "./around.ts";
import {
  type ChanceRule,
  chanceAgreement,
  chanceStandardError,
  type MeasuredPattern,
} from "./chance-agreement.ts";
import { type Coefficients, coefficientsOf, type ReadingData, resampled } from "./resample.ts";
import { sum } from "./square-shares.ts";
import type { Matrix } from "./weights.ts";

/** A coefficient with its two intervals. */
interface CoefficientValues {
  readonly estimate: Estimate;
  readonly standardError: number | null;
  readonly bootstrap: Estimate;
  readonly undefinedReplicates: number;
}

interface Settings {
  readonly level: number;
  readonly replicates: number;
  readonly seed: number;
}

type Described = Readonly<Record<keyof Coefficients, CoefficientValues>>;

/** With more replicates than this undefined, percentiles of the others speak of something else. */
const MOST_UNDEFINED = 0.1;

/** The three coefficients, each with its large-sample and its bootstrap interval, and their notes. */
export function describeCoefficients(
  data: ReadingData,
  settings: Settings,
): Described & { readonly notes: Note[] } {
  const { patterns } = data.grouped;
  const values = coefficientsOf(
    data,
    patterns.map(({ items }) => items),
  );
  const replicates = resampled(data, settings.seed, 0, settings.replicates);
  const notes: Note[] = [];
  const split = patterns.filter(({ counts, ratings }) => !counts.includes(ratings));
  const differing = sum(split.map(({ items }) => items));
  const describe = (name: keyof Coefficients, standardError: () => number | null, total: number) => {
    const value = values[name];
    if (value === null) return absent(name, data, notes);
    const large = largeSample(name, value, standardError(), total, settings.level);
    const redrawn = percentiles(
      name,
      value,
      replicates.map((entry) => entry[name]),
      settings.level,
    );
    const few = fewDisagreements(`${name}.estimate`, large.values.estimate, differing);
    notes.push(...large.notes, ...redrawn.notes, ...few);
    return { ...large.values, ...redrawn.values };
  };
  const rated = data.grouped.rated;
  const compared = sum(patterns.filter(({ ratings }) => ratings >= 2).map(({ items }) => items));
  const { plain, plainWeights, weighted, weights } = data;
  return {
    fleissKappa: describe("fleissKappa", () => influenceError(plain, "shares", plainWeights), rated),
    gwetAgreement: describe("gwetAgreement", () => influenceError(weighted, "spread", weights), rated),
    krippendorffAlpha: describe(
      "krippendorffAlpha",
      () => alphaStandardError(data.alpha, patterns),
      compared,
    ),
    notes,
  };
}

function influenceError(
  patterns: readonly MeasuredPattern[],
  rule: ChanceRule,
  weights: Matrix,
): number | null {
  const found = chanceAgreement(patterns, rule, weights);
  return found === null ? null : chanceStandardError(patterns, rule, weights, found);
}

function absent(name: keyof Coefficients, { grouped }: ReadingData, notes: Note[]): CoefficientValues {
  const compared = grouped.patterns.some(({ ratings }) => ratings >= 2);
  const message = compared
    ? "all ratings that can be compared are the same: chance leaves no room"
    : "no item was rated twice: nothing to compare";
  notes.push(note(compared ? "no_variation" : "nothing_compared", name, message));
  return { estimate: NOT_ESTIMABLE, standardError: null, bootstrap: NOT_ESTIMABLE, undefinedReplicates: 0 };
}

function largeSample(
  name: string,
  value: number,
  standardError: number | null,
  items: number,
  level: number,
): { values: Pick<CoefficientValues, "estimate" | "standardError">; notes: readonly Note[] } {
  const path = `${name}.estimate`;
  if (standardError === null) {
    const paths = [`${path}.lower`, `${path}.upper`, `${name}.standardError`];
    const message = "too few items: leaving one out leaves nothing to compute, or there is one only";
    return {
      values: { estimate: { ...NOT_ESTIMABLE, value }, standardError },
      notes: notesAt("one_item", paths, message),
    };
  }
  const multiple = tQuantile((1 - level) / 2, items - 1, "upper");
  const { estimate, notes } = aroundValue(path, value, standardError, multiple);
  return { values: { estimate, standardError }, notes };
}

function percentiles(
  name: string,
  value: number,
  replicates: readonly (number | null)[],
  level: number,
): { values: Pick<CoefficientValues, "bootstrap" | "undefinedReplicates">; notes: readonly Note[] } {
  const path = `${name}.bootstrap`;
  const drawn = replicates.filter((replicate) => replicate !== null);
  const undefinedReplicates = replicates.length - drawn.length;
  if (undefinedReplicates > MOST_UNDEFINED * replicates.length) {
    const message = `${undefinedReplicates} of ${replicates.length} replicates had no variation, or nothing to compare: no limits`;
    const bootstrap = { ...NOT_ESTIMABLE, value };
    const notes = notesAt("few_replicates", [`${path}.lower`, `${path}.upper`], message);
    return { values: { bootstrap, undefinedReplicates }, notes };
  }
  const { lower, upper } = simulated(Float64Array.from(drawn), level);
  const spread = upper.value - lower.value;
  if (spread < 1e-12) {
    const { estimate, notes } = withoutWidth(path, value);
    return { values: { bootstrap: estimate, undefinedReplicates }, notes };
  }
  const bootstrap = { value, lower: lower.value, upper: upper.value };
  const message = `${undefinedReplicates} of ${replicates.length} replicates could not give the coefficient and are left out`;
  const notes = undefinedReplicates > 0 ? [note("undefined_replicates", path, message)] : [];
  return { values: { bootstrap, undefinedReplicates }, notes };
}
