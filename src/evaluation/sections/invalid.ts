import type { ProportionEstimate } from "../../core/estimate.ts";
import type { PairedSet } from "../../records/model.ts";
import { cellOf, peopleIn } from "../cells.ts";
import type { Invalid } from "../document.ts";
import { INVALID_TREATMENTS } from "../schema/parts.ts";
import type { Worktop } from "../worktop.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

/** Share of the people tested whose first device gave an invalid result, before any repeat. */
export function firstAttemptInvalid(worktop: Worktop, set: PairedSet): ProportionEstimate {
  return worktop.proportion(
    peopleIn(set, (pair) => pair.firstRapid === "invalid"),
    peopleIn(set, (pair) => pair.firstRapid !== "not_done"),
  );
}

/** How often results were invalid, why, and what each treatment of them makes of the two measures. */
export function invalidSection(worktop: Worktop, set: PairedSet): Invalid {
  const final = worktop.proportion(
    peopleIn(set, (pair) => pair.rapid === "invalid"),
    peopleIn(set, (pair) => pair.rapid !== "not_done"),
  );
  return {
    ...cellOf(set),
    firstAttempt: firstAttemptInvalid(worktop, set),
    final,
    reasons: reasons(set),
    treatments: INVALID_TREATMENTS.map((invalid) => ({
      treatment: invalid,
      ...sensitivitySpecificity(worktop, worktop.tally(set, { invalid }).counts),
    })),
    notes: [],
  };
}

/** Of the results that stayed invalid; most frequent first. */
function reasons(set: PairedSet): Invalid["reasons"] {
  const people = new Map<string, number>();
  for (const pair of set.pairs) {
    if (pair.rapid !== "invalid") continue;
    const reason = pair.invalidReason ?? "not_recorded";
    people.set(reason, (people.get(reason) ?? 0) + pair.weight);
  }
  return [...people]
    .map(([reason, count]) => ({ reason, people: count }))
    .sort((one, other) => other.people - one.people || (one.reason < other.reason ? -1 : 1));
}
