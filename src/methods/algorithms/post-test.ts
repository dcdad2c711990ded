import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";

const LARGEST_RATIO = 1e12;

const Input = v.strictObject({
  pretest: proportion("probability of the condition before any test"),
  ratios: v.pipe(
    v.array(
      v.pipe(
        v.number(),
        v.minValue(0, "expected 0 or more"),
        v.maxValue(LARGEST_RATIO, "expected at most 1e12"),
        v.description("likelihood ratio of the result seen"),
      ),
    ),
    v.minLength(1, "expected one likelihood ratio or more"),
    v.maxLength(20, "expected at most 20 likelihood ratios"),
    v.description("likelihood ratio of each result, in the order of the tests"),
  ),
});
const Options = v.strictObject({});
const Values = v.strictObject({
  steps: v.pipe(
    v.array(
      v.strictObject({
        ratio: quantity("ratio", "likelihood ratio of the result"),
        before: quantity("probability", "probability of the condition before this result"),
        after: quantity("probability", "probability of the condition after it"),
      }),
    ),
    v.description("one entry per result, same order"),
  ),
  after: quantity("probability", "probability of the condition after all results"),
  combined: quantity("ratio", "product of all likelihood ratios"),
});
export type PostTestInput = v.InferOutput<typeof Input>;
export type PostTestOptions = v.InferOutput<typeof Options>;
export type PostTestValues = v.InferOutput<typeof Values>;

/**
 * The probability of a condition after each of several results, from their likelihood ratios.
 *
 * @param input pretest probability in 0..1; ratios 0 or more, in the order of the tests
 * @returns probabilities in 0..1; `null` with a note where a result is impossible for somebody certain to have
 *   the condition
 * Behaves badly where the results hang together given the truth: the ratios of two like kits then say the same
 * thing twice. Take the ratio of the pair of results instead.
 * Source: fagan1975
 */
export function afterTests(
  { pretest, ratios }: PostTestInput,
  _options: PostTestOptions,
): Finding<PostTestValues> {
  let logOdds = Math.log(pretest) - Math.log1p(-pretest);
  const notes: Note[] = [];
  const steps = ratios.map((ratio, index) => {
    const before = probabilityAt(logOdds);
    logOdds += Math.log(ratio);
    const after = probabilityAt(logOdds);
    if (before === null) notes.push(impossible(`steps.${index}.before`));
    if (after === null) notes.push(impossible(`steps.${index}.after`));
    return { ratio, before, after };
  });
  const after = probabilityAt(logOdds);
  if (after === null) notes.push(impossible("after"));
  return { values: { steps, after, combined: ratios.reduce((product, ratio) => product * ratio, 1) }, notes };
}

function probabilityAt(logOdds: number): number | null {
  return Number.isNaN(logOdds) ? null : 1 / (1 + Math.exp(-logOdds));
}

function impossible(path: string): Note {
  const message =
    "the condition was certain, and a result came that nobody with it has (ratio 0): one of the two is wrong";
  return note("contradiction", path, message);
}

export const postTest = defineMethod({
  id: "algorithms.post_test",
  version: 1,
  title: "Probability after several tests",
  question: "How probable is the condition after each of these results?",
  formula:
    "odds = probability / (1 - probability); odds after = odds before × likelihood ratio, result by result",
  caution:
    "multiplying ratios takes the results as independent among people of the same truth. Errors that go together make the second result worth less: use algorithms.two_tests",
  sources: ["fagan1975"],
  input: Input,
  options: Options,
  values: Values,
  run: afterTests,
  examples: [
    {
      name: "15 % before; ratios 8, 0.4 and 12",
      input: { pretest: 0.15, ratios: [8, 0.4, 12] },
      expect: {
        "steps.0.after": 0.585365853658537,
        "steps.1.after": 0.360902255639098,
        after: 0.871406959152799,
        combined: 38.4,
      },
      tolerance: { relative: 1e-12 },
      source: "fagan1975",
      recomputedBy: "R 4.2.2: odds times cumprod of the ratios",
      memory: true,
    },
    {
      name: "even odds and a ratio of 3: three to one",
      input: { pretest: 0.5, ratios: [3] },
      expect: { after: 0.75 },
      tolerance: { relative: 1e-14 },
      source: "no publication: 3 / (3 + 1)",
    },
  ],
});
