import { count } from "../formats.ts";

export interface TwoByTwoProps {
  readonly caption: string;
  /** What the rows and the columns are. */
  readonly row: string;
  readonly column: string;
  /** The two answers, the same for rows and columns. */
  readonly answers: readonly [string, string];
  /** Cells row by row: both, row only, column only, neither. */
  readonly counts: readonly [number, number, number, number];
  /** A few words under each count, in the same order. */
  readonly notes: readonly [string, string, string, string];
  readonly all: string;
}

/** Two answers about the same things, crossed: those that are the same stand on the diagonal. */
export function TwoByTwo(props: TwoByTwoProps) {
  const { counts, notes, answers, all } = props;
  const [both, rowOnly, columnOnly, neither] = counts;
  const sums = [both + columnOnly, rowOnly + neither];
  const rows = [
    { answer: answers[0], cells: [0, 1], sum: both + rowOnly, kind: "fig-reactive" },
    { answer: answers[1], cells: [2, 3], sum: columnOnly + neither, kind: "fig-nonreactive" },
  ];
  return (
    <table class="fig-fourfold">
      <caption>{props.caption}</caption>
      <thead>
        <tr>
          <td />
          <th scope="colgroup" colSpan={2} class="fig-over">
            {props.column}
          </th>
          <td />
        </tr>
        <tr>
          <th scope="col" class="fig-over">
            {props.row}
          </th>
          {answers.map((answer) => (
            <th key={answer} scope="col">
              {answer}
            </th>
          ))}
          <th scope="col" class="fig-margin">
            {all}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.kind} class={row.kind}>
            <th scope="row">{row.answer}</th>
            {row.cells.map((place) => (
              <td
                key={place}
                class={`fig-one-of-four ${place % 2 === 0 ? "fig-positive" : "fig-negative"} ${place === 0 || place === 3 ? "fig-right" : "fig-wrong"}`}
              >
                <b>{count(counts[place] ?? 0)}</b>
                <span>{notes[place]}</span>
              </td>
            ))}
            <td class="fig-margin">{count(row.sum)}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{all}</th>
          {sums.map((sum, place) => (
            <td key={place}>{count(sum)}</td>
          ))}
          <td class="fig-margin">{count(both + rowOnly + columnOnly + neither)}</td>
        </tr>
      </tfoot>
    </table>
  );
}
