import { placeOf, texts, wholeNumbers } from "../cells.ts";
import type { IssueRule } from "../issue-rules.ts";
import { moment } from "../moments.ts";
import { suggestion } from "../nearest.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import { namesOf } from "./device-kit.ts";

export const LOT_COLUMNS = {
  required: ["lot_id"],
  optional: ["kit_id", "expiry"],
};
export const OPERATOR_COLUMNS = {
  required: ["operator_id"],
  optional: ["site_id", "trained_on", "panel_items", "panel_correct"],
};

/** A small table looked up by its key. */
export interface Lookup {
  readonly table: Table;
  readonly rowOf: ReadonlyMap<string, number>;
}

export interface Lots extends Lookup {
  /** Last day of use of each lot, as text. */
  readonly expiry: ReadonlyMap<string, string>;
  /** The kit of each lot, where the table says. */
  readonly kitOf: ReadonlyMap<string, string>;
}

export interface Operators extends Lookup {
  /** Day of training, as text. */
  readonly trainedOn: ReadonlyMap<string, string>;
}

export function readLots(table: Table, context: Context): Lots {
  const { issues, kits } = context;
  const kitId = texts(table, "kit_id");
  const rowOf = keyed(table, "lot_id", "duplicate_lot", context);
  const expiryText = texts(table, "expiry");
  const expiry = new Map<string, string>();
  const kitOf = new Map<string, string>();
  for (const [lot, row] of rowOf) {
    const kit = kitId(row);
    if (kit !== null && !kits.some(({ id }) => id === kit)) {
      issues.add("unknown_kit", placeOf(table, row, "kit_id"), namesOf(kits), kit, "row_set_aside");
      setAside(table, row, "unknown_kit");
      continue;
    }
    if (kit !== null) kitOf.set(lot, kit);
    const text = expiryText(row);
    const day = text === null ? null : lastDay(text);
    if (day !== null) expiry.set(lot, day);
    else if (text !== null) {
      issues.add("not_a_date", placeOf(table, row, "expiry"), "a date as 2026-04-01", text, "value_ignored");
    }
  }
  return { table, rowOf, expiry, kitOf };
}

/** A month alone, as on a label, lasts until its end: compares as text after every day of it. */
function lastDay(text: string): string | null {
  if (/^\d{4}-(0[1-9]|1[0-2])$/.test(text)) return `${text}-31`;
  return moment(text)?.day ?? null;
}

/** Operators, by identifier. Their sites, panel scores and training days are looked at. */
export function readOperators(table: Table, context: Context): Operators {
  const { issues, study } = context;
  const rowOf = keyed(table, "operator_id", "duplicate_operator", context);
  const site = texts(table, "site_id");
  const known = study.sites.map((entry) => entry.id);
  const checkPanel = panelCheck(table, context);
  const trained = texts(table, "trained_on");
  const trainedOn = new Map<string, string>();
  for (const [operator, row] of rowOf) {
    checkPanel(row);
    const text = trained(row);
    const day = text === null ? null : (moment(text)?.day ?? null);
    if (day !== null) trainedOn.set(operator, day);
    else if (text !== null) {
      issues.add(
        "not_a_date",
        placeOf(table, row, "trained_on"),
        "a date as 2026-04-01",
        text,
        "value_ignored",
      );
    }
    const name = site(row);
    if (name === null || known.length === 0 || known.includes(name)) continue;
    const expected = `a site of the study file${suggestion(name, known)}`;
    issues.add("unknown_site", placeOf(table, row, "site_id"), expected, name, "kept");
  }
  return { table, rowOf, trainedOn };
}

/** No more panel items can be right than there are. */
function panelCheck(table: Table, { issues }: Context) {
  const items = wholeNumbers({ table, name: "panel_items", issues });
  const correct = wholeNumbers({ table, name: "panel_correct", issues });
  return (row: number): void => {
    const of = items(row);
    const right = correct(row);
    if (of === null || right === null || (right >= 0 && right <= of)) return;
    issues.add("out_of_range", placeOf(table, row, "panel_correct"), `0 to ${of}`, right, "value_ignored");
  };
}

function keyed(table: Table, key: string, duplicate: IssueRule, { issues }: Context): Map<string, number> {
  const id = texts(table, key);
  const rowOf = new Map<string, number>();
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const name = id(row);
    if (name !== null && !rowOf.has(name)) {
      rowOf.set(name, row);
      continue;
    }
    const rule = name === null ? "blank_identifier" : duplicate;
    issues.add(rule, placeOf(table, row, key), "an identifier of its own", name ?? "", "row_set_aside");
    setAside(table, row, rule);
  }
  return rowOf;
}
