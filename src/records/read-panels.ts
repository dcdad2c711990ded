import { numbers, texts, wholeNumbers } from "./cells.ts";
import type { Context } from "./context.ts";
import type { PanelRecords, PanelRow } from "./model.ts";
import type { Panel } from "./panel-fields.ts";
import { rejecter } from "./reject.ts";
import { isCounted, setAside, type Table } from "./table.ts";
import type { OpenTable } from "./tables.ts";

export interface ReadPanels {
  readonly tables: readonly Table[];
  readonly panels: readonly PanelRecords[];
}

/**
 * Reads the tables of dilution panels: a row for each concentration and run. Rows that can't be used are set
 * aside with an issue.
 * @returns `null` where a table can't be used at all; the issues say why
 */
export function readPanels(open: OpenTable, context: Context): ReadPanels | null {
  const { study } = context;
  const opened = study.panels.map((panel) => {
    const required = Object.values(panel.columns).filter((name) => name !== undefined);
    return { panel, table: open(panel.table, { required, optional: [] }) };
  });
  const tables = opened.flatMap(({ table }) => (table === null ? [] : [table]));
  if (tables.length < opened.length) return null;
  const panels = opened.map(({ panel }, at) => ({
    id: panel.id,
    rows: rowsOf(panel, tables[at] as Table, context),
  }));
  return { tables, panels };
}

function rowsOf({ columns }: Panel, table: Table, context: Context): PanelRow[] {
  const concentration = concentrationReader(table, columns.concentration, context);
  const counts = countsReader(table, columns, context);
  const lot = columns.lot === undefined ? () => null : texts(table, columns.lot);
  const rows: PanelRow[] = [];
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const at = concentration(row);
    const counted = at === null ? null : counts(row);
    if (at === null || counted === null) continue;
    rows.push({ line: table.lines[row] ?? 0, lot: lot(row), concentration: at, ...counted });
  }
  return rows;
}

/** The method's own limits; 0 is a blank. */
const LOWEST = 1e-100;
const HIGHEST = 1e100;

function concentrationReader(table: Table, name: string, { issues }: Context) {
  const cell = numbers({ table, name, issues, consequence: "row_set_aside" });
  const reject = rejecter(table, issues);
  return (row: number): number | null => {
    const value = cell(row);
    if (value !== null && (value === 0 || (value >= LOWEST && value <= HIGHEST))) return value;
    if (cell.faulty(row)) setAside(table, row, "not_a_number");
    else if (value === null) reject(row, "missing_value", name, "a concentration; 0 for a blank", "");
    else {
      const expected = `a concentration from ${LOWEST} to ${HIGHEST}, or 0 for a blank`;
      reject(row, "out_of_range", name, expected, value);
    }
    return null;
  };
}

const MOST_DEVICES = 1e9;

function countsReader(table: Table, columns: Panel["columns"], { issues }: Context) {
  const reject = rejecter(table, issues);
  const counter = (name: string) => {
    const cell = wholeNumbers({ table, name, issues, consequence: "row_set_aside" });
    return (row: number): number | null => {
      const value = cell(row);
      if (value !== null && value >= 0 && value <= MOST_DEVICES) return value;
      if (cell.faulty(row)) setAside(table, row, "not_a_number");
      else if (value === null) reject(row, "missing_value", name, "a count, 0 or more", "");
      else reject(row, "out_of_range", name, `a count from 0 to ${MOST_DEVICES}`, value);
      return null;
    };
  };
  const tested = counter(columns.tested);
  const reactive = counter(columns.reactive);
  return (row: number): Pick<PanelRow, "tested" | "reactive"> | null => {
    const all = tested(row);
    const some = all === null ? null : reactive(row);
    if (all === null || some === null) return null;
    if (some <= all) return { tested: all, reactive: some };
    return reject(row, "out_of_range", columns.reactive, `at most those tested, ${all}`, some);
  };
}
