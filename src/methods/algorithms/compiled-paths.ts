import type { Algorithm, Result, Status } from "./model.ts";
import { pathsOf } from "./paths.ts";

/** What becomes of a person in the end; `lost`: inconclusive, asked to return, did not. */
export const ENDS = ["positive", "negative", "inconclusive", "lost"] as const;
export type End = (typeof ENDS)[number];

/** A place where a kit is run, invalid runs repeated so often. */
export interface Unit {
  readonly kit: number;
  readonly again: number;
}

/** A table of joint results of the valid runs of these kits, in ascending order. */
export interface CellTable {
  readonly kits: readonly number[];
  /** Where its 2^m cells begin. */
  readonly offset: number;
}

/** A product of chances of a valid result, and of none, by places in the list of units. */
export interface Weight {
  readonly valid: readonly number[];
  readonly invalid: readonly number[];
  readonly share: number;
}

/**
 * Several algorithms over the same kits, flattened so that thousands of draws can be put through: what
 * different paths have in common is listed, and computed, once.
 */
export interface CompiledAlgorithms {
  readonly algorithms: number;
  readonly kits: number;
  readonly units: readonly Unit[];
  readonly tables: readonly CellTable[];
  readonly cells: number;
  readonly weights: readonly Weight[];
  /** Units of which devices are used, per list. */
  readonly bills: readonly (readonly number[])[];
  /** Paths of algorithm a: from starts[a] to before starts[a + 1]. */
  readonly starts: Int32Array;
  readonly end: Uint8Array;
  readonly cell: Int32Array;
  readonly weight: Int32Array;
  readonly bill: Int32Array;
}

interface Passed {
  readonly unit: number;
  readonly result: Result;
}
interface Whole {
  readonly passed: readonly Passed[];
  readonly share: number;
  readonly end: End;
}

/** A kit to be run; with `invalid` 0 the paths on which a run of it is invalid are left out. */
export interface KitRuns {
  readonly id: string;
  readonly invalid?: number;
}

/** A list whose entries are found again by a key. */
class Register<Entry> {
  readonly entries: Entry[] = [];
  readonly #places = new Map<string, number>();

  place(key: string, make: () => Entry): number {
    const known = this.#places.get(key);
    if (known !== undefined) return known;
    this.#places.set(key, this.entries.length);
    return this.entries.push(make()) - 1;
  }
}

/**
 * @param algorithms already checked: every path ends
 * @param kits       in the order in which their shares will be given
 */
export function compileAlgorithms(
  algorithms: readonly Algorithm[],
  kits: readonly KitRuns[],
): CompiledAlgorithms {
  const units = new Register<Unit>();
  const tables = new Register<CellTable>();
  const weights = new Register<Weight>();
  const bills = new Register<readonly number[]>();
  const flat = { end: [] as number[], cell: [] as number[], weight: [] as number[], bill: [] as number[] };
  const starts = [0];
  let cells = 0;
  const tableOf = (places: readonly number[]) => {
    const make = () => {
      cells += 2 ** places.length;
      return { kits: places, offset: cells - 2 ** places.length };
    };
    return tables.entries[tables.place(places.join(" "), make)] as CellTable;
  };
  for (const algorithm of algorithms) {
    for (const whole of wholePaths(algorithm, kits, units)) {
      const { valid, invalid } = sorted(whole.passed, units.entries);
      const kitOf = ({ unit }: Passed) => (units.entries[unit] as Unit).kit;
      const bits = valid.reduce((sum, one, at) => (one.result === "reactive" ? sum | (1 << at) : sum), 0);
      const weight = { valid: valid.map(({ unit }) => unit), invalid, share: whole.share };
      const used = whole.passed.map(({ unit }) => unit).sort((a, b) => a - b);
      flat.end.push(ENDS.indexOf(whole.end));
      flat.cell.push(tableOf(valid.map(kitOf)).offset + bits);
      flat.weight.push(weights.place(JSON.stringify(weight), () => weight));
      flat.bill.push(bills.place(used.join(" "), () => used));
    }
    starts.push(flat.end.length);
  }
  return {
    algorithms: algorithms.length,
    kits: kits.length,
    units: units.entries,
    tables: tables.entries,
    cells,
    weights: weights.entries,
    bills: bills.entries,
    starts: Int32Array.from(starts),
    end: Uint8Array.from(flat.end),
    cell: Int32Array.from(flat.cell),
    weight: Int32Array.from(flat.weight),
    bill: Int32Array.from(flat.bill),
  };
}

/** Valid runs by kit, then unit; invalid ones by unit. Runs of one kit are alike, so their order is free. */
function sorted(passed: readonly Passed[], units: readonly Unit[]) {
  const kitOf = ({ unit }: Passed) => (units[unit] as Unit).kit;
  const valid = passed
    .filter(({ result }) => result !== "invalid")
    .sort((one, other) => kitOf(one) - kitOf(other) || one.unit - other.unit);
  const invalid = passed.filter(({ result }) => result === "invalid").map(({ unit }) => unit);
  return { valid, invalid: invalid.sort((a, b) => a - b) };
}

/** Every path to the very end: where people return, an inconclusive first pass goes on in a second. */
function wholePaths(algorithm: Algorithm, kits: readonly KitRuns[], units: Register<Unit>): Whole[] {
  const once = passesOf(algorithm, kits, units);
  const returning = algorithm.retest?.share ?? 0;
  return once.flatMap(({ passed, status }): Whole[] => {
    if (status !== "inconclusive" || algorithm.retest === null) return [{ passed, share: 1, end: status }];
    const again = once.map((second) => ({
      passed: [...passed, ...second.passed],
      share: returning,
      end: second.status,
    }));
    return [{ passed, share: 1 - returning, end: "lost" as const }, ...again].filter(
      ({ share }) => share > 0,
    );
  });
}

function passesOf(algorithm: Algorithm, kits: readonly KitRuns[], units: Register<Unit>) {
  return pathsOf(algorithm, kits).map(({ parts, status }): { passed: Passed[]; status: Status } => {
    const passed = parts.map(({ step, kit, result }) => {
      const again = algorithm.steps[step]?.again ?? 0;
      return { unit: units.place(`${kit} ${again}`, () => ({ kit, again })), result };
    });
    return { passed, status };
  });
}
