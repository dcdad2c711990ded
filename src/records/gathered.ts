import type { DeviceResult, InterpretationCheck, PairedSet, PanelRecords, Reread } from "./model.ts";
import type { Table } from "./table.ts";

/** What reading one shape of records yields, before ledger, alarms and totals are made of it. */
export interface Gathered {
  readonly tables: readonly Table[];
  readonly people: { readonly enrolled: number; readonly sites: readonly string[] };
  readonly results: readonly DeviceResult[];
  readonly interpretations: readonly InterpretationCheck[];
  readonly rereadings: readonly Reread[];
  readonly sets: readonly PairedSet[];
  readonly panels: readonly PanelRecords[];
  readonly readings: {
    /** All that count, second readings too. */
    readonly total: number;
    /** First readings that were not blinded. */
    readonly notBlinded: number;
    /** First readings that say whether they were blinded. */
    readonly blindingStated: number;
  };
  /** First and last day of a result. */
  readonly days: readonly [string, string] | null;
  readonly reference: {
    readonly total: number;
    readonly triggered: number;
    readonly notBlinded: number;
    readonly blindingStated: number;
    readonly triggeringLabs: ReadonlySet<string>;
  };
  readonly copied: { readonly compared: number; readonly suspect: number };
  readonly retested: readonly Retested[];
  readonly devices: readonly UsedDevice[];
}

/** One device that counts, for lots, operators and repeats. */
export interface UsedDevice {
  readonly kit: string;
  readonly lot: string | null;
  readonly operator: string | null;
  readonly attempt: number;
  readonly site: string | null;
}

/** Reference tests beyond the algorithm, by whether rapid result and first reference result agreed. */
export interface Retested {
  readonly analyte: string;
  readonly kit: string;
  readonly people: number;
  readonly discordant: number;
  readonly retested: number;
  readonly retestedDiscordant: number;
}

/** Nothing gathered yet: the start for shapes that lack some of it. */
export function noGathered(): Gathered {
  return {
    tables: [],
    people: { enrolled: 0, sites: [] },
    results: [],
    interpretations: [],
    rereadings: [],
    sets: [],
    panels: [],
    readings: { total: 0, notBlinded: 0, blindingStated: 0 },
    days: null,
    reference: { total: 0, triggered: 0, notBlinded: 0, blindingStated: 0, triggeringLabs: new Set() },
    copied: { compared: 0, suspect: 0 },
    retested: [],
    devices: [],
  };
}
