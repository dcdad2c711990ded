import { type Note, note } from "../../../core/note.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import { centreOf, moneyOf } from "../centre.ts";
import type { AlgorithmLine, FollowedAlgorithm } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { outcomeOf } from "./outcomes.ts";

type Found = Pick<AlgorithmLine, "per100000" | "kits">;

/** What one algorithm costs in one channel: per client, per case found, per false positive averted. */
export function costOf(
  worktop: AlgorithmWorktop,
  channel: FileChannel,
  followed: FollowedAlgorithm,
  found: Found,
) {
  const { costs } = worktop.file;
  const { truePositives, falsePositives, missed } = found.per100000;
  const perClient = priceOf(worktop, found);
  const notes: Note[] = [];
  const perCaseFound = truePositives > 0 ? (perClient * 100_000) / truePositives : null;
  if (perCaseFound === null) notes.push(note("nobody", "cost.perCaseFound", "no case is found"));
  const alone = aloneOf(worktop, channel, followed);
  const averted = alone === null ? 0 : alone.per100000.falsePositives - falsePositives;
  const more = alone === null ? 0 : perClient - priceOf(worktop, alone);
  const perFalsePositiveAverted = averted > 0 ? (more * 100_000) / averted : null;
  if (perFalsePositiveAverted === null) {
    const message = alone === null ? "it is one test alone" : "it averts none of the first kit's";
    notes.push(note("none_averted", "cost.perFalsePositiveAverted", message));
  }
  const { per_false_positive: wrong, per_missed: left } = costs ?? {};
  const withErrors =
    wrong === undefined && left === undefined
      ? null
      : perClient + ((wrong ?? 0) * falsePositives + (left ?? 0) * missed) / 100_000;
  return { perClient, values: { perCaseFound, perFalsePositiveAverted, withErrors }, notes };
}

function priceOf({ file, kit }: AlgorithmWorktop, { kits }: Pick<Found, "kits">): number {
  const spent = kits.reduce((sum, one) => sum + one.perPerson * centreOf(moneyOf(kit(one.kit))), 0);
  return (file.costs?.per_client ?? 0) + spent;
}

/** What its first kit does alone, its result being the status; `null` for an algorithm of one step. */
function aloneOf(worktop: AlgorithmWorktop, channel: FileChannel, followed: FollowedAlgorithm): Found | null {
  const [first, second] = followed.steps;
  if (first === undefined || second === undefined) return null;
  const ends = { reactive: "positive", nonreactive: "negative", invalid: "inconclusive" };
  const single = { ...followed, steps: [{ ...first, ...ends }], kits: [first.kit], retested: null };
  const outcome = outcomeOf(worktop, single, channel, [worktop.prevalenceOf(channel, followed.analyte)]);
  const at = outcome.values.at[0];
  if (at === undefined) return null;
  return {
    per100000: { ...at.perPeople } as Found["per100000"],
    kits: at.runs.map(({ kit, perPerson }) => ({ kit, perPerson: perPerson ?? 0 })),
  };
}
