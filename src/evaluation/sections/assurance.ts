import { note } from "../../core/note.ts";
import { decisionAssurance } from "../../methods/decision/assurance.ts";
import { judgedBy } from "../criteria.ts";
import type { Answer, Assurance } from "../document.ts";
import { notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";

const TARGETS = [0.8, 0.9];
/** Further people looked at where no number of them would decide, or none that any study could have. */
const INSTEAD = 100;
const MOST_FURTHER = 1_000_000;
/** Most further people searched for a wanted chance. */
const HORIZON = 10_000;

/**
 * What more people would make of each criterion that is undecided: after the number that decides if the
 * estimate holds, and how many give a good chance of meeting it. Of several readers the first one counts.
 */
export function assuranceSection(worktop: Worktop, answers: readonly Answer[]): Assurance[] {
  const first = answers.filter(
    ({ criterion }, index) => answers.findIndex((other) => other.criterion === criterion) === index,
  );
  return first.filter(({ verdict }) => verdict === "undecided").map((answer) => outlook(worktop, answer));
}

function outlook(worktop: Worktop, answer: Answer): Assurance {
  const { criterion, threshold, direction, estimate } = answer;
  const reachable = answer.further !== null && answer.further > 0 && answer.further <= MOST_FURTHER;
  const further = reachable ? (answer.further as number) : INSTEAD;
  const rule = worktop.study.criteria.find(({ id }) => id === criterion)?.rule ?? "interval";
  const { values, notes } = worktop.compute(
    decisionAssurance,
    { count: estimate.count, total: estimate.total, threshold, direction, further },
    { ...judgedBy(worktop.interval, { rule }).options, targets: TARGETS, horizon: HORIZON },
  );
  const shown = notesUnder(notes, {
    ...Object.fromEntries(TARGETS.map((_, at) => [`smallest.${at}.predictive`, `needed.${at}.further`])),
    countThen: "ifEstimateHolds.met",
  }).map((entry) => ({ ...entry, path: entry.path.replace(/\.stays$/, "") }));
  if (!reachable) {
    const message = `no number of people decides it if the estimate holds: looked at for ${INSTEAD} more`;
    shown.push(note("never_decided", "further", message));
  }
  return {
    criterion,
    further,
    ifEstimateHolds: values.estimateHeld,
    predicted: values.predictive,
    needed: values.smallest.map(({ target, predictive }, at) => ({
      chance: target ?? (TARGETS[at] as number),
      further: predictive.stays,
    })),
    notes: shown,
  };
}
