import type { Kit } from "./kit.ts";
import type { Selection, Study } from "./study.ts";

/**
 * What records become on their way to the numbers: files -> device results (by the kit's rules) ->
 * pairs (one person, one analyte) -> counts. The three input shapes meet at `PairedSet`.
 */

/** A file handed in. Reading from disk is the caller's business. */
export interface InputFile {
  /** Path relative to the study folder, with `/`. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

export type Severity = "error" | "warning" | "note";

/** What became of the row or the value that an issue speaks of. */
export type Consequence = "row_set_aside" | "value_ignored" | "kept";

/** A fault in the data. Data, not a crash: reading goes on so that all are seen at once. */
export interface RowIssue {
  /** Stable code of the rule, e.g. `duplicate_device`. */
  readonly rule: string;
  readonly severity: Severity;
  readonly file: string;
  /** Line in the file, the header being 1; `null` where the issue is of the whole file. */
  readonly row: number | null;
  readonly column: string | null;
  readonly expected: string;
  readonly received: string;
  readonly consequence: Consequence;
}

/** Where each row of one table went: `rows` = `analysed` + the sum of `setAside`. */
export interface TableLedger {
  readonly file: string;
  readonly rows: number;
  readonly analysed: number;
  readonly setAside: readonly { readonly reason: string; readonly rows: readonly number[] }[];
}

export type RapidResult = "reactive" | "nonreactive" | "invalid";
export type InvalidReason = "control_absent" | "unreadable" | "too_early" | "too_late" | "recorded_invalid";
export type WindowStatus = "early" | "in" | "late" | "unknown";
export type ReferenceStatus = "positive" | "negative" | "indeterminate" | "not_done";
export type ReadingMethod = "eye" | "eye_photo" | "optical";

/** One reader's result for one analyte on one device, derived from the lines by the kit file. */
export interface DeviceResult {
  readonly device: string;
  readonly person: string;
  readonly visit: number;
  readonly specimen: string;
  readonly analyte: string;
  readonly kit: string;
  readonly reader: string;
  readonly method: ReadingMethod;
  readonly attempt: number;
  readonly result: RapidResult;
  readonly reason: InvalidReason | null;
  /** A test line was seen although the control line was absent: invalid all the same, and counted. */
  readonly lineWithoutControl: boolean;
  readonly faint: boolean;
  readonly window: WindowStatus;
  /** Minutes from the timed step to the reading; `null` when not recorded or impossible. */
  readonly minutes: number | null;
  readonly intensity: number | null;
  readonly site: string | null;
  readonly lot: string | null;
  readonly operator: string | null;
}

/** A typed interpretation held against the result that the kit file derives from the same reader's lines. */
export interface InterpretationCheck {
  readonly device: string;
  readonly reader: string;
  readonly analyte: string;
  readonly typed: RapidResult;
  readonly derived: RapidResult;
  /** What the first other reader's lines give; `null` without one. */
  readonly other: RapidResult | null;
}

/** One reader's first and second reading of the same device. */
export interface Reread {
  readonly device: string;
  readonly person: string;
  readonly analyte: string;
  readonly kit: string;
  readonly specimen: string;
  readonly reader: string;
  readonly first: ReadAt;
  readonly second: ReadAt;
}

export interface ReadAt {
  readonly result: RapidResult;
  readonly window: WindowStatus;
  readonly minutes: number | null;
}

/** One person's (or `weight` people's) rapid result beside the reference status of one analyte. */
export interface Pair {
  /** Study code; for counts, the row. */
  readonly person: string;
  readonly weight: number;
  readonly rapid: RapidResult | "not_done";
  /** The first device's result, before any repeat; equals `rapid` where there was none. */
  readonly firstRapid: RapidResult | "not_done";
  readonly invalidReason: InvalidReason | null;
  readonly faint: boolean;
  readonly window: WindowStatus;
  readonly minutes: number | null;
  readonly reference: ReferenceStatus;
  readonly site: string | null;
  readonly selection: Selection;
  /** Group of each stratum of the study file, by stratum id; `null` where not recorded. */
  readonly strata: Readonly<Record<string, string | null>>;
  /** What an instrument measured on the device that counts; absent where the study file names no instrument. */
  readonly measured?: Measured;
}

/** The device that counts, and the number an instrument gave; `null` where it gave none. */
export interface Measured {
  readonly device: string | null;
  readonly intensity: number | null;
}

/** Why people of a paired set are not in it. */
export interface SetAside {
  readonly reason: string;
  readonly people: number;
}

/**
 * Everyone's pair for one analyte, one specimen type and one reader. `pairs` holds all enrolled
 * and eligible people, also those without a valid rapid or reference result: the treatments of
 * invalid and out-of-window results are chosen later, when tallying.
 */
export interface PairedSet {
  readonly analyte: string;
  readonly kit: string;
  readonly specimen: string;
  /** Reader id, `consensus`, or `recorded` for result-level and count records. */
  readonly reader: string;
  readonly method: ReadingMethod | "recorded";
  readonly pairs: readonly Pair[];
  /** People who never reach `pairs`: not eligible, no consent, second enrolment, rows set aside … */
  readonly before: readonly SetAside[];
}

/** A threat to validity that the records themselves show; raised on the report's first page. */
export interface Alarm {
  readonly code:
    | "reference_triggered_by_index"
    | "reading_not_blinded"
    | "reference_not_blinded"
    | "lot_confounded_with_site"
    | "single_lot"
    | "criterion_after_first_result"
    | "criterion_undated"
    | "partial_verification"
    | "enriched_sample"
    | "comparator_not_reference"
    | "second_reader_copied"
    | "discrepant_only_retested"
    | "outside_window"
    | "rows_set_aside"
    | "wrong_typed_results";
  readonly count: number;
  readonly total: number | null;
  /** Names the case: lot, site, criterion, analyte … */
  readonly subjects: readonly string[];
}

/** Devices run at one concentration, 0 for a blank, in one run. */
export interface PanelRow {
  readonly line: number;
  readonly lot: string | null;
  readonly concentration: number;
  readonly tested: number;
  readonly reactive: number;
}

/** The rows of a dilution panel that can be used. */
export interface PanelRecords {
  readonly id: string;
  readonly rows: readonly PanelRow[];
}

/** Everything read from a study folder. */
export interface StudyRecords {
  readonly study: Study;
  /** The main kit first. */
  readonly kits: readonly Kit[];
  readonly issues: readonly RowIssue[];
  readonly ledger: readonly TableLedger[];
  /** Empty for counts. */
  readonly results: readonly DeviceResult[];
  readonly interpretations: readonly InterpretationCheck[];
  readonly rereadings: readonly Reread[];
  readonly sets: readonly PairedSet[];
  /** One for each panel of the study file, same order. */
  readonly panels: readonly PanelRecords[];
  readonly alarms: readonly Alarm[];
  readonly totals: RecordTotals;
}

export interface RecordTotals {
  readonly enrolled: number;
  readonly devices: number;
  readonly readings: number;
  readonly lots: readonly string[];
  readonly sites: readonly string[];
  readonly operators: number;
  readonly firstResultOn: string | null;
  readonly lastResultOn: string | null;
  /** Devices, not readings, on which anyone saw a test line but no control line. */
  readonly lineWithoutControl: number;
  readonly repeats: number;
}
