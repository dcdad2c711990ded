import * as v from "valibot";
import { Day, Name, Share, Words } from "./plain-fields.ts";
import { ReferenceErrors } from "./reference-fields.ts";

/** The parts of `study.yaml` that stand for themselves: files, analytes, criteria, strata, comparisons. */

/** A file inside the study folder. */
export const File = v.pipe(
  v.string(),
  v.minLength(1, "expected a file name"),
  v.check((name) => !/^([/\\]|[A-Za-z]:)|\.\.|\0/.test(name), "expected a file inside the study folder"),
);
export const Codes = v.array(v.string());

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

export const Analyte = v.strictObject({
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
    errors: v.optional(
      v.pipe(
        ReferenceErrors,
        v.description("what is believed of the reference itself; absent: not looked at"),
      ),
    ),
  }),
});

export const Criterion = v.pipe(
  v.strictObject({
    id: Name,
    analyte: v.pipe(Name, v.description("an analyte of this file")),
    measure: v.picklist(["sensitivity", "specificity", "invalid_rate"]),
    specimen: v.optional(v.pipe(Name, v.description("only this specimen type; absent: the first listed"))),
    kit: v.optional(v.pipe(Name, v.description("only this kit; absent: the main kit"))),
    at_least: v.optional(v.pipe(Share, v.description("the measure must be at least this"))),
    at_most: v.optional(v.pipe(Share, v.description("the measure must be at most this"))),
    rule: v.optional(
      v.pipe(
        v.picklist(["interval", "one_sided", "point"]),
        v.description(
          "interval: the whole two-sided interval decides; one_sided: the one-sided limit; point: the estimate alone",
        ),
      ),
      "interval",
    ),
    importance: v.optional(v.picklist(["primary", "secondary"]), "primary"),
    source: v.pipe(Words, v.description("document, version and page the figure comes from")),
    entered_on: v.optional(v.pipe(Day, v.description("day on which it was fixed"))),
  }),
  v.check(
    (criterion) => (criterion.at_least === undefined) !== (criterion.at_most === undefined),
    "expected either at_least or at_most",
  ),
);

export const Stratum = v.strictObject({
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

/** What is compared with what: sides differ in kit, specimen type or reader; what is absent is the main one. */
const Side = v.strictObject({
  kit: v.optional(Name),
  specimen: v.optional(Name),
  reader: v.optional(Name),
});

export const Comparison = v.pipe(
  v.strictObject({
    id: Name,
    title: Words,
    analyte: v.pipe(Name, v.description("an analyte of this file")),
    first: v.pipe(Side, v.description("the side whose fitness is asked")),
    second: v.pipe(Side, v.description("the side it is held against")),
    margin: v.optional(
      v.pipe(
        Share,
        v.gtValue(0, "expected a margin above 0 and below 1"),
        v.ltValue(1, "expected a margin above 0 and below 1"),
        v.description("largest tolerable loss of the first side, as a proportion: 0.05 is five points"),
      ),
    ),
    kind: v.optional(v.picklist(["noninferiority", "equivalence"]), "noninferiority"),
    source: v.optional(v.pipe(Words, v.description("document the margin comes from; needed with a margin"))),
    entered_on: v.optional(Day),
  }),
  v.check(
    (comparison) => comparison.margin === undefined || comparison.source !== undefined,
    "expected a source beside the margin",
  ),
);

/** Counts of a programme's own tests, from which its true prevalence is estimated. */
export const Observed = v.pipe(
  v.strictObject({
    reactive: v.pipe(v.number(), v.integer(), v.minValue(0)),
    tested: v.pipe(v.number(), v.integer(), v.minValue(0)),
  }),
  v.check((counts) => counts.reactive <= counts.tested, "expected reactive not above tested"),
);

/** How the criteria are judged together. */
export const Decision = v.strictObject({
  control: v.pipe(
    v.picklist(["each", "all_must_pass", "holm", "fixed_sequence"]),
    v.description(
      "each: by itself; all_must_pass: the kit needs every one; holm or fixed_sequence: any one counts, error shared",
    ),
  ),
  order: v.optional(
    v.pipe(v.array(Name), v.description("fixed_sequence: the criteria in the order of judging")),
  ),
});
