import type { Pair, PairedSet } from "../records/model.ts";
import { REASONS, type Treatment, treatedRapid, whereTo } from "../records/treatment.ts";
import type { Intensity } from "./document.ts";

/** One person of known status with an instrument's reading of the device that counts. */
export interface MeasuredPerson {
  readonly pair: Pair;
  readonly reading: number;
  readonly positive: boolean;
}

/** `asked` = those in `positives` and `negatives` + the sum of `setAside`. */
export interface MeasuredPeople {
  readonly asked: number;
  readonly positives: readonly MeasuredPerson[];
  readonly negatives: readonly MeasuredPerson[];
  readonly setAside: Intensity["people"]["setAside"];
}

const NOT_MEASURED = "not_measured";

/**
 * People by status with their readings. A device that is invalid has no reading to be judged by a cutoff, so
 * invalid results are set aside whatever the study's treatment; readings outside the window are treated as the
 * study says.
 */
export function measuredPeople(set: PairedSet, treatment: Treatment): MeasuredPeople {
  const positives: MeasuredPerson[] = [];
  const negatives: MeasuredPerson[] = [];
  const aside = new Map<string, number>();
  let asked = 0;
  for (const pair of set.pairs) {
    asked += 1;
    const end = whereTo(pair, { ...treatment, invalid: "set_aside" });
    const reading = pair.measured?.intensity ?? null;
    const reason = REASONS.find((known) => known === end) ?? (reading === null ? NOT_MEASURED : null);
    if (reason !== null) aside.set(reason, (aside.get(reason) ?? 0) + 1);
    else {
      const positive = pair.reference === "positive";
      (positive ? positives : negatives).push({ pair, reading: reading as number, positive });
    }
  }
  return { asked, positives, negatives, setAside: inOrder(aside, [...REASONS, NOT_MEASURED]) };
}

/** Counts of people as the document has them. */
export function countsOf({ asked, positives, negatives, setAside }: MeasuredPeople): Intensity["people"] {
  return { asked, positives: positives.length, negatives: negatives.length, setAside };
}

export function readingsOf(people: readonly MeasuredPerson[]): number[] {
  return people.map(({ reading }) => reading);
}

/** The same person's result by eye beside the instrument's reading of the same device. */
export interface SeenPerson extends MeasuredPerson {
  readonly eye: Pair;
}

export interface SeenPeople {
  readonly asked: number;
  readonly positives: readonly SeenPerson[];
  readonly negatives: readonly SeenPerson[];
  readonly setAside: Intensity["people"]["setAside"];
}

const EYE_REASONS = ["rapid_not_done", "other_device", "outside_window", "invalid"] as const;

/** Of the people whom an instrument measured, those whose same device an eye gave a valid result. */
export function seenPeople(measured: MeasuredPeople, eyes: PairedSet, treatment: Treatment): SeenPeople {
  const byPerson = new Map(eyes.pairs.map((pair) => [pair.person, pair]));
  const aside = new Map<string, number>();
  const seen = (people: readonly MeasuredPerson[]) =>
    people.flatMap((person): SeenPerson[] => {
      const eye = byPerson.get(person.pair.person);
      const reason = whyUnseen(person.pair, eye, treatment);
      if (reason === null && eye !== undefined) return [{ ...person, eye }];
      aside.set(reason ?? "rapid_not_done", (aside.get(reason ?? "rapid_not_done") ?? 0) + 1);
      return [];
    });
  const positives = seen(measured.positives);
  const negatives = seen(measured.negatives);
  const asked = measured.positives.length + measured.negatives.length;
  return { asked, positives, negatives, setAside: inOrder(aside, EYE_REASONS) };
}

function whyUnseen(
  measured: Pair,
  eye: Pair | undefined,
  treatment: Treatment,
): (typeof EYE_REASONS)[number] | null {
  if (eye === undefined || eye.rapid === "not_done") return "rapid_not_done";
  if (eye.measured?.device !== measured.measured?.device) return "other_device";
  const rapid = treatedRapid(eye, treatment);
  return rapid === "outside_window" || rapid === "invalid" ? rapid : null;
}

/** Reasons in one order, whatever the order of the rows. */
function inOrder(
  counts: ReadonlyMap<string, number>,
  reasons: readonly string[],
): { reason: string; people: number }[] {
  return reasons.flatMap((reason) => {
    const people = counts.get(reason);
    return people === undefined ? [] : [{ reason, people }];
  });
}
