import { type Note, note } from "../../core/note.ts";
import { binomialLogMass } from "../../numeric/binomial.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { gaussHermite } from "../../numeric/gauss-hermite.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import { notesAt } from "../notes-at.ts";
import { estimateProportion } from "../proportion/proportion-interval.ts";
import { pooledEffects } from "./random-effects.ts";
import type { RandomEffectsValues } from "./random-effects-fields.ts";
import type { Counted } from "./random-intercept.ts";
import { commonLogOdds, type InterceptFit } from "./random-intercept-fit.ts";
import type {
  BinomialValues,
  UnivariateInput,
  UnivariateOptions,
  UnivariateValues,
} from "./univariate-fields.ts";

const ABSENT = { value: null, lower: null, upper: null };
export const NO_BINOMIAL: BinomialValues = {
  logOdds: ABSENT,
  standardError: null,
  proportion: ABSENT,
  profile: ABSENT,
  average: null,
  betweenSd: ABSENT,
  betweenVariance: null,
  prediction: { lower: null, upper: null },
  logLikelihood: null,
};

export function proportionAt(logOdds: number): number {
  return 1 / (1 + Math.exp(-logOdds));
}

const AVERAGING = 101;

/** The random intercept as it is told. */
export function binomialOf(fit: InterceptFit, studies: number, level: number): BinomialValues {
  const { mean, betweenSd, standardError, meanLimits, betweenLimits } = fit;
  const logOdds = around(mean, normalQuantile((1 + level) / 2) * standardError);
  const back = (limit: number | null) => (limit === null ? null : proportionAt(limit));
  const { nodes, weights } = gaussHermite(AVERAGING);
  const average = nodes.reduce(
    (sum, node, k) => sum + (weights[k] as number) * proportionAt(mean + betweenSd * node),
    0,
  );
  const reach =
    studies > 2 ? tQuantile((1 + level) / 2, studies - 2) * Math.hypot(betweenSd, standardError) : null;
  return {
    logOdds,
    standardError,
    proportion: {
      value: proportionAt(mean),
      lower: proportionAt(logOdds.lower),
      upper: proportionAt(logOdds.upper),
    },
    profile: { value: proportionAt(mean), lower: back(meanLimits.lower), upper: back(meanLimits.upper) },
    average,
    betweenSd: { value: betweenSd, ...betweenLimits },
    betweenVariance: Math.pow(betweenSd, 2),
    prediction:
      reach === null
        ? { lower: null, upper: null }
        : { lower: proportionAt(mean - reach), upper: proportionAt(mean + reach) },
    logLikelihood: fit.logLikelihood,
  };
}

function around(value: number, half: number): { value: number; lower: number; upper: number } {
  return { value, lower: value - half, upper: value + half };
}

/** All people together. */
export function commonOf(
  studies: readonly Counted[],
  { level }: UnivariateOptions,
  notes: Note[],
): UnivariateValues["common"] {
  const count = studies.reduce((sum, study) => sum + study.count, 0);
  const total = studies.reduce((sum, study) => sum + study.total, 0);
  const proportion = estimateProportion(count, total, { level });
  if (total === 0) {
    notes.push(...notesAt("no_observations", ["common", "studies"], "nobody was observed"));
    return { proportion, logOdds: ABSENT, logLikelihood: null };
  }
  const logLikelihood = studies.reduce(
    (sum, study) => sum + binomialLogMass(study.count, study.total, count / total),
    0,
  );
  if (count === 0 || count === total) {
    notes.push(
      note("unbounded", "common.logOdds", "all people have the same result: log odds without bound"),
    );
    return { proportion, logOdds: ABSENT, logLikelihood };
  }
  const error = Math.sqrt(1 / count + 1 / (total - count));
  const logOdds = around(commonLogOdds(studies), normalQuantile((1 + level) / 2) * error);
  return { proportion, logOdds, logLikelihood };
}

/** Half of chi-square's tail: the scatter can't be negative. Source: self1987. */
export function equalityOf(fit: InterceptFit | null, common: number | null): UnivariateValues["equality"] {
  if (fit === null || common === null) return { chiSquare: null, p: null };
  const chiSquare = fit.betweenSd > 0 ? Math.max(0, 2 * (fit.logLikelihood - common)) : 0;
  return { chiSquare, p: chiSquare > 0 ? chiSquareCdf(chiSquare, 1, "upper") / 2 : 1 };
}

/** Log odds pooled by inverse variance. */
export function approximated(
  { correction }: UnivariateInput,
  studies: UnivariateInput["studies"],
  level: number,
  notes: Note[],
): RandomEffectsValues | null {
  if (studies.length === 0) {
    notes.push(note("no_observations", "approximate", "nobody was observed"));
    return null;
  }
  const zero = ({ count, total }: Counted) => count === 0 || count === total;
  if (correction === "none" && studies.some(zero)) {
    const message =
      "a count of 0 has no log odds: name a correction, or leave it at the exact likelihood, which needs none";
    notes.push(note("zero_count", "approximate", message));
    return null;
  }
  const effects = studies.map((study) => {
    const added = correction === "all" || (correction === "zero_cells" && zero(study)) ? 0.5 : 0;
    const yes = study.count + added;
    const no = study.total - study.count + added;
    return { label: study.label, effect: Math.log(yes / no), variance: 1 / yes + 1 / no };
  });
  const found = pooledEffects({ effects, scale: "logit", level });
  notes.push(...found.notes.map((one) => ({ ...one, path: `approximate.${one.path}` })));
  return found.values;
}
