import * as v from "valibot";
import { Name } from "../plain-fields.ts";
import { CountOf } from "./uncertain-fields.ts";

/** What an algorithm file may say of how far kits are wrong about the same people. */

const CORRELATION = "expected a correlation from -1 to 1";
const Correlation = v.pipe(v.number(), v.minValue(-1, CORRELATION), v.maxValue(1, CORRELATION));
const errors = {
  positive: v.pipe(Correlation, v.description("among the truly positive")),
  negative: v.pipe(Correlation, v.description("among the truly negative")),
};

/** Both kits on the same people of one truth. */
const BothKits = v.strictObject({
  both: v.pipe(CountOf, v.description("reactive in both kits")),
  first: v.pipe(CountOf, v.description("reactive in the first alone")),
  second: v.pipe(CountOf, v.description("reactive in the second alone")),
  neither: v.pipe(CountOf, v.description("reactive in neither")),
});

const Pair = v.pipe(
  v.strictObject({
    kits: v.pipe(
      v.tuple([Name, Name]),
      v.description("two kits of this file; the same twice: a repeat of it"),
    ),
    analyte: v.optional(v.pipe(Name, v.description("for this analyte only; absent: for every one"))),
    positive: v.optional(errors.positive),
    negative: v.optional(errors.negative),
    counts: v.optional(
      v.pipe(
        v.strictObject({ positive: BothKits, negative: BothKits }),
        v.description("or both kits on the same people, from which the correlation is estimated"),
      ),
    ),
  }),
  v.check(
    ({ positive, negative, counts }) =>
      counts === undefined
        ? positive !== undefined && negative !== undefined
        : positive === undefined && negative === undefined,
    "expected positive and negative, or counts",
  ),
);

const SPREAD = "expected a spread from 0 to 10";
const Spread = v.pipe(v.number(), v.minValue(0, SPREAD), v.maxValue(10, SPREAD));
const spreads = {
  positive: v.pipe(Spread, v.description("among the truly positive")),
  negative: v.pipe(Spread, v.description("among the truly negative")),
};

/** How far the kits are wrong about the same people. Independence has to be named: it is never assumed. */
export const Dependence = v.variant("kind", [
  v.strictObject({ kind: v.literal("independent") }),
  v.strictObject({
    kind: v.literal("pairs"),
    pairs: v.optional(v.array(Pair), []),
    repeat: v.optional(
      v.pipe(v.strictObject(errors), v.description("of two runs of the same kit, where no pair says it")),
    ),
    others: v.optional(v.pipe(v.strictObject(errors), v.description("of every two kits that no pair names"))),
  }),
  v.strictObject({
    kind: v.literal("shared"),
    ...spreads,
    loadings: v.optional(
      v.pipe(v.record(v.string(), Spread), v.description("how much of it each kit takes up; absent: 1")),
      {},
    ),
    same_kit: v.optional(
      v.pipe(v.strictObject(spreads), v.description("what runs of the same kit share besides")),
    ),
  }),
]);
