import * as v from "valibot";
import { STUDY_INTERVALS } from "../../../core/interval-names.ts";
import { SELECTIONS } from "../../../records/study.ts";

export const RESULT_MEANINGS = [
  "rapid",
  "reference",
  "person",
  "device",
  "specimen",
  "reader",
  "site",
  "selection",
  "minutes",
  "group",
] as const;
export const COUNT_MEANINGS = [
  "true_positives",
  "false_positives",
  "false_negatives",
  "true_negatives",
  "invalid_positives",
  "invalid_negatives",
  "analyte",
  "specimen",
  "group",
] as const;
export const RAPID_CODES = ["reactive", "nonreactive", "invalid", "not_done"] as const;
export const REFERENCE_CODES = ["positive", "negative", "indeterminate", "not_done"] as const;

export type Meaning = (typeof RESULT_MEANINGS)[number] | (typeof COUNT_MEANINGS)[number];
export type RapidCode = (typeof RAPID_CODES)[number];
export type ReferenceCode = (typeof REFERENCE_CODES)[number];

const said = (meaning: string) =>
  v.pipe(v.string(), v.minLength(1, "expected some text"), v.description(meaning));
const minutes = (meaning: string) =>
  v.pipe(v.number(), v.minValue(0, "expected 0 minutes or more"), v.description(meaning));

/** What no table says of itself, and the study file must. */
export const AboutSchema = v.strictObject({
  kit: said("name of the rapid test"),
  condition: said("what is tested for; not used where a column says it"),
  specimen: said("specimen type in words; not used where a column says it"),
  reference: said("the reference test or algorithm, in words"),
  role: v.pipe(
    v.picklist(["reference_standard", "comparator", "imperfect"]),
    v.description("comparator: the report then speaks of percent agreement, never of sensitivity"),
  ),
  discrepancies: said("how discrepant results were settled, and for whom"),
  selection: v.pipe(
    v.picklist(SELECTIONS),
    v.description("how people came in; decides whether the study's own predictive values may be printed"),
  ),
  invalid: v.pipe(
    v.picklist(["set_aside", "failure", "reactive", "nonreactive"]),
    v.description("what an invalid result counts as"),
  ),
  repeat: v.pipe(
    v.picklist(["first", "last", "any"]),
    v.description("which device counts when a person has several; of no effect where each has one"),
  ),
  outside_window: v.pipe(
    v.picklist(["keep", "set_aside", "invalid"]),
    v.description("readings too early or too late; of no effect without minutes"),
  ),
  max_attempts: v.pipe(
    v.number(),
    v.integer(),
    v.minValue(1),
    v.maxValue(9),
    v.description("devices allowed per specimen when the first is invalid (1: no repeat)"),
  ),
  reading_window: v.optional(
    v.pipe(
      v.strictObject({
        from_minutes: minutes("earliest, in minutes"),
        to_minutes: minutes("latest, in minutes"),
      }),
      v.check(
        (range) => range.from_minutes <= range.to_minutes,
        "expected from_minutes not above to_minutes",
      ),
      v.description("when the result may be read; needed where a column holds minutes"),
    ),
  ),
  interval: v.strictObject({
    method: v.picklist(STUDY_INTERVALS),
    level: v.pipe(
      v.number(),
      v.gtValue(0.5, "expected a level above 0.5 and below 1"),
      v.ltValue(1, "expected a level above 0.5 and below 1"),
    ),
  }),
});
export type About = v.InferOutput<typeof AboutSchema>;

/** What the user says of a table. Places still empty are empty texts. */
export interface Mapping {
  readonly table: string;
  readonly shape: "results" | "counts";
  /** By column; a column without one is left out. */
  readonly meanings: Readonly<Record<string, Meaning | "">>;
  /** What each code means, by the code. */
  readonly rapid: Readonly<Record<string, RapidCode | "">>;
  readonly reference: Readonly<Record<string, ReferenceCode | "">>;
  /** On its way to an `About`. */
  readonly about: unknown;
  /** What was guessed and not looked at yet: columns and codes as `rapid:1`. */
  readonly guessed: readonly string[];
}

/** The columns with a meaning. */
export function columnsOf(mapping: Mapping, meaning: Meaning): string[] {
  return Object.keys(mapping.meanings).filter((column) => mapping.meanings[column] === meaning);
}
