import type { Accuracy } from "../../evaluation/document.ts";
import { count } from "../formats.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

type CrossTabulation = Accuracy["crossTabulation"];
type Rapid = keyof CrossTabulation;
type Reference = keyof CrossTabulation["reactive"];

const RAPID: readonly Rapid[] = ["reactive", "nonreactive", "invalid", "not_done"];
const REFERENCE: readonly Reference[] = ["positive", "negative", "indeterminate", "not_done"];
const ALWAYS = new Set<string>(["reactive", "nonreactive", "invalid", "positive", "negative"]);

export interface FourfoldTableProps {
  readonly caption: string;
  /** People, before any treatment of invalid results. */
  readonly crossTabulation: CrossTabulation;
  readonly words?: FigureWords["fourfold"] | undefined;
}

/**
 * The fourfold table that gives the house its name: people by rapid result and reference result,
 * with margins. Invalid results always have their row; rows and columns of what was not done or
 * indeterminate appear when there is anyone in them.
 */
export function FourfoldTable({
  caption,
  crossTabulation,
  words = FIGURE_WORDS.fourfold,
}: FourfoldTableProps) {
  const rows = RAPID.filter((rapid) => ALWAYS.has(rapid) || rowSum(crossTabulation, rapid) > 0);
  const columns = REFERENCE.filter((status) => ALWAYS.has(status) || columnSum(crossTabulation, status) > 0);
  const all = RAPID.reduce((total, rapid) => total + rowSum(crossTabulation, rapid), 0);
  return (
    <table class="fig-fourfold">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <td />
          <th scope="colgroup" colSpan={columns.length} class="fig-over">
            {words.reference}
          </th>
          <td />
        </tr>
        <tr>
          <th scope="col" class="fig-over">
            {words.rapid}
          </th>
          {columns.map((status) => (
            <th key={status} scope="col">
              {words.statuses[status]}
            </th>
          ))}
          <th scope="col" class="fig-margin">
            {words.all}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((rapid) => (
          <tr key={rapid} class={`fig-${rapid.replace("_", "-")}`}>
            <th scope="row">{words.results[rapid]}</th>
            {columns.map((status) => (
              <Cell
                key={status}
                rapid={rapid}
                status={status}
                people={crossTabulation[rapid][status]}
                words={words}
              />
            ))}
            <td class="fig-margin">{count(rowSum(crossTabulation, rapid))}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{words.all}</th>
          {columns.map((status) => (
            <td key={status}>{count(columnSum(crossTabulation, status))}</td>
          ))}
          <td class="fig-margin">{count(all)}</td>
        </tr>
      </tfoot>
    </table>
  );
}

interface CellProps {
  readonly rapid: Rapid;
  readonly status: Reference;
  readonly people: number;
  readonly words: FigureWords["fourfold"];
}

/** One of the four is large and says what it is; the others are plain. */
function Cell({ rapid, status, people, words }: CellProps) {
  const four = words.four[`${rapid}/${status}` as keyof typeof words.four];
  if (four === undefined) return <td>{count(people)}</td>;
  const right = (rapid === "reactive") === (status === "positive");
  return (
    <td class={`fig-one-of-four fig-${status} ${right ? "fig-right" : "fig-wrong"}`}>
      <b>{count(people)}</b>
      <span>{four}</span>
    </td>
  );
}

function rowSum(table: CrossTabulation, rapid: Rapid): number {
  return REFERENCE.reduce((total, status) => total + table[rapid][status], 0);
}

function columnSum(table: CrossTabulation, status: Reference): number {
  return RAPID.reduce((total, rapid) => total + table[rapid][status], 0);
}
