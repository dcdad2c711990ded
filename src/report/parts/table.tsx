import type { ComponentChildren } from "preact";
import type { Shared } from "../context.ts";

export interface Column<Row> {
  readonly head: ComponentChildren;
  readonly cell: (row: Row) => ComponentChildren;
  /** Numbers stand to the right; figures take what room is left. */
  readonly kind?: "text" | "number" | "figure" | "wide" | "short";
  /** The column whose cells head their rows. */
  readonly heading?: boolean;
}

interface RowGroup<Row> {
  readonly heading?: string;
  /** The analyte that the rows speak of: their words follow its reference. */
  readonly analyte?: string;
  readonly rows: readonly Row[];
}

interface TableProps<Row> {
  readonly report: Shared;
  /** What the table holds, in a few words; unique on the page. */
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly groups: readonly RowGroup<Row>[];
  /** A sentence above: what to see in it. */
  readonly lead?: ComponentChildren;
  /** A line below: how to read it. */
  readonly note?: ComponentChildren;
  /** May be split between printed pages. */
  readonly long?: boolean;
}

/** A table in a region of its own that scrolls sideways on a narrow screen. */
export function DataTable<Row>(props: TableProps<Row>) {
  const { report, caption, columns, groups } = props;
  return (
    <div class={props.long === true ? "table-block long" : "table-block"}>
      {props.lead === undefined ? null : <p class="lead">{props.lead}</p>}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard */}
      <section class="table" tabIndex={0} aria-label={report.words.page.region(caption)}>
        <table>
          <caption class="unseen">{caption}</caption>
          <thead>
            <tr>
              {columns.map((column, place) => (
                <th key={place} scope="col" class={column.kind}>
                  {column.head}
                </th>
              ))}
            </tr>
          </thead>
          {groups.map((group, place) => (
            <tbody key={place} data-analyte={group.analyte}>
              {group.heading === undefined ? null : (
                <tr class="group">
                  <th scope="rowgroup" colSpan={columns.length}>
                    {group.heading}
                  </th>
                </tr>
              )}
              {group.rows.map((row, line) => (
                <Row key={line} columns={columns} row={row} />
              ))}
            </tbody>
          ))}
        </table>
      </section>
      {props.note === undefined ? null : <p class="how">{props.note}</p>}
    </div>
  );
}

function Row<Row>({ columns, row }: { columns: readonly Column<Row>[]; row: Row }) {
  return (
    <tr>
      {columns.map((column, place) =>
        column.heading === true ? (
          <th key={place} scope="row" class={column.kind}>
            {column.cell(row)}
          </th>
        ) : (
          <td key={place} class={column.kind}>
            {column.cell(row)}
          </td>
        ),
      )}
    </tr>
  );
}
