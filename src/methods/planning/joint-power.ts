import * as v from "valibot";
import { count, openProportion, proportion, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chanceMet, metBorder } from "./criterion-chance.ts";
import { criterionOptions, direction } from "./fields.ts";
import { jointPowerExamples } from "./joint-power-examples.ts";
import { bothEnough, type Counted, covarianceRange } from "./joint-probability.ts";

const Input = v.strictObject({
  criteria: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion, e.g. the analyte"),
        expected: proportion("the proportion that is expected in truth"),
        threshold: openProportion("the proportion demanded"),
        direction: direction(),
        total: v.pipe(
          count("people observed for this criterion"),
          v.minValue(1, "expected 1 or more"),
          v.maxValue(100_000, "expected at most 100,000"),
        ),
      }),
    ),
    v.length(2, "expected two criteria"),
    v.description("two criteria that must both be met"),
  ),
  shared: count("people who are counted in both totals"),
  correlation: v.optional(
    v.pipe(
      v.number(),
      v.minValue(-1, "expected -1 to 1"),
      v.maxValue(1, "expected -1 to 1"),
      v.description(
        "correlation (phi), in a shared person, of the two results each speaking for its criterion",
      ),
    ),
    0,
  ),
});
const Options = v.strictObject({ ...criterionOptions });
const Values = v.strictObject({
  each: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the criterion"),
        power: quantity("probability", "probability that this criterion is met"),
      }),
    ),
    v.description("each criterion alone, in the order given"),
  ),
  together: v.pipe(
    v.strictObject({
      stated: quantity("probability", "with the correlation stated"),
      independent: quantity("probability", "if the two results of a shared person are independent"),
      lowest: quantity("probability", "the least it can be, whatever the correlation"),
      highest: quantity("probability", "the most it can be, whatever the correlation"),
    }),
    v.description("probability that both criteria are met"),
  ),
  correlation: v.pipe(
    v.strictObject({
      least: quantity("ratio", "the lowest correlation that the two expected proportions allow"),
      most: quantity("ratio", "the highest correlation that they allow"),
    }),
    v.description("what the correlation can be; both 0 where an expected proportion is 0 or 1"),
  ),
});
export type JointPowerInput = v.InferOutput<typeof Input>;
export type JointPowerOptions = v.InferOutput<typeof Options>;
export type JointPowerValues = v.InferOutput<typeof Values>;

/**
 * How probable is it that two criteria are both met, when some people count for both?
 *
 * @param input   two criteria with the truth expected of each; the people in both totals; their correlation,
 *   which is that of speaking for the criterion: the event itself under `at_least`, its absence under `at_most`
 * @param options interval, level, rule as of `proportion.criterion`
 * @returns probabilities in 0..1, exact: the shared people are drawn from a table of four cells, the others
 *   independently. `stated` is `null` with a note where the proportions don't allow the correlation
 * @throws InputError where more people are shared than one of the totals has
 * The lowest and highest are those of the lowest and highest correlation: the stronger the two hang
 * together, the more probable it is that both are met. Sources: aitken1936, tchen1980, frechet1951
 */
export function powerOfBoth(input: JointPowerInput, options: JointPowerOptions): Finding<JointPowerValues> {
  const { criteria, shared, correlation } = input;
  const fewest = Math.min(...criteria.map(({ total }) => total));
  if (shared > fewest)
    throw new InputError(["input", "shared"], `at most the smaller total, ${fewest}`, shared);
  const counted = criteria.map((criterion) => countedFor(criterion, options));
  const [first, second] = counted as [Counted, Counted];
  const powers = criteria.map(({ expected, total, direction: side }, at) =>
    chanceMet((counted[at] as Counted).needed, total, expected, side),
  );
  const range = covarianceRange(first.share, second.share);
  const spread = Math.sqrt(first.share * (1 - first.share) * second.share * (1 - second.share));
  const both = (covariance: number) =>
    Math.min(
      ...powers,
      bothEnough(first, second, shared, Math.min(range.most, Math.max(range.least, covariance))),
    );
  const allowed = {
    least: spread === 0 ? 0 : Math.max(-1, range.least / spread),
    most: spread === 0 ? 0 : Math.min(1, range.most / spread),
  };
  const possible = correlation >= allowed.least - SLACK && correlation <= allowed.most + SLACK;
  const values: JointPowerValues = {
    each: criteria.map(({ label }, at) => ({ label, power: powers[at] as number })),
    together: {
      stated: possible ? both(correlation * spread) : null,
      independent: powers.reduce((product, power) => product * power, 1),
      lowest: both(range.least),
      highest: both(range.most),
    },
    correlation: allowed,
  };
  const impossible = possible ? [] : [notAllowed(allowed)];
  return { values, notes: [...notesOnEach(criteria, counted), ...impossible] };
}

/** A correlation at the very end of its range may have been rounded. */
const SLACK = 1e-9;

type Criterion = JointPowerInput["criteria"][number];

function countedFor({ expected, total, ...demand }: Criterion, options: JointPowerOptions): Counted {
  const share = demand.direction === "at_least" ? expected : 1 - expected;
  return { total, share, needed: metBorder(total, demand, options) };
}

function notesOnEach(criteria: readonly Criterion[], counted: readonly Counted[]): Note[] {
  return criteria.flatMap(({ expected, total, threshold, direction: side }, at) => {
    const path = `each.${at}.power`;
    if ((counted[at] as Counted).needed > total) {
      return [note("out_of_reach", path, `with ${total} people no result meets it: plan more people`)];
    }
    if (side === "at_least" ? expected > threshold : expected < threshold) return [];
    return [note("not_beyond", path, NOT_BEYOND)];
  });
}

const NOT_BEYOND =
  "the proportion expected does not lie beyond the threshold: this is the probability of a wrong verdict, not a power";

function notAllowed({ least, most }: { least: number; most: number }): Note {
  const range = `${least.toFixed(4)} to ${most.toFixed(4)}`;
  const message = `the proportions expected allow a correlation from ${range} only: state one of these`;
  return note("beyond_frechet", "together.stated", message);
}

export const jointPower = defineMethod({
  id: "planning.joint_power",
  version: 1,
  title: "Power for two criteria at once",
  question: "How probable is it that both criteria are met, when many of the same people count for both?",
  formula:
    "sum over i and j of P(i of the shared people speak for the first and j for the second) P(the first's own people bring the rest it needs) P(the second's own bring theirs). A shared person speaks for both with probability p1 p2 + r sqrt(p1 (1 - p1) p2 (1 - p2)), r from the lowest to the highest that keeps every cell at 0 or above",
  caution:
    "the correlation is hardly ever known beforehand: quote the lowest and highest with it. It matters little where few people are shared or both powers are high. With more than two criteria use planning.joint_size",
  sources: ["aitken1936", "tchen1980", "frechet1951", "clopper1934"],
  input: Input,
  options: Options,
  values: Values,
  run: powerOfBoth,
  examples: jointPowerExamples,
});
