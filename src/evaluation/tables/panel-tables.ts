import type { Cell, Table } from "../csv.ts";
import type { Evaluation, Panel } from "../document.ts";
import { ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

type Values = NonNullable<Panel["values"]>;

/** Dilution panels, where the study file has some. */
export function panelTables({ panels }: Evaluation): Table[] {
  return panels.length === 0 ? [] : [limitsTable(panels), rowsTable(panels)];
}

/** All lots together (no name), then each lot. */
function fitsOf({ values, lots }: Panel): { readonly lot: string | null; readonly values: Values }[] {
  return [...(values === null ? [] : [{ lot: null, values }]), ...lots];
}

/** Concentrations found with each chance, by both lines. */
function limitsTable(panels: readonly Panel[]): Table {
  const rows = panels.flatMap((panel) =>
    fitsOf(panel).flatMap(({ lot, values }) =>
      (["probit", "logit"] as const).flatMap((line) =>
        values[line].concentrations.map(({ probability, concentration }): Cell[] => [
          ...[panel.id, panel.analyte, panel.kit, lot, line, probability],
          ...[concentration.value, concentration.lower, concentration.upper, panel.unit],
        ]),
      ),
    ),
  );
  const columns = ["panel", "analyte", "kit", "lot", "line", "chance", "value", "lower", "upper", "unit"];
  return { name: "detection_limits", columns, rows };
}

/** What was seen at each concentration, and what the lines say there. */
function rowsTable(panels: readonly Panel[]): Table {
  const rows = panels.flatMap((panel) =>
    fitsOf(panel).flatMap(({ lot, values }) => [
      ...values.rows.map((row): Cell[] => [
        ...[panel.id, lot, row.concentration],
        ...estimateColumns(row.reactive),
        ...[row.byProbit, row.byLogit],
      ]),
      ...(values.blank === null
        ? []
        : [[panel.id, lot, 0, ...estimateColumns(values.blank), null, null] satisfies Cell[]]),
    ]),
  );
  const columns = ["panel", "lot", "concentration", ...ESTIMATE_COLUMNS, "by_probit", "by_logit"];
  return { name: "dilutions", columns, rows };
}
