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

/** References on each axis of the map, besides what is stated. */
const MAP_POINTS = 15;
/** The map reaches three times as far down from 1 as what is stated, at least this far, and not below a half. */
const REACH = 3;
const LEAST_REACH = 0.01;
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
  const { values: found } = tipping(worktop, asked, supposed, { sensitivities, specificities });
  const stated = found.cells
    .filter(
      ({ referenceSensitivity, referenceSpecificity }) =>
        isWithin(referenceSensitivity, believed.sensitivity) &&
        isWithin(referenceSpecificity, believed.specificity),
    )
    .map(({ verdict }) => verdict);
  const values: Judged = {
    ...criterionHead(asked),
    perfect: found.perfect.verdict,
    believed: found.believed.verdict,
    estimates: { perfect: estimateOf(found.perfect), believed: estimateOf(found.believed) },
    throughout: oneOf(stated),
    borders: found.borders,
    grid: {
      sensitivities,
      specificities,
      verdicts: rowsOf(found.cells, specificities.length, ({ verdict }) => LETTERS[verdict]),
      fits: rowsOf(found.cells, specificities.length, ({ fits }) => (fits ? "1" : "0")),
    },
  };
  return { values, notes: notesOn(asked, stated) };
}

function isWithin(at: number, { from, to }: Range): boolean {
  return at >= from && at <= to;
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

/** From well below what is stated up to a reference that never errs; what is stated is among the values. */
function mapAxis({ believed, from, to }: Range): number[] {
  const reach = Math.max(LEAST_REACH, REACH * (1 - from));
  const end = Math.min(from, Math.max(FARTHEST_END, 1 - reach));
  const values = Array.from({ length: MAP_POINTS }, (_, step) => 1 - ((1 - end) * step) / (MAP_POINTS - 1));
  return [...new Set([...values, end, believed, from, to])].sort((one, other) => one - other);
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
