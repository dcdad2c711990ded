import * as v from "valibot";
import { Name, OpenShare, Share, Words } from "./plain-fields.ts";

const Cost = v.pipe(
  v.number(),
  v.gtValue(0, "expected a cost above 0"),
  v.maxValue(1e12, "expected a cost of at most 1e12"),
);
const Cutoff = v.pipe(
  v.number(),
  v.minValue(-1e12, "expected a number from -1e12 to 1e12"),
  v.maxValue(1e12, "expected a number from -1e12 to 1e12"),
);

/** How a cutoff is chosen on the study's own people. */
const Choose = v.union(
  [
    v.literal("youden"),
    v.strictObject({ specificity_at_least: Share }),
    v.strictObject({ sensitivity_at_least: Share }),
    v.strictObject({
      cost_of_false_positive: v.pipe(Cost, v.description("harm of one false positive, in any unit")),
      cost_of_false_negative: v.pipe(Cost, v.description("harm of one false negative, in the same unit")),
      prevalence: v.pipe(OpenShare, v.description("among the people to be tested")),
    }),
  ],
  "expected youden, or one of specificity_at_least, sensitivity_at_least, or cost_of_false_positive with cost_of_false_negative and prevalence",
);

/** An instrument that measures lines, or whose results are numbers. */
const Instrument = v.pipe(
  v.strictObject({
    kit: v.optional(v.pipe(Name, v.description("only on this kit; absent: on every kit"))),
    reader: v.optional(
      v.pipe(Name, v.description("the reader that is the instrument; absent where the records name none")),
    ),
    unit: v.pipe(Words, v.description("unit of its readings")),
    direction: v.pipe(
      v.picklist(["higher", "lower"]),
      v.description("which readings speak for the condition"),
    ),
    scale: v.optional(
      v.pipe(
        v.picklist(["linear", "log10"]),
        v.description("on which scale the distribution of readings is told; decides no accuracy"),
      ),
      "linear",
    ),
    cutoffs: v.optional(
      v.pipe(
        v.record(Name, Cutoff),
        v.description(
          "by analyte: the cutoff stated beforehand, itself reactive; line-level records: the kit file states it",
        ),
      ),
    ),
    choose: v.optional(
      v.pipe(Choose, v.description("how a cutoff is chosen on these people; absent: none is chosen")),
    ),
    source: v.optional(v.pipe(Words, v.description("where the cutoffs come from; needed with them"))),
  }),
  v.check(
    ({ cutoffs, source }) => cutoffs === undefined || source !== undefined,
    "expected a source beside the cutoffs",
  ),
);
export type Instrument = v.InferOutput<typeof Instrument>;

export const Instruments = v.array(Instrument);
