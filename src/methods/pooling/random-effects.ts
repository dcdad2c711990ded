import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf, chiSquareQuantile } from "../../numeric/chi-square.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import { notesAt } from "../notes-at.ts";
import { betweenVariance, type Effect, varianceWithQ, weightedBy } from "./between-variance.ts";
import {
  BETWEEN_ESTIMATORS,
  type BetweenEstimator,
  type ModelValues,
  type RandomEffectsValues,
  type Scale,
} from "./random-effects-fields.ts";

export interface LabelledEffect extends Effect {
  readonly label: string;
}

interface Asked {
  readonly effects: readonly LabelledEffect[];
  readonly scale: Scale;
  readonly level: number;
}

/** Effects pooled by inverse variance: one true effect, and true effects that scatter; notes without their place. */
export function pooledEffects(asked: Asked): { values: RandomEffectsValues; notes: Note[] } {
  const { effects, level } = asked;
  const several = effects.length > 1;
  const { mean, total, q } = weightedBy(effects, 0);
  const degreesOfFreedom = effects.length - 1;
  const fixedError = 1 / Math.sqrt(total);
  const summary = around(mean, normalQuantile((1 + level) / 2) * fixedError);
  const notes: Note[] = [];
  const natural = naturally(asked.scale, summary, "fixed.natural", notes);
  const variances = several ? variancesOf(effects) : null;
  const values: RandomEffectsValues = {
    studies: effects.length,
    betweenSd: several ? betweenSdOf(effects, level) : { value: null, lower: null, upper: null },
    heterogeneity: {
      q: several ? q : null,
      degreesOfFreedom,
      p: several ? chiSquareCdf(q, degreesOfFreedom, "upper") : null,
      iSquared: several ? (q > degreesOfFreedom ? (q - degreesOfFreedom) / q : 0) : null,
    },
    fixed: { summary, standardError: fixedError, natural },
    models: {
      dersimonianLaird: modelOf(asked, "dersimonianLaird", variances, notes),
      pauleMandel: modelOf(asked, "pauleMandel", variances, notes),
      ml: modelOf(asked, "ml", variances, notes),
      reml: modelOf(asked, "reml", variances, notes),
    },
    list: listOf(asked, variances?.reml ?? null),
  };
  return { values, notes: [...notes, ...countNotes(effects.length, variances)] };
}

type Variances = Readonly<Record<BetweenEstimator, number>>;

function variancesOf(effects: readonly Effect[]): Variances {
  return {
    dersimonianLaird: betweenVariance(effects, "dersimonianLaird"),
    pauleMandel: betweenVariance(effects, "pauleMandel"),
    ml: betweenVariance(effects, "ml"),
    reml: betweenVariance(effects, "reml"),
  };
}

function around(value: number, half: number): { value: number; lower: number; upper: number } {
  return { value, lower: value - half, upper: value + half };
}

/** Source: viechtbauer2007. */
function betweenSdOf(effects: readonly Effect[], level: number): Estimate {
  const degreesOfFreedom = effects.length - 1;
  const at = (target: number) => Math.sqrt(varianceWithQ(effects, target));
  const outside = (1 - level) / 2;
  return {
    value: at(degreesOfFreedom),
    lower: at(chiSquareQuantile(outside, degreesOfFreedom, "upper")),
    upper: at(chiSquareQuantile(outside, degreesOfFreedom, "lower")),
  };
}

const ABSENT = { value: null, lower: null, upper: null };
const NO_MODEL: ModelValues = {
  betweenSd: null,
  betweenVariance: null,
  summary: ABSENT,
  hartungKnapp: ABSENT,
  prediction: { lower: null, upper: null },
  standardError: null,
  hartungKnappError: null,
  natural: { summary: ABSENT, hartungKnapp: ABSENT, prediction: { lower: null, upper: null } },
};

function modelOf(
  { effects, level, scale }: Asked,
  estimator: BetweenEstimator,
  variances: Variances | null,
  notes: Note[],
): ModelValues {
  if (variances === null) return NO_MODEL;
  const variance = variances[estimator];
  const { mean, total, q } = weightedBy(effects, variance);
  const freedom = effects.length - 1;
  const standardError = 1 / Math.sqrt(total);
  const hartungKnappError = standardError * Math.sqrt(q / freedom);
  const side = (1 + level) / 2;
  const summary = around(mean, normalQuantile(side) * standardError);
  const hartungKnapp = around(mean, tQuantile(side, freedom) * hartungKnappError);
  const spread = Math.hypot(Math.sqrt(variance), standardError);
  const reach = freedom > 1 ? around(mean, tQuantile(side, freedom - 1) * spread) : ABSENT;
  const path = `models.${estimator}`;
  if (hartungKnappError < standardError) {
    const message =
      "the studies scatter less than chance would have it: the error of Hartung and Knapp is smaller than the plain one, use the wider limits";
    notes.push(note("narrower_than_plain", `${path}.hartungKnapp`, message));
  }
  const back = naturally(scale, reach, `${path}.natural.prediction`, notes);
  return {
    betweenSd: Math.sqrt(variance),
    betweenVariance: variance,
    summary,
    hartungKnapp,
    prediction: { lower: reach.lower, upper: reach.upper },
    standardError,
    hartungKnappError,
    natural: {
      summary: naturally(scale, summary, `${path}.natural.summary`, notes),
      hartungKnapp: naturally(scale, hartungKnapp, `${path}.natural.hartungKnapp`, notes),
      prediction: { lower: back.lower, upper: back.upper },
    },
  };
}

/** Transformed back; what no number can hold is `null`, with a note. */
function naturally(scale: Scale, given: Estimate, path: string, notes: Note[]): Estimate {
  const back = (part: "value" | "lower" | "upper") => {
    const on = given[part];
    if (on === null || scale === "as_given") return on;
    const natural = scale === "log" ? Math.exp(on) : 1 / (1 + Math.exp(-on));
    if (Number.isFinite(natural)) return natural;
    notes.push(note("unbounded", `${path}.${part}`, "too large to be written as a number"));
    return null;
  };
  return { value: back("value"), lower: back("lower"), upper: back("upper") };
}

function listOf({ effects, level }: Asked, between: number | null): RandomEffectsValues["list"] {
  const z = normalQuantile((1 + level) / 2);
  const fixedTotal = weightedBy(effects, 0).total;
  const randomTotal = weightedBy(effects, between ?? 0).total;
  return effects.map(({ label, effect, variance }) => ({
    label,
    effect: around(effect, z * Math.sqrt(variance)),
    standardError: Math.sqrt(variance),
    fixedWeight: 1 / variance / fixedTotal,
    randomWeight: between === null ? null : 1 / (variance + between) / randomTotal,
  }));
}

const FEW = 5;

function countNotes(studies: number, variances: Variances | null): Note[] {
  if (variances === null) {
    const message = "one study says nothing of how studies scatter";
    const paths = ["betweenSd", "heterogeneity", "models", "list.0.randomWeight"];
    return notesAt("one_study", paths, message);
  }
  const notes: Note[] = [];
  const natural = BETWEEN_ESTIMATORS.flatMap((name) => [
    `models.${name}.prediction`,
    `models.${name}.natural.prediction`,
  ]);
  if (studies === 2) notes.push(...notesAt("two_studies", natural, "two studies leave no degree of freedom"));
  if (studies < FEW) {
    const message = `${studies} studies: how far they scatter is hardly known, and limits from the normal distribution are too narrow; read those of Hartung and Knapp`;
    notes.push(note("few_studies", "betweenSd", message));
  }
  for (const name of BETWEEN_ESTIMATORS) {
    if (variances[name] > 0) continue;
    const message =
      "estimated at its boundary, 0: the studies scatter no more than chance; that is no proof that they are alike, see the limits of betweenSd";
    notes.push(note("boundary", `models.${name}.betweenSd`, message));
  }
  return notes;
}
