import * as v from "valibot";
import { openProportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { fewestFlawless } from "./fewest-flawless.ts";
import { criterionOptions } from "./fields.ts";

const Input = v.strictObject({ threshold: openProportion("the proportion demanded, at least") });
const Options = v.strictObject(criterionOptions);
const Values = v.strictObject({
  total: quantity("people", "fewest people who must all be right for the criterion to be met"),
});
export type NoFailuresInput = v.InferOutput<typeof Input>;
export type NoFailuresOptions = v.InferOutput<typeof Options>;
export type NoFailuresValues = v.InferOutput<typeof Values>;

/** Totals beyond this are not looked at; under Blaker's interval each takes its own look. */
const mostOf = ({ method }: NoFailuresOptions) => (method === "blaker" ? 100_000 : 100_000_000);

/**
 * How many people without a single failure it takes to meet "at least c".
 *
 * @param input   the proportion demanded
 * @param options interval, level, rule as of `proportion.criterion`
 * @returns people; `null` with a note where it takes more than 100 million (Blaker:
 *   100,000). With Wald's interval, and
 *   under the rule `point`, a single person does, which says nothing: a note warns
 * @throws InputError for one-sided limits of Blaker's interval
 * Sources: clopper1934, wilson1927
 */
export function noFailures(input: NoFailuresInput, options: NoFailuresOptions): Finding<NoFailuresValues> {
  const total = fewestFlawless(
    { threshold: input.threshold, direction: "at_least" },
    options,
    mostOf(options),
  );
  return { values: { total }, notes: notesOn(total, options) };
}

function notesOn(total: number | null, options: NoFailuresOptions): Note[] {
  if (total === null) {
    const most = mostOf(options).toLocaleString("en-GB");
    const message = `it takes more than ${most} people: set an easier threshold`;
    return [note("beyond_horizon", "total", message)];
  }
  const { method, rule } = options;
  if (rule === "point") {
    const message =
      "judged by the estimate alone a single person does, whatever is demanded: let the interval decide";
    return [note("no_uncertainty", "total", message)];
  }
  if (method === "wald") {
    const message =
      "Wald's interval has no width where nothing fails, so that a single person does: choose another interval";
    return [note("no_uncertainty", "total", message)];
  }
  if (method === "blaker") {
    const message =
      "under Blaker's interval a few people more, all right, may miss the criterion again: take exactly so many, or the exact interval";
    return [note("may_be_lost", "total", message)];
  }
  return [];
}

const BY_POWERS = "R 4.2.2: ceiling(log(.025) / log(c)), one-sided ceiling(log(.05) / log(c))";

export const planningNoFailures = defineMethod({
  id: "planning.no_failures",
  version: 1,
  title: "People needed when none may fail",
  question: "How many people must all be right for the criterion to be met?",
  formula:
    "smallest n where the lower limit of n of n is at or above c. Exact: c^n at or below the error outside; Wilson: n = c z² / (1 - c), rounded up",
  caution:
    "the smallest study there is, not a good one: a single failure spoils it, which a kit that is truly at the proportion demanded has almost always. Use planning.criterion_size for a study with a stated power",
  sources: ["clopper1934", "wilson1927"],
  input: Input,
  options: Options,
  values: Values,
  run: noFailures,
  examples: [
    {
      name: "at least 99 %, one-sided exact limit",
      input: { threshold: 0.99 },
      options: { sides: "one" },
      expect: { total: 299 },
      tolerance: { relative: 0 },
      source: "clopper1934",
      recomputedBy: BY_POWERS,
      memory: true,
    },
    {
      name: "at least 99 %, two-sided exact limits",
      input: { threshold: 0.99 },
      expect: { total: 368 },
      tolerance: { relative: 0 },
      source: "clopper1934",
      recomputedBy: BY_POWERS,
      memory: true,
    },
    {
      name: "at least 98 %, two-sided Wilson limits",
      input: { threshold: 0.98 },
      options: { method: "wilson" },
      expect: { total: 189 },
      tolerance: { relative: 0 },
      source: "wilson1927",
      recomputedBy: "R 4.2.2: ceiling(c * qnorm(.975)^2 / (1 - c))",
      memory: true,
    },
  ],
});
