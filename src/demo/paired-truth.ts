import type { Case, Cell } from "./cases.ts";
import type { AnalyteId, TestedType } from "./world.ts";

/** People of one reference status with a valid result on both sides, by which side was right. */
interface PairedCounts {
  readonly both: number;
  readonly firstOnly: number;
  readonly secondOnly: number;
  readonly neither: number;
}

/** Fingerstick against venous blood of the same people, one analyte. */
export interface PairedTruth {
  readonly analyte: AnalyteId;
  readonly first: TestedType;
  readonly second: TestedType;
  readonly positives: PairedCounts;
  readonly negatives: PairedCounts;
}

/** The cross-classifications behind the comparisons of the study file; cells hold the same people in one order. */
export function pairedTruths(cells: readonly Cell[]): PairedTruth[] {
  const of = (specimen: TestedType) => cells.filter((cell) => cell.specimen === specimen);
  return of("fingerstick").flatMap((first) => {
    const second = of("venous_whole_blood").find(({ analyte }) => analyte === first.analyte);
    if (second === undefined) return [];
    const counted = (status: "positive" | "negative") => pairedCounts(first.cases, second.cases, status);
    return [
      {
        analyte: first.analyte,
        first: first.specimen,
        second: second.specimen,
        positives: counted("positive"),
        negatives: counted("negative"),
      },
    ];
  });
}

function pairedCounts(
  first: readonly Case[],
  second: readonly Case[],
  status: "positive" | "negative",
): PairedCounts {
  const right = status === "positive" ? "reactive" : "nonreactive";
  const valid = (one: Case | undefined) => one?.result === "reactive" || one?.result === "nonreactive";
  const people = first
    .map((one, index) => ({ one, other: second[index] }))
    .filter(({ one, other }) => one.reference === status && valid(one) && valid(other));
  const count = (firstRight: boolean, secondRight: boolean) =>
    people.filter(
      ({ one, other }) => (one.result === right) === firstRight && (other?.result === right) === secondRight,
    ).length;
  return {
    both: count(true, true),
    firstOnly: count(true, false),
    secondOnly: count(false, true),
    neither: count(false, false),
  };
}
