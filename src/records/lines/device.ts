import type { LineKit } from "../kit.ts";
import type { DeviceResult, ReadingMethod, WindowStatus } from "../model.ts";
import type { Moment } from "../moments.ts";
import type { LineSeen } from "../reading-rules.ts";
import type { Specimen } from "./specimens.ts";

/** One device, used once. */
export interface Device {
  readonly id: string;
  readonly row: number;
  readonly kit: LineKit;
  readonly specimen: Specimen;
  readonly attempt: number;
  readonly lot: string | null;
  readonly operator: string | null;
  /** The step from which the reading window is counted. */
  readonly timedFrom: Moment | null;
  readonly appliedAt: Moment | null;
  readonly recordedInvalid: string | null;
  /** Each reader's first reading. */
  readonly readings: Reading[];
  /** Second readings by the same reader; they are compared with the first, and decide nothing. */
  again: readonly Reading[];
  /** Results of a device recorded as invalid without any reading, by analyte; `null` otherwise. */
  recorded: readonly (DeviceResult | null)[] | null;
  /** Why nothing of this device is analysed. */
  reason: string | null;
}

/** What one reader saw on one device at one time. Lines stand in the order of the kit file. */
export interface Reading {
  readonly device: Device;
  readonly reader: string;
  readonly method: ReadingMethod;
  readonly number: number;
  /** First row of the reading. */
  readonly row: number;
  /** Row of each line; -1 where the table has none. In the wide form all the same. */
  readonly rows: number[];
  readonly seen: (LineSeen | null)[];
  /** Measured intensity of each line; `null` where nothing was measured. */
  intensity: (number | null)[] | null;
  /** Lines whose row was set aside with an issue of its own. */
  broken: boolean;
  minutes: number | null;
  window: WindowStatus;
  blinded: boolean | null;
  /** Results by analyte, in the order of the study file; `null` where a line is missing or the kit has none. */
  results: readonly (DeviceResult | null)[];
}
