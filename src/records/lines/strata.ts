import type { Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Device } from "./device.ts";
import type { Lookup } from "./lots-operators.ts";
import type { Person } from "./people.ts";

export interface StrataTables {
  readonly participants: Table;
  readonly specimens: Table;
  readonly index_tests: Table;
  readonly lots: Lookup | null;
  readonly operators: Lookup | null;
}

/** A person's group in every stratum; what hangs on a device comes from the device that counted. */
export type StrataOf = (person: Person, device: Device | null) => Readonly<Record<string, string | null>>;

/** Looks the groups up; a stratum whose column is missing becomes an issue, and its groups unknown. */
export function strataReader(tables: StrataTables, { study, issues }: Context): StrataOf {
  const readers = study.strata.map((stratum) => {
    const name = stratum.table ?? "participants";
    const source = tables[name];
    const table = source === null ? null : "rowOf" in source ? source.table : source;
    const cells = table?.columns.get(stratum.column);
    if (table !== null && cells === undefined) {
      const place = { file: table.file, row: 1, column: stratum.column };
      const expected = `the column of the stratum ${stratum.id}`;
      issues.say("missing_column", place, expected, table.header.join(","), "value_ignored");
    }
    const rowOf = rowFinder(tables, name);
    const group = (person: Person, device: Device | null): string | null => {
      const row = rowOf(person, device);
      return row === null ? null : cells?.(row) || null;
    };
    return { id: stratum.id, group };
  });
  if (readers.length === 0) return () => NO_STRATA;
  return (person, device) => {
    const groups: Record<string, string | null> = {};
    for (const { id, group } of readers) groups[id] = group(person, device);
    return groups;
  };
}

const NO_STRATA: Readonly<Record<string, string | null>> = {};

function rowFinder(tables: StrataTables, name: keyof StrataTables) {
  return (person: Person, device: Device | null): number | null => {
    if (name === "participants") return person.row;
    if (device === null) return null;
    if (name === "specimens") return device.specimen.row;
    if (name === "index_tests") return device.row;
    const key = name === "lots" ? device.lot : device.operator;
    return key === null ? null : (tables[name]?.rowOf.get(key) ?? null);
  };
}
