import type { Pair, RapidResult } from "./model.ts";

/** How invalid results and readings outside the window are treated. */
export interface Treatment {
  /** `failure`: an invalid result is wrong, whatever the reference says. */
  readonly invalid: "set_aside" | "failure" | "reactive" | "nonreactive";
  readonly outsideWindow: "keep" | "set_aside" | "invalid";
}

export type Where =
  | "true_positive"
  | "false_positive"
  | "false_negative"
  | "true_negative"
  | "rapid_not_done"
  | "reference_not_done"
  | "reference_indeterminate"
  | "outside_window"
  | "invalid";

/** In the order in which they are looked at. */
export const REASONS = [
  "rapid_not_done",
  "reference_not_done",
  "reference_indeterminate",
  "outside_window",
  "invalid",
] as const satisfies readonly Where[];

export function isAnalysed(end: Where): boolean {
  return !(REASONS as readonly Where[]).includes(end);
}

/**
 * Where one person ends. Order: no rapid result; no reference result; reference indeterminate; read
 * outside the window (where the treatment sets such readings aside); invalid.
 */
export function whereTo(pair: Pair, treatment: Treatment): Where {
  const rapid = treatedRapid(pair, treatment);
  if (rapid === "not_done") return "rapid_not_done";
  if (pair.reference === "not_done") return "reference_not_done";
  if (pair.reference === "indeterminate") return "reference_indeterminate";
  if (rapid === "outside_window") return "outside_window";
  const positive = pair.reference === "positive";
  const counted = rapid === "invalid" ? invalidAs(treatment.invalid, positive) : rapid;
  if (counted === null) return "invalid";
  if (counted === "reactive") return positive ? "true_positive" : "false_positive";
  return positive ? "false_negative" : "true_negative";
}

/** The rapid result after the treatment of readings outside the window. */
export function treatedRapid(pair: Pair, treatment: Treatment): RapidResult | "not_done" | "outside_window" {
  const outside = pair.window === "early" || pair.window === "late";
  if (!outside || pair.rapid === "not_done" || treatment.outsideWindow === "keep") return pair.rapid;
  return treatment.outsideWindow === "set_aside" ? "outside_window" : "invalid";
}

function invalidAs(treatment: Treatment["invalid"], positive: boolean): "reactive" | "nonreactive" | null {
  if (treatment === "set_aside") return null;
  if (treatment === "failure") return positive ? "nonreactive" : "reactive";
  return treatment;
}
