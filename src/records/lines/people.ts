import { placeOf, texts, truths, words } from "../cells.ts";
import type { SetAside } from "../model.ts";
import { moment } from "../moments.ts";
import { suggestion } from "../nearest.ts";
import { SELECTIONS, type Selection } from "../study.ts";
import { isCounted, setAside, type Table } from "../table.ts";
import type { Context } from "./context.ts";

export const PEOPLE_COLUMNS = {
  required: ["participant_id"],
  optional: [
    "site_id",
    "arm_id",
    "enrolment_date",
    "selection",
    "consent",
    "eligible",
    "exclusion_reason",
    "person_key",
    "sex",
    "pregnant",
  ],
};

export interface Person {
  readonly id: string;
  /** Place among all people of the table. */
  readonly index: number;
  readonly row: number;
  readonly site: string | null;
  readonly selection: Selection;
  readonly enrolledOn: string | null;
  /** Why the person is not analysed; `null` for those who are. */
  reason: string | null;
}

export interface People {
  readonly table: Table;
  readonly byId: ReadonlyMap<string, Person>;
  /** Those analysed, in file order. */
  readonly counted: readonly Person[];
  readonly before: readonly SetAside[];
  /** People enrolled: rows that stand for a person, second rows of one participant left out. */
  readonly enrolled: number;
}

/** Rows that stand for nobody of their own. */
const NOBODY = new Set(["blank_row", "duplicate_participant"]);

/** Reads the participants: one person for each, of whom those without consent or eligibility are set aside. */
export function readPeople(table: Table, context: Context): People {
  const byId = new Map<string, Person>();
  const read = personReader(table, context);
  for (let row = 0; row < table.lines.length; row++) {
    if (!isCounted(table, row)) continue;
    const person = read(row, byId);
    if (person !== null) byId.set(person.id, person);
  }
  mergeEnrolments(table, [...byId.values()], context);
  const people = [...byId.values()];
  for (const person of people) if (person.reason !== null) setAside(table, person.row, person.reason);
  const before = new Map<string, number>();
  for (const reason of table.fates) {
    if (reason !== null && !NOBODY.has(reason)) before.set(reason, (before.get(reason) ?? 0) + 1);
  }
  const counted = people.filter((person) => person.reason === null);
  const reasons = [...before].map(([reason, number]) => ({ reason, people: number }));
  reasons.sort((one, other) => (one.reason < other.reason ? -1 : 1));
  const enrolled = counted.length + reasons.reduce((sum, entry) => sum + entry.people, 0);
  return { table, byId, counted, before: reasons, enrolled };
}

function personReader(table: Table, context: Context) {
  const { issues } = context;
  const id = texts(table, "participant_id");
  const consent = truths({ table, name: "consent", issues });
  const eligible = truths({ table, name: "eligible", issues });
  const exclusion = texts(table, "exclusion_reason");
  const site = siteReader(table, context);
  const selection = selectionReader(table, context);
  const enrolledOn = enrolmentReader(table, context);
  const checkSex = sexCheck(table, context);
  return (row: number, known: ReadonlyMap<string, Person>): Person | null => {
    const name = id(row);
    if (name === null || known.has(name)) {
      const rule = name === null ? "blank_identifier" : "duplicate_participant";
      issues.add(
        rule,
        placeOf(table, row, "participant_id"),
        "an identifier of its own",
        name ?? "",
        "row_set_aside",
      );
      setAside(table, row, rule);
      return null;
    }
    checkSex(row);
    const out = consent(row) === false ? "not_consented" : eligible(row) === false ? "not_eligible" : null;
    if (out === "not_eligible" && table.columns.has("exclusion_reason") && exclusion(row) === null) {
      issues.add("missing_exclusion_reason", placeOf(table, row, "exclusion_reason"), "a reason", "", "kept");
    }
    const date = enrolledOn(row);
    return {
      id: name,
      index: known.size,
      row,
      site: site(row),
      selection: selection(row),
      enrolledOn: date,
      reason: out,
    };
  };
}

/** Pregnancy does not apply to men. */
function sexCheck(table: Table, { issues }: Context) {
  const sex = texts(table, "sex");
  const pregnant = texts(table, "pregnant");
  return (row: number): void => {
    if (sex(row)?.toLowerCase() !== "male" || pregnant(row)?.toLowerCase() !== "yes") return;
    issues.add("pregnant_man", placeOf(table, row, "pregnant"), "na for a male participant", "yes", "kept");
  };
}

function siteReader(table: Table, { study, issues }: Context) {
  const site = texts(table, "site_id");
  const known = study.sites.map((entry) => entry.id);
  return (row: number): string | null => {
    const name = site(row);
    if (name !== null && known.length > 0 && !known.includes(name)) {
      const expected = `a site of the study file${suggestion(name, known)}`;
      issues.add("unknown_site", placeOf(table, row, "site_id"), expected, name, "kept");
    }
    return name;
  };
}

/** The row's own selection; else its arm's; else, with a single arm, that one's. */
function selectionReader(table: Table, { study, issues }: Context) {
  const own = words({ table, name: "selection", issues }, SELECTIONS);
  const arm = texts(table, "arm_id");
  const arms = new Map(study.arms.map((entry) => [entry.id, entry.selection]));
  const only = study.arms.length === 1 ? study.arms[0]?.selection : undefined;
  return (row: number): Selection => {
    const name = arm(row);
    const ofArm = name === null ? undefined : arms.get(name);
    if (name !== null && ofArm === undefined) {
      const expected = `an arm of the study file${suggestion(name, [...arms.keys()])}`;
      issues.add("unknown_arm", placeOf(table, row, "arm_id"), expected, name, "value_ignored");
    }
    const selection = own(row) ?? ofArm ?? only;
    if (selection !== undefined) return selection;
    const expected = "an arm or a selection; without one the person counts as a convenience sample";
    issues.add("missing_value", placeOf(table, row, "arm_id"), expected, name ?? "", "kept");
    return "convenience";
  };
}

function enrolmentReader(table: Table, { study, issues }: Context) {
  const date = texts(table, "enrolment_date");
  return (row: number): string | null => {
    const text = date(row);
    if (text === null) return null;
    const place = placeOf(table, row, "enrolment_date");
    const day = moment(text)?.day ?? null;
    if (day === null) issues.add("not_a_date", place, "a date as 2026-04-01", text, "value_ignored");
    else if (study.dates !== undefined && (day < study.dates.first || day > study.dates.last)) {
      const expected = `a date from ${study.dates.first} to ${study.dates.last}`;
      issues.add("date_outside_study", place, expected, text, "kept");
    }
    return day;
  };
}

/** Two participants with one person key are one person: the first enrolment that counts is kept. */
function mergeEnrolments(table: Table, people: readonly Person[], { issues }: Context): void {
  const key = texts(table, "person_key");
  const groups = new Map<string, Person[]>();
  for (const person of people) {
    const name = key(person.row);
    if (name === null || person.reason !== null) continue;
    const group = groups.get(name);
    if (group === undefined) groups.set(name, [person]);
    else group.push(person);
  }
  for (const group of groups.values()) {
    if (group.length < 2) continue;
    group.sort((one, other) => byDay(one.enrolledOn, other.enrolledOn) || one.row - other.row);
    const first = group[0] as Person;
    for (const second of group.slice(1)) {
      second.reason = "enrolled_twice";
      const place = placeOf(table, second.row, "person_key");
      const expected = `one participant for each person (first enrolled as ${first.id})`;
      issues.add("enrolled_twice", place, expected, second.id, "row_set_aside");
    }
  }
}

/** Earlier days first, unknown days last. */
function byDay(one: string | null, other: string | null): number {
  if (one === other) return 0;
  if (one === null) return 1;
  if (other === null) return -1;
  return one < other ? -1 : 1;
}
