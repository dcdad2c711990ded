import * as v from "valibot";
import { Day, Name, OpenShare, Words } from "./plain-fields.ts";

const Weight = v.pipe(
  v.number(),
  v.gtValue(0, "expected a number above 0"),
  v.maxValue(1e6, "expected at most 1,000,000"),
);

const CENTRES = ["mean", "median", "mode"] as const;

/** What is believed of a share before the data: a beta distribution, or what an expert can say of it. */
export const Prior = v.pipe(
  v.strictObject({
    alpha: v.optional(v.pipe(Weight, v.description("first parameter of a beta distribution"))),
    beta: v.optional(v.pipe(Weight, v.description("second parameter"))),
    mean: v.optional(v.pipe(OpenShare, v.description("or: its mean"))),
    median: v.optional(v.pipe(OpenShare, v.description("or: its median"))),
    mode: v.optional(v.pipe(OpenShare, v.description("or: its most probable value"))),
    percentile: v.optional(v.pipe(OpenShare, v.description("with the centre: a second value"))),
    chance: v.optional(v.pipe(OpenShare, v.description("with the centre: chance to be below that value"))),
  }),
  v.check((prior) => {
    const centres = CENTRES.filter((centre) => prior[centre] !== undefined).length;
    const asBeta = prior.alpha !== undefined && prior.beta !== undefined;
    const asWords = centres === 1 && prior.percentile !== undefined && prior.chance !== undefined;
    const given = Object.values(prior).filter((value) => value !== undefined).length;
    return asBeta ? given === 2 : asWords && given === 3;
  }, "expected either alpha and beta, or one of mean, median and mode with percentile and chance"),
);
export type Prior = v.InferOutput<typeof Prior>;

const TestPrior = v.strictObject({ sensitivity: Prior, specificity: Prior });

/** One test of the model: a kit's result as some reader saw it on some specimen, or the reference status. */
const LatentTest = v.pipe(
  v.strictObject({
    id: Name,
    title: Words,
    kit: v.optional(v.pipe(Name, v.description("absent: the main kit"))),
    specimen: v.optional(v.pipe(Name, v.description("absent: the first listed"))),
    reader: v.optional(v.pipe(Name, v.description("absent: the reader whose results count"))),
    reference: v.optional(
      v.pipe(v.boolean(), v.description("true: the reference status; indeterminate counts as not done")),
      false,
    ),
  }),
  v.check(
    ({ reference, kit, specimen, reader }) =>
      !reference || (kit === undefined && specimen === undefined && reader === undefined),
    "expected no kit, specimen or reader: the reference has none",
  ),
);

/** A model in which no test is beyond doubt. */
export const LatentClass = v.pipe(
  v.strictObject({
    id: Name,
    title: Words,
    analyte: v.pipe(Name, v.description("an analyte of this file")),
    tests: v.pipe(
      v.array(LatentTest),
      v.minLength(2, "expected two tests or more"),
      v.maxLength(8, "expected at most 8 tests"),
      v.description("tests of the same people, none of them beyond doubt"),
    ),
    populations: v.optional(
      v.pipe(Name, v.description("a stratum whose groups differ in prevalence; absent: everybody together")),
    ),
    dependence: v.pipe(
      v.union(
        [
          v.picklist(["independent", "random_effect"]),
          v.strictObject({
            pairs: v.pipe(
              v.array(v.pipe(v.array(Name), v.length(2, "expected two tests"))),
              v.minLength(1, "expected one pair or more"),
              v.maxLength(4, "expected at most 4 pairs"),
            ),
          }),
        ],
        "expected independent, random_effect, or pairs: a list of pairs of tests",
      ),
      v.description(
        "how the tests err together among people of the same truth; pairs: only those named, each test once at most",
      ),
    ),
    priors: v.optional(
      v.pipe(
        v.objectWithRest({ prevalence: Prior }, TestPrior),
        v.description("what is believed of each test, by id, and of the prevalence; absent: likelihood only"),
      ),
    ),
    source: v.optional(v.pipe(Words, v.description("where the priors come from; needed with priors"))),
    entered_on: v.optional(v.pipe(Day, v.description("day on which the priors were written down"))),
  }),
  v.check(
    ({ priors, source }) => priors === undefined || source !== undefined,
    "expected a source beside the priors",
  ),
);
export type LatentClass = v.InferOutput<typeof LatentClass>;
export type LatentTest = LatentClass["tests"][number];
