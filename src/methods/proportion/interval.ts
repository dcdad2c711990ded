import * as v from "valibot";
import { choice, count, level, proportionEstimate } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { intervalMethod } from "./intervals/fields.ts";
import { estimateProportion, proportionInterval } from "./proportion-interval.ts";

const Input = v.strictObject({
  count: count("how many of them"),
  total: count("of how many observed"),
});
const Options = v.strictObject({
  method: intervalMethod(),
  level: level(),
  sides: v.optional(
    choice(["two", "lower", "upper"], "both limits, or one limit that has the whole error on its side"),
    "two",
  ),
  truncate: v.optional(
    v.pipe(v.boolean(), v.description("cut limits that leave 0..1 (Wald, Agresti and Coull)")),
    true,
  ),
});
const Values = v.strictObject({ proportion: proportionEstimate("proportion, with its interval") });
export type ProportionIntervalInput = v.InferOutput<typeof Input>;
export type ProportionIntervalOptions = v.InferOutput<typeof Options>;
export type ProportionIntervalValues = v.InferOutput<typeof Values>;

/**
 * A proportion with its confidence interval, and notes where the interval is not what it seems.
 *
 * @param input   counts of independent observations: people, not lines or readings
 * @param options method: see the table of intervals; level in (0, 1); sides
 * @returns the proportion in 0..1; `null` with the note `no_observations` when the total is 0
 * Sources: clopper1934, newcombe1998, brown2001, blaker2000
 */
export function intervalOfProportion(
  input: ProportionIntervalInput,
  options: ProportionIntervalOptions,
): Finding<ProportionIntervalValues> {
  if (input.count > input.total) {
    throw new InputError(["input", "count"], `at most the total, ${input.total}`, input.count);
  }
  const proportion = estimateProportion(input.count, input.total, options);
  return { values: { proportion }, notes: notesOn(input, options) };
}

function notesOn(input: ProportionIntervalInput, options: ProportionIntervalOptions): Note[] {
  const { count: seen, total } = input;
  if (total === 0) {
    return [note("no_observations", "proportion", "nothing was observed: the proportion can't be estimated")];
  }
  const notes: Note[] = [];
  if (options.method === "wald" && (seen === 0 || seen === total)) {
    notes.push(
      note("no_width", "proportion", "this interval has no width here, which does not mean certainty"),
    );
  }
  const raw = proportionInterval(seen, total, { ...options, truncate: false });
  if (options.truncate && (raw.lower < 0 || raw.upper > 1)) {
    const place = raw.lower < 0 ? "proportion.lower" : "proportion.upper";
    notes.push(note("truncated", place, "the formula's limit lies outside 0 to 1 and was cut"));
  }
  return notes;
}

const R = "R 4.2.2 base/stats: qbeta, closed forms with qnorm, uniroot on pbinom";

export const interval = defineMethod({
  id: "proportion.interval",
  version: 1,
  title: "Confidence interval of a proportion",
  question: "How precisely is this proportion known?",
  formula:
    "exact: the lower limit is the proportion p with P(X >= count | total, p) = (1 - level) / 2, the upper limit the one with P(X <= count | total, p) = (1 - level) / 2; both are quantiles of a beta distribution",
  caution:
    "counts must be independent: people, not readings. The exact interval is wide for small totals; score and Jeffreys intervals cover the level only on average; Wald's covers far too little near 0 and 1 and is here for teaching",
  sources: ["clopper1934", "newcombe1998", "wilson1927", "brown2001", "blaker2000", "agresti1998"],
  input: Input,
  options: Options,
  values: Values,
  run: intervalOfProportion,
  examples: [
    {
      name: "81 of 263, exact",
      input: { count: 81, total: 263 },
      expect: {
        "proportion.value": 0.307984790874525,
        "proportion.lower": 0.252736745585271,
        "proportion.upper": 0.367621922601351,
      },
      tolerance: { relative: 1e-8 },
      source: "newcombe1998",
      recomputedBy: R,
      memory: true,
    },
    {
      name: "81 of 263, score",
      input: { count: 81, total: 263 },
      options: { method: "wilson" },
      expect: { "proportion.lower": 0.255288519878274, "proportion.upper": 0.3662095769828 },
      tolerance: { relative: 1e-8 },
      source: "newcombe1998",
      recomputedBy: R,
      memory: true,
    },
    {
      name: "7 of 50, exact, as printed",
      input: { count: 7, total: 50 },
      expect: {
        "proportion.value": 0.14,
        "proportion.lower": 0.05819170033997342,
        "proportion.upper": 0.26739600249700846,
      },
      tolerance: { relative: 1e-10 },
      source: "scipy_binomtest",
    },
    {
      name: "0 of 25, exact: the upper limit is not 0",
      input: { count: 0, total: 25 },
      expect: { "proportion.value": 0, "proportion.lower": 0, "proportion.upper": 0.137185171530713 },
      tolerance: { relative: 1e-8 },
      source: "agresti2002",
      recomputedBy: R,
      memory: true,
    },
    {
      name: "10 of 10, Wald: certain for no reason",
      input: { count: 10, total: 10 },
      options: { method: "wald" },
      expect: { "proportion.lower": 1, "proportion.upper": 1 },
      tolerance: { relative: 1e-8 },
      source: "newcombe1998",
      recomputedBy: R,
      memory: true,
    },
    {
      name: "58 of 60, one-sided lower limit, exact",
      input: { count: 58, total: 60 },
      options: { sides: "lower" },
      expect: { "proportion.lower": 0.898764105075838, "proportion.upper": 1 },
      tolerance: { relative: 1e-8 },
      source: "clopper1934",
      recomputedBy: "R 4.2.2 qbeta(.05, x, n-x+1)",
      memory: true,
    },
    {
      name: "nothing observed",
      input: { count: 0, total: 0 },
      expect: { "proportion.value": null, "proportion.lower": null, "proportion.upper": null },
      tolerance: { relative: 1e-8 },
      source: "no publication: by definition",
    },
  ],
});
