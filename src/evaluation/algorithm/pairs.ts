import { type Note, note } from "../../core/note.ts";
import { dependenceBounds } from "../../methods/algorithms/dependence-bounds.ts";
import type { AlgorithmFile, FileKit, FilePair } from "../../records/algorithm/algorithm-schema.ts";
import { centreOf, shareOf } from "./centre.ts";
import type { DependentPair } from "./document.ts";

/** The counts of a pair, among the people of each truth. */
type PairCounts = NonNullable<FilePair["counts"]>;

/** What the file says of two kits and one analyte. */
export type PairStated =
  | {
      readonly source: Exclude<DependentPair["source"], "estimated">;
      readonly diseased: number;
      readonly nondiseased: number;
    }
  | {
      readonly source: "estimated";
      readonly counts: PairCounts;
      /** The file names the kits the other way round. */
      readonly turned: boolean;
      readonly at: number;
    };

/** What the file says of a pair; `null` where it says nothing. */
export function pairStated(
  { dependence }: AlgorithmFile,
  analyte: string,
  first: string,
  second: string,
): PairStated | null {
  if (dependence?.kind === "independent") return { source: "independent", diseased: 0, nondiseased: 0 };
  if (dependence?.kind !== "pairs") return null;
  const at = dependence.pairs.findIndex(
    ({ kits, analyte: only }) =>
      (only === undefined || only === analyte) &&
      kits.includes(first) &&
      kits.includes(second) &&
      (first !== second || kits[0] === kits[1]),
  );
  const pair = dependence.pairs[at];
  if (pair?.counts !== undefined) {
    return { source: "estimated", counts: pair.counts, turned: pair.kits[0] !== first, at };
  }
  if (pair !== undefined) {
    return { source: "stated", diseased: pair.positive ?? 0, nondiseased: pair.negative ?? 0 };
  }
  const rest = first === second ? dependence.repeat : dependence.others;
  if (rest === undefined) return null;
  const source = first === second ? "repeat" : "others";
  return { source, diseased: rest.positive, nondiseased: rest.negative };
}

/** Share of reactive results of a kit at its centre, by truth. */
export function reactiveShares(kit: FileKit, analyte: string) {
  const accuracy = kit.analytes[analyte];
  return {
    diseased: accuracy === undefined ? 0 : centreOf(shareOf(accuracy.sensitivity)),
    nondiseased: accuracy === undefined ? 0 : 1 - centreOf(shareOf(accuracy.specificity)),
  };
}

/** What two kits of the file allow of their error correlation, both at their centre. */
export function boundsOf({ kits }: AlgorithmFile, analyte: string, first: string, second: string) {
  const shares = (id: string) => reactiveShares(kits.find((kit) => kit.id === id) as FileKit, analyte);
  const [one, other] = [shares(first), shares(second)];
  return {
    diseased: dependenceBounds(one.diseased, other.diseased).phi,
    nondiseased: dependenceBounds(one.nondiseased, other.nondiseased).phi,
  };
}

/** An estimate brought within what the kits allow; it says so. */
export function within(
  phi: number,
  { least, most }: { readonly least: number; readonly most: number },
  path: "diseased" | "nondiseased",
): { readonly phi: number; readonly notes: Note[] } {
  if (phi >= least && phi <= most) return { phi, notes: [] };
  const nearest = Math.min(most, Math.max(least, phi));
  const message = `estimated at ${phi.toFixed(3)}, which the kits' accuracies don't allow: the nearest that they allow, ${nearest.toFixed(3)}, was used`;
  return { phi: nearest, notes: [note("dependence_cut", path, message)] };
}
