import * as v from "valibot";

/**
 * `study.yaml`: what was planned. Read by people and by the program alike; its choices are named,
 * and none that decides a result has a silent default.
 */
const Words = v.pipe(v.string(), v.minLength(1, "expected some text"));
const Name = v.pipe(
  v.string(),
  v.regex(/^[A-Za-z0-9][A-Za-z0-9_.-]*$/, "expected a short name of letters, digits, _ . or -"),
);
const Day = v.pipe(v.string(), v.isoDate("expected a date as 2026-04-01"));
const Share = v.pipe(
  v.number(),
  v.minValue(0, "expected a proportion between 0 and 1"),
  v.maxValue(1, "expected a proportion between 0 and 1"),
);
const File = v.pipe(
  v.string(),
  v.minLength(1, "expected a file name"),
  v.check((name) => !/^([/\\]|[A-Za-z]:)|\.\.|\0/.test(name), "expected a file inside the study folder"),
);
const Codes = v.array(v.string());

export const SELECTIONS = [
  "consecutive",
  "random",
  "convenience",
  "enriched",
  "known_positive",
  "known_negative",
] as const;
export type Selection = (typeof SELECTIONS)[number];

/** One step of the reference algorithm: the result of an assay leads to a status or another assay. */
const ReferenceStep = v.strictObject({
  assay: v.pipe(Name, v.description("assay, as written in the reference table")),
  several: v.optional(
    v.pipe(
      v.picklist(["last", "all_reactive", "any_reactive"]),
      v.description("how several runs of this assay become one result"),
    ),
    "last",
  ),
  leads_to: v.pipe(
    v.record(
      v.picklist(["reactive", "nonreactive", "greyzone", "indeterminate", "failed"]),
      v.pipe(Name, v.description("positive, negative, indeterminate, or the next assay")),
    ),
    v.description("what follows each result"),
  ),
});

const Analyte = v.strictObject({
  id: Name,
  title: Words,
  reference: v.strictObject({
    title: v.pipe(Words, v.description("the reference test or algorithm, in words")),
    role: v.pipe(
      v.picklist(["reference_standard", "comparator", "imperfect"]),
      v.description(
        "comparator: not a reference standard; the report then speaks of percent agreement, never of sensitivity",
      ),
    ),
    discrepancies: v.pipe(Words, v.description("how discrepant results were settled, and for whom")),
    algorithm: v.optional(
      v.pipe(
        v.array(ReferenceStep),
        v.minLength(1, "expected at least one step"),
        v.description("line-level studies: how component results give the final status, first assay first"),
      ),
    ),
  }),
});

const Criterion = v.pipe(
  v.strictObject({
    id: Name,
    analyte: v.pipe(Name, v.description("an analyte of this file")),
    measure: v.picklist(["sensitivity", "specificity", "invalid_rate"]),
    specimen: v.optional(v.pipe(Name, v.description("only this specimen type; absent: the first listed"))),
    at_least: v.optional(v.pipe(Share, v.description("the measure must be at least this"))),
    at_most: v.optional(v.pipe(Share, v.description("the measure must be at most this"))),
    importance: v.optional(v.picklist(["primary", "secondary"]), "primary"),
    source: v.pipe(Words, v.description("document, version and page the figure comes from")),
    entered_on: v.optional(v.pipe(Day, v.description("day on which it was fixed"))),
  }),
  v.check(
    (criterion) => (criterion.at_least === undefined) !== (criterion.at_most === undefined),
    "expected either at_least or at_most",
  ),
);

const Stratum = v.strictObject({
  id: Name,
  title: Words,
  column: v.pipe(v.string(), v.minLength(1), v.description("the column that holds the groups")),
  table: v.optional(
    v.pipe(
      v.picklist(["participants", "specimens", "index_tests", "lots", "operators"]),
      v.description("line-level studies: the table of that column"),
    ),
  ),
  planned: v.pipe(v.boolean(), v.description("named before the data were seen")),
  ordered: v.optional(
    v.pipe(v.array(v.string()), v.description("the groups in their natural order: adds a test for trend")),
  ),
});

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
    v.array(v.strictObject({ analyte: Name, rapid: v.string(), reference: v.string() })),
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
    specimen: v.optional(v.string()),
    true_positives: v.string(),
    false_positives: v.string(),
    false_negatives: v.string(),
    true_negatives: v.string(),
    invalid_positives: v.optional(v.pipe(v.string(), v.description("invalid, reference positive"))),
    invalid_negatives: v.optional(v.pipe(v.string(), v.description("invalid, reference negative"))),
  }),
});

export const INTERVAL_METHODS = [
  "clopper_pearson",
  "mid_p",
  "blaker",
  "wilson",
  "wilson_corrected",
  "jeffreys",
  "agresti_coull",
  "likelihood_ratio",
] as const;

export const StudySchema = v.strictObject({
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
  kit: v.pipe(File, v.description("the kit file")),
  sites: v.optional(v.array(v.strictObject({ id: Name, title: Words })), []),
  arms: v.pipe(
    v.array(v.strictObject({ id: Name, title: Words, selection: v.picklist(SELECTIONS) })),
    v.minLength(1, "expected at least one arm"),
    v.description("how people came into the study; decides whether its own predictive values may be printed"),
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
        }),
      ),
      v.description("programme prevalences: where the kit is meant to be used"),
    ),
    [],
  ),
  strata: v.optional(v.array(Stratum), []),
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
    method: v.picklist(INTERVAL_METHODS),
    level: v.pipe(
      v.number(),
      v.gtValue(0.5, "expected a level above 0.5 and below 1"),
      v.ltValue(1, "expected a level above 0.5 and below 1"),
    ),
  }),
  seed: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(0xffffffff)),
  funding: v.optional(v.pipe(Words, v.description("sources of funding and other support; role of funders"))),
  deviations: v.optional(v.pipe(v.array(Words), v.description("deviations from the protocol, in words")), []),
  records: v.variant("shape", [LineRecords, ResultRecords, CountRecords]),
});

export type Study = v.InferOutput<typeof StudySchema>;
export type StudyInput = v.InferInput<typeof StudySchema>;
