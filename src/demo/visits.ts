import { nextWorkingDay, STUDY_DAYS, secondsOf } from "./calendar.ts";
import { type Draws, drawsOf } from "./draws.ts";
import { OPERATORS } from "./operators.ts";
import { LINES, MISSING_SPECIMEN, SIGNAL } from "./scenario.ts";
import type { ByLine, LineId, Person, TestedSpecimen, TestedType, Visit } from "./world.ts";

const MINUTE = 60;

/** First visits of all, second visits of some; each with its specimens. */
export function makeVisits(seed: number, people: readonly Person[], secondVisits: number): Visit[] {
  const draws = drawsOf(seed, "visits");
  const again = new Set(people.map((person) => person.alreadyEnrolledAs));
  const candidates = people.filter(
    (person) => person.day < STUDY_DAYS - 70 && person.alreadyEnrolledAs === null && !again.has(person),
  );
  const comeTwice = new Set(draws.sample(candidates, secondVisits));
  return people.flatMap((person) => {
    const first = makeVisit(draws, person, 1, person.day);
    if (!comeTwice.has(person)) return [first];
    return [first, makeVisit(draws, person, 2, nextWorkingDay(person.day + draws.whole(14, 60)))];
  });
}

function makeVisit(draws: Draws, person: Person, number: number, day: number): Visit {
  const begins = secondsOf(day, draws.uniform(8.5, 14));
  const operator = draws.pick(OPERATORS.filter(({ site }) => site === person.site)).id;
  const name = `${person.id}-${number}`;
  const drawnAt = begins + Math.round(draws.uniform(6, 15) * MINUTE);
  const prickedAt = begins + Math.round(draws.uniform(2, 5) * MINUTE);
  const tested: TestedSpecimen[] = [];
  for (const [type, letter, collectedAt] of [
    ["venous_whole_blood", "V", drawnAt],
    ["fingerstick", "F", prickedAt],
  ] as const) {
    const specimen = makeSpecimen(draws, person, type, `${name}${letter}`, collectedAt);
    if (!draws.chance(MISSING_SPECIMEN[type])) tested.push(specimen);
  }
  return { person, number, day, begins, operator, plasma: { id: `${name}P`, collectedAt: drawnAt }, tested };
}

function makeSpecimen(
  draws: Draws,
  person: Person,
  type: TestedType,
  id: string,
  collectedAt: number,
): TestedSpecimen {
  const strength = Object.fromEntries(
    LINES.map((line) => [line, strengthWith(draws, person, type, line)]),
  ) as unknown as ByLine<number | null>;
  const quality = draws.weighted({ ok: 97, haemolysed: 2, short: 1 });
  return { id, type, collectedAt, quality, strength };
}

function strengthWith(draws: Draws, person: Person, type: TestedType, line: LineId): number | null {
  const source = person.source[line];
  if (source.kind === "none") return null;
  if (source.kind !== "condition") return source.strength;
  const shift = type === "fingerstick" ? SIGNAL[line].fingerstick : 0;
  return source.strength + shift + draws.normal(0, SIGNAL[line].specimen);
}
