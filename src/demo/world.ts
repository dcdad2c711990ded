/** What the generator knows of its invented world, before any of it is written down as records. */
export type LineId = "T1" | "T2";
export type AnalyteId = "hbsag" | "anti_hcv";
export type SiteId = "B" | "O" | "T" | "K" | "L";
export type ArmId = "A" | "B";
export type OperatorId = `OP-${number}`;
type ReaderId = "R1" | "R2" | "OR";
export type InvalidCause = "no_flow" | "no_control" | "smear" | "leak";
export type TestedType = "venous_whole_blood" | "fingerstick";
export type Seen = "absent" | "faint" | "clear" | "unreadable";
export type Result = "reactive" | "nonreactive" | "invalid";
export type Status = "positive" | "negative" | "indeterminate" | "not_done";

export type ByLine<Value> = Readonly<Record<LineId, Value>>;
export type ByAnalyte<Value> = Readonly<Record<AnalyteId, Value>>;

export interface Person {
  readonly id: string;
  readonly site: SiteId;
  readonly arm: ArmId;
  /** Study day of enrolment. */
  readonly day: number;
  readonly ageBand: string;
  readonly sex: "female" | "male";
  readonly pregnant: "yes" | "no" | "na";
  readonly reason: string;
  readonly key: string;
  /** Whether the person truly has the condition. */
  readonly has: ByAnalyte<boolean>;
  /** What makes a line with this person's blood: the condition, something else, or nothing. */
  readonly source: ByLine<LineSource>;
  /** The enrolment this one repeats under a new code. */
  readonly alreadyEnrolledAs: Person | null;
}

/** The person's own line strength at 15 minutes, log10 units; `null` where no line should appear. */
export type LineSource =
  | { readonly kind: "condition" | "special"; readonly strength: number }
  | { readonly kind: "cross_reaction"; readonly strength: number }
  | { readonly kind: "none" };

export interface Visit {
  readonly person: Person;
  readonly number: number;
  readonly day: number;
  /** Second at which the visit begins. */
  readonly begins: number;
  readonly operator: OperatorId;
  readonly plasma: PlasmaSpecimen;
  readonly tested: readonly TestedSpecimen[];
}

interface PlasmaSpecimen {
  readonly id: string;
  readonly collectedAt: number;
}

export interface TestedSpecimen {
  readonly id: string;
  readonly type: TestedType;
  readonly collectedAt: number;
  readonly quality: "ok" | "haemolysed" | "short";
  /** Line strength at 15 minutes with this specimen; `null` where only background is there. */
  readonly strength: ByLine<number | null>;
}

/** One cassette used once. */
export interface Device {
  /** Given in the order of use, when all devices are known. */
  id: string;
  readonly visit: Visit;
  readonly specimen: TestedSpecimen;
  readonly lot: string;
  readonly attempt: number;
  readonly repeatOf: Device | null;
  readonly openedAt: number;
  readonly appliedAt: number;
  readonly bufferAt: number;
  readonly drops: number;
  readonly temperature: number;
  readonly humidity: number;
  readonly cause: InvalidCause | null;
  /** Planted: a T1 line was seen without the control line, and called reactive. */
  readonly lineWithoutControl: boolean;
  /** The device is invalid, but was typed as nonreactive: no repeat was made. */
  readonly typedNonreactive: boolean;
  /** Minutes from the buffer at which the first reader truly looked. */
  readonly lookedAfter: number;
  readonly background: ByLine<number>;
}

/** One reader's look at one device. */
export interface Reading {
  readonly device: Device;
  readonly reader: ReaderId;
  /** Recorded second; `null` where it was not written down. */
  readonly readAt: number | null;
  readonly enteredAt: number | null;
  readonly control: Seen;
  readonly seen: ByLine<Seen>;
  /** Only the optical reader's. */
  readonly intensity: { readonly C: number; readonly T1: number; readonly T2: number } | null;
  /** By the kit's rule: faint counts as reactive. */
  readonly result: ByLine<Result>;
}

/** What the first reader typed beside the lines. */
export interface Typed {
  readonly device: Device;
  readonly result: ByLine<Result>;
}

/** One component result of the reference laboratory. */
export interface ReferenceRun {
  readonly specimen: string;
  readonly analyte: AnalyteId;
  readonly assay: string;
  readonly step: number;
  readonly runAt: number;
  readonly run: string;
  readonly result: "reactive" | "nonreactive" | "indeterminate" | "failed";
  readonly value: number | null;
  readonly unit: string | null;
  readonly lab: string;
  readonly triggeredByIndex: boolean;
}

export interface Effects {
  /** Added to the strength of every line read at the site, log10 units. */
  readonly site: Readonly<Record<SiteId, ByLine<number>>>;
  /** Added to the visual threshold of the operator, log10 units. */
  readonly operator: ReadonlyMap<OperatorId, ByLine<number>>;
}

export interface World {
  readonly effects: Effects;
  readonly people: readonly Person[];
  readonly visits: readonly Visit[];
  readonly devices: readonly Device[];
  readonly readings: readonly Reading[];
  readonly typed: readonly Typed[];
  readonly runs: readonly ReferenceRun[];
  /** Final reference status of each visit, worked out while the laboratory was simulated. */
  readonly reference: ReadonlyMap<Visit, ByAnalyte<Status>>;
  /** Visits whose plasma gave no reference result, and why. */
  readonly withoutReference: ReadonlyMap<Visit, "pending" | "lost">;
}
