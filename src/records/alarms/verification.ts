import { firstSets } from "../first-sets.ts";
import type { Gathered } from "../gathered.ts";
import type { Alarm, PairedSet } from "../model.ts";

/** Verified shares of reactive and nonreactive that differ by this much raise the alarm. Rule of our own. */
const SHARE_APART = 0.05;
/** … where at least this many people were not verified. */
const FEWEST_UNVERIFIED = 5;
/** Further tests that are (nearly) all on people who disagree. Rule of our own. */
const NEARLY_ALL = 0.9;
const FEWEST_RETESTED = 5;

/** Reference done or not depending on the rapid result; further reference tests on those who disagree only. */
export function verificationAlarms(gathered: Gathered): Alarm[] {
  const alarms: Alarm[] = [];
  const several = new Set(gathered.sets.map((set) => set.kit)).size > 1;
  const subjects = ({ analyte, kit }: { readonly analyte: string; readonly kit: string }) =>
    several ? [analyte, kit] : [analyte];
  for (const set of firstSets(gathered.sets)) {
    const found = unverified(set);
    if (found !== null) alarms.push({ code: "partial_verification", ...found, subjects: subjects(set) });
  }
  for (const entry of gathered.retested) {
    const mostly = entry.retestedDiscordant >= NEARLY_ALL * entry.retested;
    const others = entry.people > 2 * entry.discordant;
    if (entry.retested < FEWEST_RETESTED || !mostly || !others) continue;
    alarms.push({
      code: "discrepant_only_retested",
      count: entry.retestedDiscordant,
      total: entry.retested,
      subjects: subjects(entry),
    });
  }
  return alarms;
}

function unverified(set: PairedSet): Pick<Alarm, "count" | "total"> | null {
  const people = { reactive: 0, nonreactive: 0 };
  const without = { reactive: 0, nonreactive: 0 };
  for (const { rapid, reference, weight } of set.pairs) {
    if (rapid !== "reactive" && rapid !== "nonreactive") continue;
    people[rapid] += weight;
    if (reference === "not_done") without[rapid] += weight;
  }
  if (people.reactive === 0 || people.nonreactive === 0) return null;
  const apart = Math.abs(without.reactive / people.reactive - without.nonreactive / people.nonreactive);
  const count = without.reactive + without.nonreactive;
  if (apart < SHARE_APART || count < FEWEST_UNVERIFIED) return null;
  return { count, total: people.reactive + people.nonreactive };
}
