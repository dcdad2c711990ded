import { placeOf, texts } from "../cells.ts";
import type { LineKit } from "../kit.ts";
import { accepts } from "../kit-cells.ts";
import type { Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { Specimen } from "./specimens.ts";

/**
 * The kit of a row of the index tests: the one that `kit_id` names; where it is empty, the main kit,
 * which in a study of several kits is pointed out.
 * @returns the kit, or the name where no kit of the study bears it
 */
export function kitChooser(table: Table, { kits, issues }: Context): (row: number) => LineKit | string {
  const name = texts(table, "kit_id");
  const byId = new Map(kits.map((kit) => [kit.id, kit]));
  const main = kits[0] as LineKit;
  const expected = `the kit, as the study has several; without one it counts as ${main.id}`;
  const column = table.columns.has("kit_id");
  if (!column && kits.length > 1) {
    const place = { file: table.file, row: null, column: null };
    issues.say("missing_value", place, expected, "no column kit_id", "kept");
  }
  return (row) => {
    const id = name(row);
    if (id !== null) return byId.get(id) ?? id;
    if (column && kits.length > 1) {
      issues.add("missing_value", placeOf(table, row, "kit_id"), expected, "", "kept");
    }
    return main;
  };
}

/** The names of the kits, for what is expected. */
export function namesOf(kits: readonly LineKit[]): string {
  const names = kits.map((kit) => kit.id);
  return names.length === 1 ? (names[0] ?? "") : `one of ${names.join(", ")}`;
}

/**
 * What the kit accepts, where it does not accept the specimen although the study analyses its type;
 * `null` otherwise. Types that the study does not analyse are set aside for that.
 */
export function refusedType(kit: LineKit, { type }: Specimen, { study }: Context): string | null {
  const studied = study.specimens.some((entry) => entry.type === type);
  if (!studied || accepts(kit, type)) return null;
  return `a specimen type of ${kit.id}: ${kit.specimens.map((entry) => entry.type).join(", ")}`;
}
