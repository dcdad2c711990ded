import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { findRoot } from "../../numeric/root.ts";
import { type Verdict, verdictOf } from "../proportion/criterion.ts";
import { completedMeasure, logitEstimate, type OddsRatios, unverifiedShare } from "./completed.ts";
import type { Cell, Result } from "./fields.ts";
import type { Axis, AxisValues, SensitivityInput, SensitivityOptions } from "./sensitivity-fields.ts";

/** What is asked, ready to be judged at any odds ratios. */
export interface Question {
  readonly cells: readonly Cell[];
  readonly criterion: SensitivityInput["criterion"];
  readonly options: SensitivityOptions;
}

export function ratiosOn(axis: Axis, oddsRatio: number): OddsRatios {
  return {
    reactive: axis === "nonreactive" ? 1 : oddsRatio,
    nonreactive: axis === "reactive" ? 1 : oddsRatio,
  };
}

/** The measure asked for, with its limits, if verification hangs on the true state by these odds ratios. */
export function estimateAt({ cells, criterion, options }: Question, ratios: OddsRatios): Estimate {
  const found = completedMeasure(cells, criterion.measure, ratios);
  return found === null ? NOT_ESTIMABLE : logitEstimate(found, options.level);
}

export function verdictOn({ criterion, options }: Question, { value, lower, upper }: Estimate): Verdict {
  const limits = options.rule === "point" ? { lower: value, upper: value } : { lower, upper };
  return verdictOf(limits, criterion.threshold, criterion.direction);
}

/** Odds ratios looked at: evenly spread in their logarithm below 1 and above it, 1 among them. */
export function oddsRatiosOf({ lowest, highest, points }: SensitivityOptions): number[] {
  const steps = Array.from({ length: points }, (_, at) => at + 1);
  const below =
    lowest < 1 ? steps.map((step) => (step === points ? lowest : Math.pow(lowest, step / points))) : [];
  const above =
    highest > 1 ? steps.map((step) => (step === points ? highest : Math.pow(highest, step / points))) : [];
  return [...below.reverse(), 1, ...above];
}

/** One axis: the measure at each odds ratio, and where the verdict changes. */
export function alongAxis(question: Question, axis: Axis, oddsRatios: readonly number[]): AxisValues {
  const { cells } = question;
  const points = oddsRatios.map((oddsRatio) => {
    const ratios = ratiosOn(axis, oddsRatio);
    const estimate = estimateAt(question, ratios);
    return {
      oddsRatio,
      estimate,
      sensitivity: completedMeasure(cells, "sensitivity", ratios)?.value ?? null,
      specificity: completedMeasure(cells, "specificity", ratios)?.value ?? null,
      verdict: verdictOn(question, estimate),
    };
  });
  const borders = bordersOn(question, axis, oddsRatios);
  const ratios = borders.map(({ oddsRatio }) => oddsRatio);
  const holds = {
    from: Math.max(oddsRatios[0] ?? 1, ...ratios.filter((ratio) => ratio <= 1)),
    to: Math.min(oddsRatios.at(-1) ?? 1, ...ratios.filter((ratio) => ratio > 1)),
  };
  return { points, borders, holds };
}

type Border = AxisValues["borders"][number] & { readonly oddsRatio: number };
const SCAN_STEPS = 24;

/**
 * Every odds ratio at which a limit (or the estimate) crosses the threshold: a fine grid first, in the
 * logarithm, then the root between neighbours on different sides.
 */
function bordersOn(question: Question, axis: Axis, oddsRatios: readonly number[]): Border[] {
  const borders: Border[] = [];
  const logs = finer(oddsRatios.map(Math.log));
  const sides = question.options.rule === "point" ? (["value"] as const) : (["lower", "upper"] as const);
  for (const side of sides) {
    const gap = (log: number) => {
      const found = estimateAt(question, ratiosOn(axis, Math.exp(log)))[side];
      return found === null ? Number.NaN : found - question.criterion.threshold;
    };
    const gaps = logs.map(gap);
    for (let at = 1; at < logs.length; at += 1) {
      const [before, after] = [gaps[at - 1] as number, gaps[at] as number];
      if (Number.isNaN(before) || Number.isNaN(after) || before >= 0 === after >= 0) continue;
      const { root } = findRoot(gap, logs[at - 1] as number, logs[at] as number, { absolute: 1e-13 });
      borders.push(borderAt(question, axis, root));
    }
  }
  return borders
    .filter(({ below, above }) => below !== above)
    .sort((one, other) => one.oddsRatio - other.oddsRatio);
}

function finer(logs: readonly number[]): number[] {
  return logs.flatMap((log, at) => {
    const next = logs[at + 1];
    if (next === undefined) return [log];
    return Array.from({ length: SCAN_STEPS }, (_, step) => log + ((next - log) * step) / SCAN_STEPS);
  });
}

const JUST = 1e-7;

function borderAt(question: Question, axis: Axis, log: number): Border {
  const verdict = (place: number) =>
    verdictOn(question, estimateAt(question, ratiosOn(axis, Math.exp(place))));
  const ratios = ratiosOn(axis, Math.exp(log));
  return {
    oddsRatio: Math.exp(log),
    below: verdict(log - JUST),
    above: verdict(log + JUST),
    unverifiedReactive: shareAmong(question.cells, "reactive", ratios),
    unverifiedNonreactive: shareAmong(question.cells, "nonreactive", ratios),
  };
}

/** Share of diseased that these odds ratios mean among all unverified people with a result. */
function shareAmong(cells: readonly Cell[], result: Result, ratios: OddsRatios): number | null {
  let diseased = 0;
  let people = 0;
  for (const cell of cells) {
    if (cell.result !== result) continue;
    diseased += cell.unverified * unverifiedShare(cell, ratios[result]);
    people += cell.unverified;
  }
  return people === 0 ? null : diseased / people;
}
