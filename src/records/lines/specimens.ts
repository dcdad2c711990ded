import { placeOf, texts, wholeNumbers } from "../cells.ts";
import { moment } from "../moments.ts";
import { patientSuggestion } from "../nearest.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";
import type { People, Person } from "./people.ts";

export const SPECIMEN_COLUMNS = {
  required: ["specimen_id", "participant_id", "specimen_type"],
  optional: ["visit_no", "collected_at"],
};

export interface Specimen {
  readonly id: string;
  readonly row: number;
  readonly person: Person;
  readonly type: string;
  readonly visit: number;
  /** Why nothing of this specimen is analysed: its person's reason, or a later visit. */
  reason: string | null;
}

export interface Specimens {
  readonly table: Table;
  readonly byId: ReadonlyMap<string, Specimen>;
  /** Identifiers of rows that stand in the table but were set aside as faulty, with the reason. */
  readonly faulty: ReadonlyMap<string, string>;
  /** What to expect where a specimen is named that is not in the table. */
  readonly hint: (name: string) => string;
}

/**
 * Reads the specimens and finds each person's first visit, the only one that counts: specimens of
 * later visits are set aside.
 */
export function readSpecimens(table: Table, people: People, context: Context): Specimens {
  const byId = new Map<string, Specimen>();
  const faulty = new Map<string, string>();
  const read = specimenReader(table, people, context, faulty);
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const specimen = read(row, byId);
    if (specimen !== null) byId.set(specimen.id, specimen);
  }
  keepFirstVisits([...byId.values()]);
  for (const { reason, row } of byId.values()) if (reason !== null) setAside(table, row, reason);
  const near = patientSuggestion(byId);
  const hint = (name: string) => `a specimen of the specimens table${near(name)}`;
  return { table, byId, faulty, hint };
}

function specimenReader(table: Table, people: People, context: Context, faulty: Map<string, string>) {
  const { issues, study } = context;
  const id = texts(table, "specimen_id");
  const participant = texts(table, "participant_id");
  const type = texts(table, "specimen_type");
  const visit = wholeNumbers({ table, name: "visit_no", issues });
  const checkDay = collectionCheck(table, context);
  const types = study.specimens.map((entry) => entry.type.toLowerCase());
  return (row: number, known: ReadonlyMap<string, Specimen>): Specimen | null => {
    const name = id(row);
    const owner = participant(row);
    const reject = (
      rule: Parameters<typeof issues.add>[0],
      column: string,
      expected: string,
      received: string,
    ) => {
      issues.add(rule, placeOf(table, row, column), expected, received, "row_set_aside");
      setAside(table, row, rule);
      if (name !== null && !known.has(name)) faulty.set(name, rule);
      return null;
    };
    if (name === null) return reject("blank_identifier", "specimen_id", "an identifier", "");
    if (known.has(name)) return reject("duplicate_specimen", "specimen_id", "an identifier of its own", name);
    if (owner === null) return reject("blank_identifier", "participant_id", "a participant", "");
    const person = people.byId.get(owner);
    if (person === undefined) {
      const expected = "a participant of the participants table";
      return reject("unknown_participant", "participant_id", expected, owner);
    }
    const kind = type(row);
    if (kind === null) return reject("missing_value", "specimen_type", "a specimen type", "");
    const at = types.indexOf(kind.toLowerCase());
    const typed = at < 0 ? kind : (study.specimens[at]?.type ?? kind);
    const number = visit(row) ?? 1;
    checkDay(row, number);
    return { id: name, row, person, type: typed, visit: number, reason: person.reason };
  };
}

/** First-visit specimens are taken between the first and the last day of the study. */
function collectionCheck(table: Table, { study, issues }: Context) {
  const collected = texts(table, "collected_at");
  return (row: number, visit: number): void => {
    const text = collected(row);
    if (text === null) return;
    const place = placeOf(table, row, "collected_at");
    const read = moment(text);
    if (read === null) {
      issues.add("not_a_date", place, "a date or time as 2026-04-01T10:15", text, "value_ignored");
      return;
    }
    if (study.dates === undefined || read.day === null) return;
    const { first, last } = study.dates;
    if (read.day < first || (visit === 1 && read.day > last)) {
      issues.add("date_outside_study", place, `a date from ${first} to ${last}`, text, "kept");
    }
  };
}

function keepFirstVisits(specimens: readonly Specimen[]): void {
  const first = new Map<Person, number>();
  for (const { person, visit, reason } of specimens) {
    if (reason === null && visit < (first.get(person) ?? Number.POSITIVE_INFINITY)) first.set(person, visit);
  }
  for (const specimen of specimens) {
    if (specimen.reason === null && specimen.visit !== first.get(specimen.person))
      specimen.reason = "later_visit";
  }
}
