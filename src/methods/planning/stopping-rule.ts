import * as v from "valibot";
import { count, draws, proportion, quantity, seed } from "../../core/fields.ts";
import { statedLooks } from "./looks.ts";

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
