import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { deviance } from "../../numeric/deviance.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import { notesAt } from "../notes-at.ts";
import { type BinaryLine, type BinaryRow, binaryLine, type Link, sharesAt } from "./binary-line.ts";
import type { DetectionInput, DetectionOptions, FitValues } from "./detection-limit-fields.ts";
import { type Dose, fiducialLimits } from "./fiducial.ts";

export interface Asked {
  readonly rows: readonly BinaryRow[];
  readonly lackOfFit: DetectionInput["lackOfFit"];
  readonly options: DetectionOptions;
}

/** One line fitted to the rows, as it is told; notes with their full path. */
export function detectionFit(
  { rows, lackOfFit, options }: Asked,
  link: Link,
): { line: BinaryLine; values: FitValues; notes: Note[] } {
  const notes: Note[] = [];
  const line = binaryLine(rows, link);
  const scatter = scatterAround(line, rows);
  const factor = factorOf(scatter, lackOfFit, options.shownBelow);
  const side = (1 + options.level) / 2;
  const reach = factor > 1 ? tQuantile(side, scatter.degreesOfFreedom) : normalQuantile(side);
  const dose: Dose = { line, spread: reach * Math.sqrt(factor) };
  const interceptError = Math.sqrt(line.interceptVariance);
  const slopeError = Math.sqrt(line.slopeVariance);
  const around = (value: number, error: number) => ({
    value,
    lower: value - dose.spread * error,
    upper: value + dose.spread * error,
  });
  const values: FitValues = {
    intercept: around(line.intercept, interceptError),
    interceptError,
    slope: around(line.slope, slopeError),
    slopeError,
    covariance: line.covariance,
    fit: { ...scatter, factor, g: Math.pow(dose.spread * slopeError, 2) / Math.pow(line.slope, 2) },
    concentrations: options.probabilities.map((probability) => concentrationAt(dose, link, probability)),
    curve: curveOf(dose, rows),
  };
  notes.push(
    ...fitNotes(values, scatter, rows, line).map((one) => ({ ...one, path: `${link}.${one.path}` })),
  );
  return { line, values: finite(values, notes, link), notes };
}

interface Scatter {
  readonly deviance: number;
  readonly pearson: number;
  readonly degreesOfFreedom: number;
  readonly p: number | null;
}

function scatterAround({ link, intercept, slope }: BinaryLine, rows: readonly BinaryRow[]): Scatter {
  let distance = 0;
  let pearson = 0;
  for (const { x, count, total } of rows) {
    const { yes, no } = sharesAt(link, intercept + slope * x);
    distance += 2 * (partOf(count, total * yes) + partOf(total - count, total * no));
    if (yes > 0 && no > 0) pearson += Math.pow(count - total * yes, 2) / (total * yes * no);
  }
  const degreesOfFreedom = rows.length - 2;
  const p = degreesOfFreedom > 0 ? chiSquareCdf(pearson, degreesOfFreedom, "upper") : null;
  return { deviance: distance, pearson, degreesOfFreedom, p };
}

function partOf(seen: number, expected: number): number {
  return seen === 0 && expected === 0 ? 0 : deviance(seen, expected);
}

/** Source: finney1971. */
function factorOf(
  { pearson, degreesOfFreedom, p }: Scatter,
  lackOfFit: DetectionInput["lackOfFit"],
  shownBelow: number,
): number {
  if (lackOfFit === "ignore" || p === null) return 1;
  if (lackOfFit === "widen_when_shown" && p >= shownBelow) return 1;
  return Math.max(1, pearson / degreesOfFreedom);
}

function concentrationAt(dose: Dose, link: Link, probability: number): FitValues["concentrations"][number] {
  const height = link === "probit" ? normalQuantile(probability) : Math.log(probability / (1 - probability));
  const log10 = fiducialLimits(dose, height);
  const back = (part: number | null) => (part === null ? null : Math.pow(10, part));
  return {
    probability,
    log10,
    concentration: { value: back(log10.value), lower: back(log10.lower), upper: back(log10.upper) },
  };
}

const CURVE_POINTS = 61;

function curveOf({ line, spread }: Dose, rows: readonly BinaryRow[]): FitValues["curve"] {
  const places = rows.map(({ x }) => x);
  const [from, to] = [Math.min(...places), Math.max(...places)];
  return Array.from({ length: CURVE_POINTS }, (_, step) => {
    const x = from + ((to - from) * step) / (CURVE_POINTS - 1);
    const height = line.intercept + line.slope * x;
    const variance = line.interceptVariance + 2 * x * line.covariance + x * x * line.slopeVariance;
    const half = spread * Math.sqrt(Math.max(0, variance));
    return {
      concentration: Math.pow(10, x),
      probability: {
        value: sharesAt(line.link, height).yes,
        lower: sharesAt(line.link, height - half).yes,
        upper: sharesAt(line.link, height + half).yes,
      },
    };
  });
}

const FEW = 1;

function fitNotes(values: FitValues, scatter: Scatter, rows: readonly BinaryRow[], line: BinaryLine): Note[] {
  const notes: Note[] = [];
  const { fit, slope } = values;
  if (!line.converged)
    notes.push(note("not_converged", "fit", "the search ended before it stood at a maximum"));
  if (scatter.p === null) {
    notes.push(note("no_freedom", "fit.p", "two rows: a line always fits, which says nothing"));
  } else if (rows.some(({ x, total }) => leastExpected(line, x, total) < FEW)) {
    const message = `fewer than ${FEW} reactive or non-reactive device expected in some row: this p-value is rough`;
    notes.push(note("few_expected", "fit.p", message));
  }
  if (fit.factor !== null && fit.factor > 1) {
    const message = `rows scatter around the line ${fit.factor.toPrecision(3)} times as much as chance: limits are widened by it, with t of ${fit.degreesOfFreedom} degrees of freedom`;
    notes.push(note("widened", "fit.factor", message));
  }
  if ((slope.value as number) <= 0) {
    const message = "reactivity does not rise with the concentration: no limit of detection can be read off";
    return [...notes, ...notesAt("falls", ["concentrations"], message)];
  }
  if (fit.g === null || fit.g >= 1) {
    const message =
      "the slope can't be told from 0 at this level: every concentration may be the one looked for, there are no fiducial limits. Test more devices where the share changes";
    notes.push(note("slope_unclear", "concentrations", message));
  }
  return [...notes, ...beyondNotes(values, rows)];
}

function leastExpected({ link, intercept, slope }: BinaryLine, x: number, total: number): number {
  const { yes, no } = sharesAt(link, intercept + slope * x);
  return total * Math.min(yes, no);
}

function beyondNotes({ concentrations }: FitValues, rows: readonly BinaryRow[]): Note[] {
  const places = rows.map(({ x }) => x);
  const [from, to] = [Math.min(...places), Math.max(...places)];
  return concentrations.flatMap(({ log10 }, place) => {
    if (log10.value === null || (log10.value >= from && log10.value <= to)) return [];
    const message = "beyond the concentrations tested: it rests on the shape of the line alone";
    return [note("beyond_tested", `concentrations.${place}`, message)];
  });
}

/** Powers of ten that no number can hold become `null`, with a note. */
function finite(values: FitValues, notes: Note[], link: Link): FitValues {
  const concentrations = values.concentrations.map((entry, place) => {
    const part = (name: "value" | "lower" | "upper") => {
      const value = entry.concentration[name];
      if (value === null || Number.isFinite(value)) return value;
      const path = `${link}.concentrations.${place}.concentration.${name}`;
      notes.push(note("unbounded", path, "too large to be written as a number"));
      return null;
    };
    return { ...entry, concentration: { value: part("value"), lower: part("lower"), upper: part("upper") } };
  });
  const { g } = values.fit;
  if (g === null || Number.isFinite(g)) return { ...values, concentrations };
  notes.push(note("unbounded", `${link}.fit.g`, "the slope is 0: too large to be written as a number"));
  return { ...values, fit: { ...values.fit, g: null }, concentrations };
}
