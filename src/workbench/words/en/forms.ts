import { count } from "../../../report/formats.ts";

/** Words of forms made from schemas. */
export const forms = {
  /** Names of fields that can't be read off their names in a file. */
  fields: {
    id: "Short name",
    volume_ul: "Volume, µl",
    temperature_c: "Temperature, °C",
    timed_from: "Timed from",
    max_attempts: "Devices allowed",
    entered_on: "Fixed on",
    ppv: "PPV",
    npv: "NPV",
  } as Readonly<Record<string, string>>,
  /** Words for choices that can't be read off their codes. */
  choices: {
    true: "yes",
    false: "no",
    null: "none",
    nonreactive: "non-reactive",
    noninferiority: "non-inferiority",
    clopper_pearson: "Clopper and Pearson",
    mid_p: "mid-P",
    agresti_coull: "Agresti and Coull",
  } as Readonly<Record<string, string>>,
  place: (place: number) => `No. ${place}`,
  choose: "choose …",
  standard: (standard: string) => `left out: ${standard}`,
  leftOut: "left out",
  none: "none",
  /** Beside the name of a field that may be left out. */
  mayLeaveOut: "optional",
  add: (what: string) => `Add: ${what}`,
  addOne: (what: string) => `Add one: ${what}`,
  addItem: "Add one",
  removeItem: (what: string) => `Remove ${what}`,
  raiseItem: (what: string) => `Move up: ${what}`,
  remove: "Remove",
  raise: "Move up",
  newName: "New name",
  addNamed: "Add under this name",
  expected: (expected: string) => `Expected ${expected}.`,
  unknownField: (name: string) => `${name}: no such field.`,
  kindOf: (what: string) => `${what}: which kind`,
  faults: (faults: number) => `${count(faults)} ${faults === 1 ? "fault" : "faults"}`,
  items: (items: number) => (items === 0 ? "none" : count(items)),
  asForm: (name: string) => `${name} as a form`,
  asText: (name: string) => `${name} as text`,
  noForm:
    "This text can't be read as YAML, so there is no form of it. Mend the text; undo brings back what stood.",
  unknown: "Not to be edited here; see the text.",
};
