import { type Note, note } from "../../core/note.ts";
import { referenceTipping, type TippingInput, type TippingValues } from "../../methods/reference/tipping.ts";
import type { ReferenceErrors } from "../document.ts";
import { type AccuracyAnswer, criterionHead } from "../judged-cells.ts";
import { VERDICT_LETTERS, type VerdictLetter } from "../schema/reference.ts";
import type { Worktop } from "../worktop.ts";

type Judged = ReferenceErrors["criteria"][number];
type Verdict = Judged["naive"];

/** The table, and what is supposed of the reference. */
export interface Supposed extends Pick<TippingInput, "counts" | "covariance"> {
  readonly believed: ReferenceErrors["believed"];
}
type Range = Supposed["believed"]["sensitivity"];
type Cells = TippingValues["cells"];

/** References on each axis of the map, and on each side of the box of what is stated. */
const MAP_POINTS = 21;
const BOX_POINTS = 7;
/** The map reaches at least this far down from 1, and three times as far as what is stated. */
const NEAREST_END = 0.9;
const REACH = 3;
const FARTHEST_END = 0.5;

/** How far the verdict on one criterion hangs on what is true of the reference. */
export function referenceCriterion(
  worktop: Worktop,
  asked: AccuracyAnswer,
  supposed: Supposed,
): { readonly values: Judged; readonly notes: readonly Note[] } {
  const { believed } = supposed;
  const sensitivities = mapAxis(believed.sensitivity);
  const specificities = mapAxis(believed.specificity);
  const map = tipping(worktop, asked, supposed, { sensitivities, specificities });
  const box = tipping(worktop, asked, supposed, {
    sensitivities: evenly(believed.sensitivity.from, believed.sensitivity.to, BOX_POINTS),
    specificities: evenly(believed.specificity.from, believed.specificity.to, BOX_POINTS),
  });
  const { perfect, believed: central } = map.values;
  const verdicts = box.values.cells.map((cell) => cell.verdict);
  const values: Judged = {
    ...criterionHead(asked),
    perfect: perfect.verdict,
    believed: central.verdict,
    estimates: { perfect: estimateOf(perfect), believed: estimateOf(central) },
    throughout: oneOf([central.verdict, ...verdicts]),
    borders: map.values.borders,
    grid: {
      sensitivities,
      specificities,
      verdicts: rowsOf(map.values.cells, specificities.length, ({ verdict }) => LETTERS[verdict]),
      fits: rowsOf(map.values.cells, specificities.length, ({ fits }) => (fits ? "1" : "0")),
    },
  };
  return { values, notes: notesOn(asked, verdicts) };
}

function tipping(
  worktop: Worktop,
  { criterion, answer }: AccuracyAnswer,
  { counts, believed, covariance }: Supposed,
  axes: { readonly sensitivities: number[]; readonly specificities: number[] },
) {
  const { measure, threshold, direction } = answer;
  return worktop.compute(
    referenceTipping,
    {
      counts,
      criterion: { measure, threshold, direction },
      reference: {
        sensitivity: believed.sensitivity.believed,
        specificity: believed.specificity.believed,
      },
      covariance,
      grid: { ...axes, covariances: [] },
    },
    {
      level: worktop.interval.level,
      sides: criterion.rule === "one_sided" ? "one" : "two",
      rule: criterion.rule === "point" ? "point" : "interval",
    },
  );
}

/** From well below what is stated up to a reference that never errs. */
function mapAxis({ believed, from }: Range): number[] {
  const lowest = 1 - REACH * (1 - Math.min(from, believed));
  const end = Math.max(FARTHEST_END, Math.min(NEAREST_END, lowest));
  return evenly(Math.min(end, from), 1, MAP_POINTS);
}

function evenly(from: number, to: number, points: number): number[] {
  if (from === to) return [from];
  return Array.from({ length: points }, (_, step) =>
    step === points - 1 ? to : from + ((to - from) * step) / (points - 1),
  );
}

const LETTERS = Object.fromEntries(
  Object.entries(VERDICT_LETTERS).map(([letter, verdict]) => [verdict, letter]),
) as Record<Verdict, VerdictLetter>;

function rowsOf(cells: Cells, columns: number, letter: (cell: Cells[number]) => string): string[] {
  const rows: string[] = [];
  for (let first = 0; first < cells.length; first += columns) {
    rows.push(
      cells
        .slice(first, first + columns)
        .map(letter)
        .join(""),
    );
  }
  return rows;
}

/** The one verdict of all, those apart that the table hardly allows; `null` where they differ. */
function oneOf(verdicts: readonly Verdict[]): Verdict | null {
  const told = new Set(verdicts.filter((verdict) => verdict !== "not_estimable"));
  if (told.size === 0) return "not_estimable";
  const [only = null] = told;
  return told.size === 1 ? only : null;
}

function estimateOf({ value, lower, upper }: TippingValues["perfect"]) {
  return { value, lower, upper };
}

function notesOn({ answer }: AccuracyAnswer, verdicts: readonly Verdict[]): Note[] {
  const absent = verdicts.filter((verdict) => verdict === "not_estimable").length;
  if (absent === 0) return [];
  const message = `${answer.criterion}: the table hardly allows ${absent} of the ${verdicts.length} references looked at within what is stated; they are left out`;
  return [note("hardly_allowed", `criteria.${answer.criterion}.throughout`, message)];
}
