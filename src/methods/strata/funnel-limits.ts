import * as v from "valibot";
import { choice, openProportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { binomialCdf, binomialMass, binomialQuantile } from "../../numeric/binomial.ts";
import { normalQuantile } from "../../numeric/normal.ts";

const Input = v.strictObject({
  target: openProportion("the proportion to be kept to"),
  totals: v.pipe(
    v.array(
      v.pipe(
        v.number(),
        v.integer("expected a whole number"),
        v.minValue(1, "expected 1 or more"),
        v.description("how many are observed"),
      ),
    ),
    v.minLength(1, "expected at least one total"),
    v.description("how many are observed at each site, or in each month"),
  ),
});
const Options = v.strictObject({
  method: v.optional(
    choice(
      ["interpolated_exact", "normal", "standard_deviations"],
      "exact binomial, interpolated; normal approximation; or two and three standard deviations",
    ),
    "interpolated_exact",
  ),
  warningLevel: v.optional(openProportion("share of chance results within the warning limits"), 0.95),
  actionLevel: v.optional(openProportion("share of chance results within the action limits"), 0.998),
  truncate: v.optional(v.pipe(v.boolean(), v.description("cut limits that leave 0..1")), true),
});
const Pair = v.strictObject({
  lower: quantity("proportion", "lower limit"),
  upper: quantity("proportion", "upper limit"),
});
const Values = v.strictObject({
  limits: v.pipe(
    v.array(
      v.strictObject({
        total: v.pipe(v.number(), v.integer(), v.description("how many are observed")),
        warning: v.pipe(Pair, v.description("limits of warning")),
        action: v.pipe(Pair, v.description("limits of action")),
      }),
    ),
    v.description("one entry per total, in the order given"),
  ),
});
export type FunnelLimitsInput = v.InferOutput<typeof Input>;
export type FunnelLimitsOptions = v.InferOutput<typeof Options>;
export type FunnelLimitsValues = v.InferOutput<typeof Values>;

/**
 * Limits around a target within which proportions of small and large sites should fall by chance.
 *
 * @param input   target in (0, 1), fixed beforehand; totals 1 or more
 * @param options `standard_deviations` warns at two and acts at three, whatever the levels
 * @returns proportions; cut to 0..1 with the note `truncated` unless told otherwise
 * Source: spiegelhalter2005
 */
export function funnelLimitsAround(
  { target, totals }: FunnelLimitsInput,
  options: FunnelLimitsOptions,
): Finding<FunnelLimitsValues> {
  if (options.warningLevel > options.actionLevel) {
    const place = ["options", "warningLevel"];
    throw new InputError(place, `at most the level of action, ${options.actionLevel}`, options.warningLevel);
  }
  let cut = 0;
  const pair = (total: number, level: number, deviations: number) => {
    const limits = rawLimits(target, total, level, deviations, options.method);
    if (!options.truncate) return limits;
    const kept = { lower: Math.max(0, limits.lower), upper: Math.min(1, limits.upper) };
    if (kept.lower !== limits.lower || kept.upper !== limits.upper) cut += 1;
    return kept;
  };
  const limits = totals.map((total) => ({
    total,
    warning: pair(total, options.warningLevel, 2),
    action: pair(total, options.actionLevel, 3),
  }));
  const notes: Note[] = [];
  if (cut > 0) notes.push(note("truncated", "limits", "limits outside 0 to 1 were cut: none lies beyond"));
  return { values: { limits }, notes };
}

function rawLimits(
  target: number,
  total: number,
  level: number,
  deviations: number,
  method: FunnelLimitsOptions["method"],
): { lower: number; upper: number } {
  const outside = (1 - level) / 2;
  if (method === "interpolated_exact") {
    return {
      lower: interpolated(outside, total, target),
      upper: interpolated(1 - outside, total, target),
    };
  }
  const z = method === "normal" ? normalQuantile(outside, "upper") : deviations;
  const reach = z * Math.sqrt((target * (1 - target)) / total);
  return { lower: target - reach, upper: target + reach };
}

/** Binomial quantile as a share, moved back by the part of its probability that is too much. */
function interpolated(probability: number, total: number, target: number): number {
  const result = binomialQuantile(probability, total, target);
  const excess = binomialCdf(result, total, target, "lower") - probability;
  return (result - excess / binomialMass(result, total, target)) / total;
}

export const funnelLimits = defineMethod({
  id: "strata.funnel_limits",
  version: 1,
  title: "Funnel limits around a target",
  question: "Which sites lie further from the target than chance explains?",
  formula:
    "exact: r = smallest number with P(R <= r) >= q, limit = (r - (P(R <= r) - q) / P(R = r)) / n; normal: target ± z sqrt(target (1 - target) / n)",
  caution:
    "with many sites some fall outside by chance; supposes no spread between sites beyond chance. A target taken from the same data is no target",
  sources: ["spiegelhalter2005"],
  input: Input,
  options: Options,
  values: Values,
  run: funnelLimitsAround,
  examples: [
    {
      name: "target 3 %, 120 observed, exact",
      input: { target: 0.03, totals: [120] },
      options: { truncate: false },
      expect: {
        "limits.0.warning.lower": -0.000276754691683054,
        "limits.0.warning.upper": 0.0599897115137374,
        "limits.0.action.lower": -0.00801107018766732,
        "limits.0.action.upper": 0.0835790376798756,
      },
      tolerance: { relative: 1e-8 },
      source: "spiegelhalter2005",
      recomputedBy: "R 4.2.2 qbinom, pbinom, dbinom",
      memory: true,
    },
    {
      name: "target 3 %, 120 observed, three standard deviations",
      input: { target: 0.03, totals: [120] },
      options: { method: "standard_deviations" },
      expect: { "limits.0.action.lower": 0, "limits.0.action.upper": 0.0767172345071923 },
      tolerance: { relative: 1e-8 },
      source: "no publication: common practice of control charts",
      recomputedBy: "R 4.2.2: closed form",
    },
  ],
});
