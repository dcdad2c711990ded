import type { InvalidReason, RapidResult, WindowStatus } from "./model.ts";

export type LineSeen = "absent" | "faint" | "clear" | "unreadable";

/** What one reader saw of the control line and of one test line. */
export interface SeenLines {
  readonly control: LineSeen;
  readonly test: LineSeen;
}

/** What the kit file says about reading a line. */
export interface LineRule {
  readonly faintLine: "reactive" | "nonreactive";
}

export interface LineResult {
  readonly result: RapidResult;
  readonly reason: InvalidReason | null;
  /** A test line was seen without a control line: invalid all the same. */
  readonly lineWithoutControl: boolean;
  /** The test line was faint. */
  readonly faint: boolean;
}

/**
 * The result that one reader's lines give. Checks run in the order written; the first one that
 * fails gives the reason. Time plays no part here: readings outside the window are flagged, and the
 * analysis chooses what to do with them.
 *
 * A faint control line counts as a control line, and any visible test line is reactive unless the
 * kit file says otherwise of faint ones (common practice, no source).
 */
export function lineResult(lines: SeenLines, rule: LineRule): LineResult {
  const seen = lines.test === "faint" || lines.test === "clear";
  const faint = lines.test === "faint";
  const invalid = (reason: InvalidReason, lineWithoutControl = false): LineResult => ({
    result: "invalid",
    reason,
    lineWithoutControl,
    faint,
  });
  if (lines.control === "absent") return invalid("control_absent", seen);
  if (lines.control === "unreadable") return invalid("unreadable");
  if (lines.test === "unreadable") return invalid("unreadable");
  const reactive = lines.test === "clear" || (faint && rule.faintLine === "reactive");
  return { result: reactive ? "reactive" : "nonreactive", reason: null, lineWithoutControl: false, faint };
}

/** An instrument sees a line where the intensity reaches the cut-off, the cut-off itself included. */
export function seenByInstrument(intensity: number, cutoff: number): LineSeen {
  return intensity >= cutoff ? "clear" : "absent";
}

/** Whether a reading falls into the window, both ends included (common practice, no source). */
export function windowStatus(
  minutes: number | null,
  window: { readonly from_minutes: number; readonly to_minutes: number } | undefined,
): WindowStatus {
  if (minutes === null || window === undefined) return "unknown";
  if (minutes < window.from_minutes) return "early";
  if (minutes > window.to_minutes) return "late";
  return "in";
}

/** Longest time from the timed step to a reading that is taken for a result, in minutes. */
export const LONGEST_MINUTES = 1440;
