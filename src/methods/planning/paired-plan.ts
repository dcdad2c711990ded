import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { type Discordance, type DiscordanceRange, splitOf } from "./discordance.ts";
import { roundUp } from "./round-up.ts";
import { horizonFor, nearHorizon, outOfReach } from "./search-horizon.ts";
import { NOT_FOUND, searchTotals, type TotalsFound } from "./search-totals.ts";

/** How a size depends on how often two kits differ in the same people. */
export interface PairedQuestion {
  readonly difference: number;
  readonly range: DiscordanceRange;
  readonly wanted: number;
  /** Most people looked at; `null`: by the formula. */
  readonly horizon: number | null;
  readonly mostHorizon: number;
  /** People without whom nothing can be shown, however well the kits agree. */
  readonly least: number;
  /** People by the large-sample formula, not rounded; 0 where it sees no spread. */
  formula(discordant: number): number;
  /** Exact power by the total. */
  powerOf(shares: Discordance): (total: number) => number;
}

export interface PairedPlan {
  readonly discordant: DiscordanceRange;
  readonly formula: { readonly unrounded: number | null; readonly total: number | null };
  readonly exact: TotalsFound & { readonly searchedTo: number | null };
  readonly bounds: {
    readonly at: "least" | "independent" | "most";
    readonly discordant: number;
    readonly formulaTotal: number | null;
    readonly exactStays: number | null;
  }[];
}

const BOUNDS = ["least", "independent", "most"] as const;

/** The size at the share of discordant people planned with, and at the three that bound it. */
export function pairedPlan(question: PairedQuestion): PairedPlan {
  const { range } = question;
  const horizon =
    question.horizon ?? horizonFor(question.formula(range.most), question.least, question.mostHorizon);
  const sizeAt = (discordant: number) => sizeOf(question, discordant, horizon);
  const planned = sizeAt(range.planned);
  const unrounded = question.formula(range.planned);
  const bounds = BOUNDS.map((at) => {
    const discordant = range[at];
    const size = discordant === range.planned ? planned : sizeAt(discordant);
    return { at, discordant, formulaTotal: size.formula, exactStays: size.exact.stays };
  });
  const formula = { unrounded: unrounded === 0 ? null : unrounded, total: planned.formula };
  return { discordant: range, formula, exact: { ...planned.exact, searchedTo: horizon }, bounds };
}

function sizeOf(
  { difference, wanted, formula, powerOf }: PairedQuestion,
  discordant: number,
  horizon: number,
) {
  const unrounded = formula(discordant);
  return {
    formula: unrounded === 0 ? null : roundUp(unrounded),
    exact: searchTotals(powerOf(splitOf(difference, discordant)), wanted, horizon),
  };
}

/** Notes on what could not be had, and on a share of discordant people that was not stated. */
export function pairedNotes(plan: PairedPlan, stated: number | null, mostHorizon: number): Note[] {
  const notes: Note[] = [];
  if (stated === null) {
    const message =
      "no share of people judged differently was stated: planned as if the kits err independently; kits that err on the same people differ less often, see bounds";
    notes.push(note("independence_assumed", "discordant", message));
  }
  const message = outOfReach(plan.exact.searchedTo ?? 0, mostHorizon, "people");
  const out = Object.entries(plan.exact).flatMap(([name, value]) =>
    value === null ? [`exact.${name}`] : [],
  );
  const bounded = plan.bounds.flatMap(({ exactStays }, at) =>
    exactStays === null ? [`bounds.${at}.exactStays`] : [],
  );
  notes.push(...notesAt("out_of_reach", [...out, ...bounded], message));
  notes.push(...nearHorizon(plan.exact.stays, plan.exact.searchedTo));
  const without = [
    ...(plan.formula.total === null ? ["formula"] : []),
    ...plan.bounds.flatMap(({ formulaTotal }, at) =>
      formulaTotal === null ? [`bounds.${at}.formulaTotal`] : [],
    ),
  ];
  const spread =
    "the formula gives nobody at all: it sees no spread, or the power wanted is below the error; go by the exact answer";
  notes.push(...notesAt("no_spread", without, spread));
  return notes;
}

/** Nothing but the range of discordance: the question has no answer, and why. */
export function noPairedPlan(
  discordant: DiscordanceRange,
  code: string,
  message: string,
): { values: PairedPlan; notes: Note[] } {
  const values = {
    discordant,
    formula: { unrounded: null, total: null },
    exact: { ...NOT_FOUND, searchedTo: null },
    bounds: BOUNDS.map((at) => ({ at, discordant: discordant[at], formulaTotal: null, exactStays: null })),
  };
  const bounded = BOUNDS.flatMap((_, at) => [`bounds.${at}.formulaTotal`, `bounds.${at}.exactStays`]);
  return { values, notes: notesAt(code, ["formula", "exact", ...bounded], message) };
}
