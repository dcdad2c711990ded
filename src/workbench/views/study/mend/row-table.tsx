import { useTyping } from "../../../forms/use-typing.ts";
import type { CsvRow, RowsAround } from "../../../study/csv-row.ts";
import { Scrolling } from "../../scrolling.tsx";
import type { ViewProps } from "../../view.ts";

interface Props extends ViewProps {
  readonly found: RowsAround;
  readonly file: string;
  readonly row: number;
  /** The faulty column; `null` where the fault is of the whole row. */
  readonly column: string | null;
}

/** A row to be changed between its neighbours, under the names of the columns. */
export function RowTable({ found, file, row, column, store, words }: Props) {
  const { mend } = words;
  const faulty = found.header.indexOf(column ?? "");
  const broken = found.rows.find(({ line, cells }) => line === row && cells === null);
  return (
    <>
      <Scrolling label={mend.around}>
        <table class="mend-rows">
          <thead>
            <tr>
              <th scope="col">{mend.row}</th>
              {found.header.map((name, place) => (
                <th scope="col" key={place} class={place === faulty ? "mend-faulty" : ""}>
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {found.rows.map((one) => (
              <Row
                key={one.line}
                one={one}
                found={found}
                file={file}
                row={row}
                faulty={faulty}
                store={store}
                words={words}
              />
            ))}
          </tbody>
        </table>
      </Scrolling>
      {broken !== undefined && (
        <div class="mend-line">
          <p>{mend.broken}</p>
          <Cell
            text={broken.text}
            label={mend.line(row)}
            faulty
            longest={120}
            take={(line) => store.actions.editRow(file, row, line)}
          />
        </div>
      )}
    </>
  );
}

interface RowProps extends Omit<Props, "column"> {
  readonly one: CsvRow;
  readonly faulty: number;
}

function Row({ one, found, file, row, faulty, store, words }: RowProps) {
  const here = one.line === row;
  return (
    <tr class={here ? "mend-here" : ""}>
      <th scope="row" class="number">
        {one.line}
      </th>
      {one.cells === null ? (
        <td colSpan={found.header.length}>{one.text}</td>
      ) : (
        one.cells.map((cell, place) => (
          <td key={place}>
            {here ? (
              <Cell
                text={cell}
                label={words.mend.cell(found.header[place] ?? "", row)}
                faulty={place === faulty}
                take={(text) => store.actions.editCell(file, row, place, text)}
              />
            ) : (
              cell
            )}
          </td>
        ))
      )}
    </tr>
  );
}

interface CellProps {
  readonly text: string;
  readonly label: string;
  readonly faulty: boolean;
  readonly longest?: number;
  readonly take: (text: string) => void;
}

/** Taken over when it is left, or by Enter: a table may be large to read again. */
function Cell({ text, label, faulty, longest = 28, take }: CellProps) {
  const typing = useTyping(
    text,
    (next) => {
      take(next);
      return next;
    },
    null,
  );
  return (
    <input
      type="text"
      autocomplete="off"
      spellcheck={false}
      size={Math.max(4, Math.min(longest, text.length + 2))}
      value={typing.text}
      aria-label={label}
      {...(faulty ? { "data-faulty": "", class: "mend-cell" } : {})}
      onInput={(event) => typing.type(event.currentTarget.value)}
      onBlur={typing.leave}
      onKeyDown={(event) => event.key === "Enter" && typing.finish()}
    />
  );
}
