import * as v from "valibot";
import { text } from "../../core/fields.ts";

/** The name of a kit, as in the list of kits. */
export function kitId(meaning = "the kit's id, as in the list of kits") {
  return text(meaning);
}

/** How strongly the errors of two kits go together: -1 to 1, 0 for not at all. */
export function errorCorrelation(meaning: string) {
  return v.pipe(
    v.number(),
    v.minValue(-1, "expected a correlation between -1 and 1"),
    v.maxValue(1, "expected a correlation between -1 and 1"),
    v.description(meaning),
  );
}

const MOST_SPREAD = 10;

/** The standard deviation of a latent effect on the probit scale. */
function spread(meaning: string) {
  return v.pipe(
    v.number(),
    v.minValue(0, "expected a spread of 0 or more"),
    v.maxValue(MOST_SPREAD, `expected a spread of at most ${MOST_SPREAD}`),
    v.description(meaning),
  );
}

function byTruth(meaning: string) {
  return v.strictObject({
    diseased: spread(`${meaning}, among the diseased`),
    nondiseased: spread(`${meaning}, among the nondiseased`),
  });
}

const Independent = v.pipe(
  v.strictObject({ kind: v.literal("independent") }),
  v.description("given the truth, one run says nothing of the others: an assumption, and rarely true"),
);

const Pair = v.strictObject({
  first: kitId("one kit of the pair"),
  second: kitId("the other kit, or the same one: a repeat with a new device of it"),
  diseased: errorCorrelation("phi of the two results among the diseased"),
  nondiseased: errorCorrelation("phi of the two results among the nondiseased"),
});

const Pairs = v.pipe(
  v.strictObject({
    kind: v.literal("pairs"),
    pairs: v.pipe(
      v.array(Pair),
      v.description(
        "pairs of kits whose errors go together; others have 0, a repeated kit needs its own pair",
      ),
    ),
  }),
  v.description("a stated error correlation for each pair of kits, by truth"),
);

const Shared = v.pipe(
  v.strictObject({
    kind: v.literal("shared"),
    diseased: v.strictObject({ spread: spread("spread of the effect all kits share, among the diseased") }),
    nondiseased: v.strictObject({ spread: spread("the same among the nondiseased") }),
    loadings: v.optional(
      v.pipe(
        v.record(
          v.string(),
          v.pipe(
            v.number(),
            v.minValue(-MOST_SPREAD, `expected a loading between -${MOST_SPREAD} and ${MOST_SPREAD}`),
            v.maxValue(MOST_SPREAD, `expected a loading between -${MOST_SPREAD} and ${MOST_SPREAD}`),
          ),
        ),
        v.description("by kit id: how strongly the kit takes part in the shared effect; 1 where not named"),
      ),
    ),
    sameKit: v.optional(
      v.pipe(
        byTruth("spread of the effect that runs of one kit share besides"),
        v.description("what runs of one kit share besides; absent means 0"),
      ),
    ),
  }),
  v.description("one latent effect per person, shared by all kits on the probit scale"),
);

/** How the results of several runs within one person hang together. The kind must be said: no default. */
export function Dependence() {
  return v.pipe(
    v.variant("kind", [Independent, Pairs, Shared]),
    v.description("how the results of several runs in one person hang together, given the truth"),
  );
}
export type Dependence = v.InferOutput<ReturnType<typeof Dependence>>;
export type DependentPairs = v.InferOutput<typeof Pairs>;
export type SharedEffect = v.InferOutput<typeof Shared>;
