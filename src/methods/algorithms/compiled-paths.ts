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

/** What the paths of all algorithms have in common, each once. */
interface Lists {
  readonly units: Register<Unit>;
  readonly tables: Register<CellTable>;
  readonly weights: Register<Weight>;
  readonly bills: Register<readonly number[]>;
}

/**
 * @param algorithms already checked: every path ends
 * @param kits       in the order in which their shares will be given
 */
export function compileAlgorithms(
  algorithms: readonly Algorithm[],
  kits: readonly KitRuns[],
): CompiledAlgorithms {
  const lists: Lists = {
    units: new Register(),
    tables: new Register(),
    weights: new Register(),
    bills: new Register(),
  };
  const starts = [0];
  const paths: FlatPath[] = [];
  for (const algorithm of algorithms) {
    for (const whole of wholePaths(algorithm, kits, lists.units)) paths.push(flatPath(whole, lists));
    starts.push(paths.length);
  }
  return {
    algorithms: algorithms.length,
    kits: kits.length,
    units: lists.units.entries,
    tables: lists.tables.entries,
    cells: cellsOf(lists),
    weights: lists.weights.entries,
    bills: lists.bills.entries,
    starts: Int32Array.from(starts),
    end: Uint8Array.from(paths, ({ end }) => end),
    cell: Int32Array.from(paths, ({ cell }) => cell),
    weight: Int32Array.from(paths, ({ weight }) => weight),
    bill: Int32Array.from(paths, ({ bill }) => bill),
  };
}

interface FlatPath {
  readonly end: number;
  readonly cell: number;
  readonly weight: number;
  readonly bill: number;
}

/** A path by its places in the lists, which grow by what is new in it. */
function flatPath(whole: Whole, lists: Lists): FlatPath {
  const units = lists.units.entries;
  const { valid, invalid } = sorted(whole.passed, units);
  const bits = valid.reduce((sum, { result }, at) => (result === "reactive" ? sum | (1 << at) : sum), 0);
  const kits = valid.map(({ unit }) => (units[unit] as Unit).kit);
  const table = lists.tables.place(kits.join(" "), () => ({ kits, offset: cellsOf(lists) }));
  const weight = { valid: valid.map(({ unit }) => unit), invalid, share: whole.share };
  const used = whole.passed.map(({ unit }) => unit).sort((one, other) => one - other);
  return {
    end: ENDS.indexOf(whole.end),
    cell: (lists.tables.entries[table] as CellTable).offset + bits,
    weight: lists.weights.place(JSON.stringify(weight), () => weight),
    bill: lists.bills.place(used.join(" "), () => used),
  };
}

/** Cells of all tables so far; they stand one after the other. */
function cellsOf({ tables }: Lists): number {
  const last = tables.entries[tables.entries.length - 1];
  return last === undefined ? 0 : last.offset + Math.pow(2, last.kits.length);
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
