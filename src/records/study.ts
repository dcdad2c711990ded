import * as v from "valibot";
import { STUDY_INTERVALS } from "../core/interval-names.ts";
import { Instruments } from "./instrument-fields.ts";
import { LatentClass } from "./latent-class-fields.ts";
import { Panels } from "./panel-fields.ts";
import { Day, Name, Share, Words } from "./plain-fields.ts";
import { Pooling } from "./pooling-fields.ts";
import { Verification } from "./reference-fields.ts";
import {
  Analyte,
  Codes,
  Comparison,
  Criterion,
  Decision,
  File,
  Observed,
  SELECTIONS,
  Stratum,
} from "./study-fields.ts";

export { SELECTIONS, type Selection } from "./study-fields.ts";

/**
 * `study.yaml`: what was planned. Read by people and by the program alike; its choices are named,
 * and none that decides a result has a silent default.
 */
const LineRecords = v.strictObject({
  shape: v.literal("lines"),
  participants: File,
  specimens: File,
  index_tests: File,
  /** One row per line, reader and reading; or the wide form below. */
  line_readings: v.optional(File),
  wide_readings: v.optional(
    v.pipe(
      v.strictObject({
        table: File,
        lines: v.pipe(v.record(Name, v.string()), v.description("line of the kit: column of the table")),
      }),
      v.description("one row per device and reader, one column per line"),
    ),
  ),
  interpretations: v.optional(File),
  reference_tests: File,
  lots: v.optional(File),
  operators: v.optional(File),
});

const ResultRecords = v.strictObject({
  shape: v.literal("results"),
  table: File,
  columns: v.strictObject({
    person: v.optional(v.pipe(v.string(), v.description("who; absent: each row is one person"))),
    device: v.optional(v.string()),
    specimen: v.optional(v.string()),
    reader: v.optional(v.string()),
    site: v.optional(v.string()),
    selection: v.optional(v.string()),
    minutes: v.optional(v.pipe(v.string(), v.description("minutes from the timed step to the reading"))),
  }),
  analytes: v.pipe(
    v.array(
      v.strictObject({
        analyte: Name,
        kit: v.optional(v.pipe(Name, v.description("kit of this rapid result; absent: the main kit"))),
        rapid: v.string(),
        reference: v.string(),
        value: v.optional(
          v.pipe(
            v.string(),
            v.description("column with the number that an instrument gave; see instruments"),
          ),
        ),
        probability: v.optional(
          v.pipe(v.boolean(), v.description("that number is a probability of the condition, 0 to 1")),
        ),
      }),
    ),
    v.minLength(1, "expected at least one analyte"),
    v.description("the two result columns of each analyte"),
  ),
  codes: v.pipe(
    v.strictObject({
      rapid: v.strictObject({
        reactive: Codes,
        nonreactive: Codes,
        invalid: v.optional(Codes, []),
        not_done: v.optional(Codes, []),
      }),
      reference: v.strictObject({
        positive: Codes,
        negative: Codes,
        indeterminate: v.optional(Codes, []),
        not_done: v.optional(Codes, []),
      }),
    }),
    v.description("the codes found in the table, as text; an empty cell is not_done unless listed"),
  ),
});

const CountRecords = v.strictObject({
  shape: v.literal("counts"),
  table: File,
  columns: v.strictObject({
    analyte: v.optional(v.string()),
    kit: v.optional(v.string()),
    specimen: v.optional(v.string()),
    true_positives: v.string(),
    false_positives: v.string(),
    false_negatives: v.string(),
    true_negatives: v.string(),
    invalid_positives: v.optional(v.pipe(v.string(), v.description("invalid, reference positive"))),
    invalid_negatives: v.optional(v.pipe(v.string(), v.description("invalid, reference negative"))),
  }),
});

export const StudySchema = v.pipe(
  v.strictObject({
    format: v.pipe(v.literal("fourfold-study/1"), v.description("what this file is, and its version")),
    id: v.pipe(Name, v.description("short name of the study")),
    title: Words,
    status: v.pipe(v.picklist(["draft", "locked"]), v.description("locked: the data are final")),
    protocol: v.optional(v.strictObject({ version: Words, registration: v.optional(Words) })),
    dates: v.optional(
      v.pipe(
        v.strictObject({ first: Day, last: Day }),
        v.check((dates) => dates.first <= dates.last, "expected first not after last"),
        v.description("first and last day of enrolment"),
      ),
    ),
    kit: v.optional(v.pipe(File, v.description("the kit file; or kits"))),
    kits: v.optional(
      v.pipe(
        v.array(File),
        v.minLength(1, "expected at least one kit file"),
        v.description("the kit files instead of kit, the main kit first; two or more are compared"),
      ),
    ),
    sites: v.optional(v.array(v.strictObject({ id: Name, title: Words })), []),
    arms: v.pipe(
      v.array(v.strictObject({ id: Name, title: Words, selection: v.picklist(SELECTIONS) })),
      v.minLength(1, "expected at least one arm"),
      v.description(
        "how people came into the study; decides whether its own predictive values may be printed",
      ),
    ),
    analytes: v.pipe(v.array(Analyte), v.minLength(1, "expected at least one analyte")),
    specimens: v.pipe(
      v.array(v.strictObject({ type: Name, title: Words })),
      v.minLength(1, "expected at least one specimen type"),
      v.description("specimen types analysed, the primary one first"),
    ),
    readers: v.pipe(
      v.strictObject({
        use: v.pipe(
          v.picklist(["primary", "consensus", "each"]),
          v.description("primary: one reader's results; consensus: all eye readers; each: side by side"),
        ),
        primary: v.optional(v.pipe(Name, v.description("the reader whose results count"))),
        disagreement: v.optional(
          v.pipe(
            v.picklist(["set_aside", "reactive", "nonreactive"]),
            v.description("consensus: what readers who disagree give"),
          ),
          "set_aside",
        ),
      }),
      v.check(
        (readers) => readers.use !== "primary" || readers.primary !== undefined,
        "expected primary to name a reader when use is primary",
      ),
    ),
    criteria: v.optional(v.array(Criterion), []),
    prevalences: v.optional(
      v.pipe(
        v.array(
          v.strictObject({
            id: Name,
            title: Words,
            values: v.pipe(v.record(Name, Share), v.description("prevalence of each analyte")),
            source: v.optional(Words),
            observed: v.optional(
              v.pipe(
                v.record(Name, Observed),
                v.description(
                  "the programme's own counts with this kit, by analyte: gives its true prevalence",
                ),
              ),
            ),
          }),
        ),
        v.description("programme prevalences: where the kit is meant to be used"),
      ),
      [],
    ),
    strata: v.optional(v.array(Stratum), []),
    cluster: v.optional(
      v.pipe(Name, v.description("the stratum within which people are alike, e.g. site; or person")),
    ),
    comparisons: v.optional(v.array(Comparison), []),
    decision: v.optional(Decision, { control: "each" }),
    verification: v.optional(
      v.pipe(
        Verification,
        v.description("what decided who got the reference test, where some people did not"),
      ),
    ),
    latent_class: v.optional(
      v.pipe(
        v.array(LatentClass),
        v.description("models in which no test, the reference included, is beyond doubt"),
      ),
      [],
    ),
    pooling: v.optional(
      v.pipe(
        Pooling,
        v.description("groups of people pooled by a model in which accuracy differs from group to group"),
      ),
    ),
    instruments: v.optional(
      v.pipe(Instruments, v.description("instruments whose readings are numbers: curves over all cutoffs")),
      [],
    ),
    panels: v.optional(
      v.pipe(Panels, v.description("dilution panels: how little of an analyte is still seen")),
      [],
    ),
    treatment: v.strictObject({
      invalid: v.pipe(
        v.picklist(["set_aside", "failure", "reactive", "nonreactive"]),
        v.description("what an invalid result counts as in the primary analysis"),
      ),
      outside_window: v.pipe(
        v.picklist(["keep", "set_aside", "invalid"]),
        v.description("readings too early or too late in the primary analysis"),
      ),
      repeat: v.pipe(
        v.picklist(["first", "last", "any"]),
        v.description("which device counts when an invalid one was repeated"),
      ),
    }),
    interval: v.strictObject({
      method: v.picklist(STUDY_INTERVALS),
      level: v.pipe(
        v.number(),
        v.gtValue(0.5, "expected a level above 0.5 and below 1"),
        v.ltValue(1, "expected a level above 0.5 and below 1"),
      ),
    }),
    seed: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(0xffffffff)),
    funding: v.optional(
      v.pipe(Words, v.description("sources of funding and other support; role of funders")),
    ),
    deviations: v.optional(
      v.pipe(v.array(Words), v.description("deviations from the protocol, in words")),
      [],
    ),
    records: v.variant("shape", [LineRecords, ResultRecords, CountRecords]),
  }),
  v.check((study) => (study.kit === undefined) !== (study.kits === undefined), "expected either kit or kits"),
);

/** The kit files of a study, the main one first. */
export function kitFilesOf(study: Pick<Study, "kit" | "kits">): readonly string[] {
  return study.kits ?? (study.kit === undefined ? [] : [study.kit]);
}

export type Study = v.InferOutput<typeof StudySchema>;
export type StudyInput = v.InferInput<typeof StudySchema>;
