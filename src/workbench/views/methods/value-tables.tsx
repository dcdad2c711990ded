import { range } from "../../../report/formats.ts";
import { labelOf } from "../../forms/labels.ts";
import { numberText } from "../../methods/number-text.ts";
import { isEstimate, type ValuePart, type ValueRow, type ValueTable } from "../../methods/value-rows.ts";
import { Scrolling } from "../scrolling.tsx";
import type { ViewProps } from "../view.ts";
import { Plain } from "./plain-value.tsx";

interface Props extends Pick<ViewProps, "words"> {
  readonly part: ValuePart;
  /** How deep the part lies, for its heading. */
  readonly depth: number;
}

/** Rows of a table, and parts of a part, that are drawn. */
const MOST_ROWS = 120;
const MOST_PARTS = 30;

/** What a method gave: single values with their meanings, then lists as tables, then larger parts. */
export function ValueTables({ part, words, depth }: Props) {
  const { rows, tables, parts, name, help } = part;
  const Heading = depth <= 1 ? "h3" : "h4";
  return (
    <div class={depth > 1 ? "value-part" : undefined}>
      {name !== "" && <Heading>{labelOf(name, words)}</Heading>}
      {name !== "" && help !== null && <p class="how">{words.inReport.grammar.sentence(help)}</p>}
      {rows.length > 0 && <Rows rows={rows} label={nameOf(part, words)} words={words} />}
      {tables.map((table) => (
        <List key={table.name} table={table} words={words} />
      ))}
      {parts.slice(0, MOST_PARTS).map((inner) => (
        <ValueTables key={inner.name} part={inner} words={words} depth={depth + 1} />
      ))}
      <More more={parts.length - MOST_PARTS} words={words} />
    </div>
  );
}

function nameOf({ name }: ValuePart, words: ViewProps["words"]): string {
  return name === "" ? words.methods.values : labelOf(name, words);
}

function More({ more, words }: Pick<Props, "words"> & { readonly more: number }) {
  return more > 0 ? <p class="how">{words.methods.more(more)}</p> : null;
}

function Rows({ rows, label, words }: Pick<Props, "words"> & { rows: readonly ValueRow[]; label: string }) {
  const { methods } = words;
  const limits = rows.some(({ value }) => isEstimate(value));
  return (
    <Scrolling label={label}>
      <table class="values">
        <thead>
          <tr>
            <th scope="col">{methods.name}</th>
            <th scope="col">{methods.value}</th>
            {limits && <th scope="col">{methods.interval}</th>}
            <th scope="col">{methods.meaning}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, value, help }) => (
            <tr key={name}>
              <th scope="row">{labelOf(name, words)}</th>
              <td>
                <Plain value={value} words={words} />
              </td>
              {limits && <td class="interval">{limitsOf(value, words)}</td>}
              <td class="meaning">{help}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolling>
  );
}

/** The two limits of an estimate; a side without one says so. */
function limitsOf(value: unknown, { methods }: ViewProps["words"]): string {
  if (!isEstimate(value) || (value.lower === null && value.upper === null)) return "";
  const side = (limit: unknown) => (typeof limit === "number" ? numberText(limit) : methods.openSide);
  return range(side(value.lower), side(value.upper));
}

function List({ table, words }: Pick<Props, "words"> & { readonly table: ValueTable }) {
  const label = labelOf(table.name, words);
  const meanings = table.columns.filter(({ help }) => help !== null);
  return (
    <>
      <h3>{label}</h3>
      {table.help !== null && <p class="how">{words.inReport.grammar.sentence(table.help)}</p>}
      <Scrolling label={label}>
        <table class="values">
          <thead>
            <tr>
              {table.columns.map(({ name }) => (
                <th key={name} scope="col">
                  {labelOf(name, words)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.rows.slice(0, MOST_ROWS).map((row, place) => (
              <tr key={place}>
                {row.map((value, column) => (
                  <td key={table.columns[column]?.name}>
                    <Plain value={value} words={words} />{" "}
                    <span class="interval">{limitsOf(value, words)}</span>
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolling>
      <More more={table.rows.length - MOST_ROWS} words={words} />
      {meanings.length > 0 && (
        <p class="how">{meanings.map(({ name, help }) => `${labelOf(name, words)}: ${help}`).join("; ")}</p>
      )}
    </>
  );
}
