import { randomBinomial } from "d3-random";
import * as v from "valibot";
import { count, draws, proportion, quantity, seed } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type RandomSource, randomStream } from "../../core/random.ts";
import { proportionInterval } from "../proportion/proportion-interval.ts";
import { type Look, requireRule, statedLooks } from "./looks.ts";
import { rulePaths } from "./rule-paths.ts";
import { stoppingRuleExamples } from "./stopping-rule-examples.ts";

const Input = v.strictObject({
  looks: statedLooks("the stopping rule, first look to last; the last look must decide"),
  truths: v.pipe(
    v.array(proportion("a true proportion right")),
    v.minLength(1, "expected one proportion or more"),
    v.maxLength(50, "expected at most 50 proportions"),
    v.description("true proportions right for which the rule is followed through"),
  ),
});
const Options = v.strictObject({
  seed: seed(1),
  draws: draws("simulated studies for each true proportion", 10_000, 1_000_000),
});
const Values = v.strictObject({
  truths: v.pipe(
    v.array(
      v.strictObject({
        truth: proportion("the true proportion right"),
        pass: quantity("probability", "probability that the kit passes"),
        fail: quantity("probability", "probability that it fails"),
        expectedTotal: quantity("people", "mean number of people"),
        stopsAt: v.pipe(
          v.array(
            v.strictObject({
              total: count("people seen at this look"),
              probability: quantity("probability", "probability that the study ends here"),
            }),
          ),
          v.description("one entry for each look, in order"),
        ),
        simulated: v.pipe(
          v.strictObject({
            pass: quantity("proportion", "share of the simulated studies in which the kit passed"),
            lower: quantity("proportion", "lower limit of that share, exact, 95 %"),
            upper: quantity("proportion", "upper limit of that share, exact, 95 %"),
            expectedTotal: quantity("people", "mean number of people in the simulated studies"),
          }),
          v.description("the same by simulated studies, as a check"),
        ),
      }),
    ),
    v.description("one entry for each true proportion, in the order given"),
  ),
});
export type StoppingRuleInput = v.InferOutput<typeof Input>;
export type StoppingRuleOptions = v.InferOutput<typeof Options>;
export type StoppingRuleValues = v.InferOutput<typeof Values>;

/**
 * What a stopping rule does if the true proportion right is such or such: exactly, and by simulated studies.
 *
 * The exact numbers follow the number right from look to look; the simulation draws the people between two
 * looks and applies the rule, so that a fault in one shows in the other.
 *
 * @param input   looks: people and borders, first to last; the last one must decide. truths in 0..1
 * @param options seed (same seed, same draws), number of simulated studies
 * @throws InputError where the looks are no stopping rule: people not growing, borders that cross, no decision
 *   at the end
 * Behaves badly where results do not come in the order of enrolment, or people are not independent.
 * Source: schultz1973
 */
export function followStoppingRule(
  { looks, truths }: StoppingRuleInput,
  options: StoppingRuleOptions,
): Finding<StoppingRuleValues> {
  requireRule(looks);
  const followed = truths.map((truth, task) => {
    const { pass, fail, passes, fails, expectedTotal } = rulePaths(looks, truth);
    const stopsAt = looks.map(({ total }, at) => ({
      total,
      probability: Math.min(1, (pass[at] ?? 0) + (fail[at] ?? 0)),
    }));
    const simulated = simulate(looks, truth, options.draws, randomStream(options.seed, task));
    return { truth, pass: passes, fail: fails, expectedTotal, stopsAt, simulated };
  });
  return { values: { truths: followed }, notes: [] };
}

function simulate(looks: readonly Look[], truth: number, studies: number, random: RandomSource) {
  const draw = randomBinomial.source(random);
  const steps = looks.map(({ total }, at) =>
    draw(total - (at === 0 ? 0 : (looks[at - 1]?.total ?? 0)), truth),
  );
  let [passed, people] = [0, 0];
  for (let study = 0; study < studies; study += 1) {
    const end = oneStudy(looks, steps);
    people += end.total;
    if (end.passed) passed += 1;
  }
  const { lower, upper } = proportionInterval(passed, studies);
  return { pass: passed / studies, lower, upper, expectedTotal: people / studies };
}

function oneStudy(looks: readonly Look[], steps: readonly (() => number)[]) {
  let right = 0;
  for (const [at, { total, passFrom, failAt }] of looks.entries()) {
    right += steps[at]?.() ?? 0;
    if (passFrom !== null && right >= passFrom) return { total, passed: true };
    if (failAt !== null && right <= failAt) return { total, passed: false };
  }
  return { total: looks[looks.length - 1]?.total ?? 0, passed: false };
}

export const planningStoppingRule = defineMethod({
  id: "planning.stopping_rule",
  version: 1,
  title: "What a stopping rule does",
  question: "How often does a stopping rule pass or fail a kit, and after how many people?",
  formula:
    "P(X = x, still going on) at a look = sum over y still going on at the look before of P(Y = y) b(x - y; people between, truth); x from the upper border on passes, x up to the lower one fails. Beside it, simulated studies with the exact interval of their share",
  caution:
    "supposes independent people, results in the order of enrolment, and looks at the planned numbers. The last look must decide. The simulated share misses the exact one now and then: its interval is one of 95 %",
  sources: ["schultz1973", "clopper1934"],
  input: Input,
  options: Options,
  values: Values,
  run: followStoppingRule,
  examples: stoppingRuleExamples,
});
