import * as v from "valibot";
import { choice, count, draws, estimate, level, quantity, seed } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { alphaData } from "./alpha.ts";
import { chanceAgreement, measurePatterns } from "./chance-agreement.ts";
import { describeCoefficients } from "./describe-coefficients.ts";
import { SCALES } from "./distances.ts";
import { fleissNullError } from "./fleiss-null-error.ts";
import { manyReadersExamples } from "./many-readers-examples.ts";
import { groupPatterns } from "./patterns.ts";
import { categoriesOf, placesOf, ratingCategories, ratingsTable } from "./ratings.ts";
import type { ReadingData } from "./resample.ts";
import { WEIGHT_KINDS, weightMatrix } from "./weights.ts";

const Input = v.strictObject({ ratings: ratingsTable() });
const Options = v.strictObject({
  scale: v.optional(choice(SCALES, "what differences between ratings mean, for alpha"), "nominal"),
  weights: v.optional(choice(WEIGHT_KINDS, "none: AC1; else AC2 with these weights"), "none"),
  categories: ratingCategories(),
  level: level(),
  replicates: draws("how often items are drawn again", 2000, 100_000),
  seed: seed(1),
});
const coefficient = (name: string) =>
  v.strictObject({
    estimate: estimate("statistic", `${name}, with its large-sample interval over items`),
    standardError: quantity("statistic", `large-sample standard error of ${name}`),
    bootstrap: estimate("statistic", `${name}, with percentiles of redrawn items`),
    undefinedReplicates: count("replicates that could not give the coefficient"),
  });
const Values = v.strictObject({
  items: count("items rated at least once"),
  comparedItems: count("items rated twice or more"),
  ratings: count("ratings in all"),
  categories: v.pipe(v.array(v.number()), v.description("the categories, ascending")),
  observedAgreement: quantity(
    "proportion",
    "mean over compared items of the share of their pairs that agree",
  ),
  expectedAgreement: quantity("proportion", "agreement by chance in the sense of Fleiss' kappa"),
  fleissKappa: coefficient("Fleiss' kappa"),
  fleissNullStandardError: quantity("statistic", "standard error of Fleiss' kappa under chance agreement"),
  fleissZ: quantity("statistic", "Fleiss' kappa over that standard error"),
  gwetAgreement: coefficient("Gwet's AC1, or AC2 where weights are asked for"),
  krippendorffAlpha: coefficient("Krippendorff's alpha on the scale asked for"),
});
export type ManyReadersInput = v.InferOutput<typeof Input>;
export type ManyReadersOptions = v.InferOutput<typeof Options>;
export type ManyReadersValues = v.InferOutput<typeof Values>;

/**
 * Agreement of any number of readers, with ratings missing here and there.
 *
 * Fleiss' kappa and alpha (nominal) take chance from the pooled ratings; AC1 lets chance play on hard
 * items only, and stays near the plain agreement where one category is rare. AC2 is AC1 with weights for
 * near misses, by the order of the categories. Items rated once count for the shares of categories
 * (kappa, AC), not for alpha; items never rated are left out.
 *
 * Two intervals for each. `estimate`: by each item's influence (leaving out one item for alpha), t with
 * items - 1 degrees of freedom. `bootstrap`: percentiles over items drawn again; same seed, same numbers.
 * Both take items as the sample and the readers as the only ones of interest; both need some 30 items, and
 * cover too little where disagreements are few.
 *
 * @param input   one row per item, one entry per reader; readings of the same item must be blind
 * @param options scale (alpha), weights (AC2), categories offered, level, replicates, seed
 * @returns coefficients in -1..1. `null` with a note: `nothing_compared` (one reader), `no_variation` (all
 *   ratings the same), `unequal_ratings` (no test), `no_width`, `one_item`, `few_replicates`
 * @throws InputError where rows differ in length or a rating is none of the categories
 * Sources: fleiss1971, fleiss1979kappa, gwet2008, gwet2014, krippendorff2011, efron1993
 */
export function agreementOfMany(
  { ratings }: ManyReadersInput,
  options: ManyReadersOptions,
): Finding<ManyReadersValues> {
  const categories = categoriesOf(ratings, options.categories, options.scale);
  const data = readingData(placesOf(ratings, categories), categories, options);
  const { patterns, rated } = data.grouped;
  const compared = patterns.filter((pattern) => pattern.ratings >= 2);
  const plain = chanceAgreement(data.plain, "shares", data.plainWeights);
  const nullError = plain === null ? null : fleissNullError(patterns, plain.categoryShares);
  const { notes, ...coefficients } = describeCoefficients(data, options);
  const values: ManyReadersValues = {
    items: rated,
    comparedItems: compared.reduce((total, { items }) => total + items, 0),
    ratings: ratings.flat().filter((value) => value !== null).length,
    categories: [...categories],
    ...plainAgreement(data),
    ...coefficients,
    fleissNullStandardError: nullError,
    fleissZ: nullError === null || plain === null ? null : plain.value / nullError,
  };
  return { values, notes: [...notesOn(values, ratings.length), ...notes] };
}

function readingData(
  places: readonly (readonly (number | null)[])[],
  categories: readonly number[],
  options: ManyReadersOptions,
): ReadingData {
  const grouped = groupPatterns(places, categories.length);
  const plainWeights = weightMatrix("none", categories.length);
  const weights = weightMatrix(options.weights, categories.length);
  return {
    grouped,
    plain: measurePatterns(grouped.patterns, plainWeights),
    plainWeights,
    weighted: measurePatterns(grouped.patterns, weights),
    weights,
    alpha: alphaData(grouped.patterns, categories, options.scale),
  };
}

/** Both exist even where no coefficient does: all ratings the same. */
function plainAgreement({
  plain,
}: ReadingData): Pick<ManyReadersValues, "observedAgreement" | "expectedAgreement"> {
  let compared = 0;
  let agreed = 0;
  let rated = 0;
  const shares: number[] = [];
  for (const pattern of plain) {
    rated += pattern.items;
    pattern.shares.forEach((share, at) => {
      shares[at] = (shares[at] ?? 0) + share * pattern.items;
    });
    if (pattern.agreement === null) continue;
    compared += pattern.items;
    agreed += pattern.agreement * pattern.items;
  }
  if (compared === 0) return { observedAgreement: null, expectedAgreement: null };
  const expected = shares.reduce((total, share) => total + Math.pow(share / rated, 2), 0);
  return { observedAgreement: agreed / compared, expectedAgreement: expected };
}

function notesOn(values: ManyReadersValues, items: number): Note[] {
  const notes: Note[] = [];
  if (values.items < items) {
    const message = `${items - values.items} of ${items} items were rated by nobody and are left out`;
    notes.push(note("unrated_items", "items", message));
  }
  if (values.observedAgreement === null) {
    const paths = ["observedAgreement", "expectedAgreement", "fleissNullStandardError", "fleissZ"];
    return [...notes, ...notesAt("nothing_compared", paths, "no item was rated twice: nothing to compare")];
  }
  if (values.fleissNullStandardError === null) {
    const same = values.expectedAgreement === 1;
    const message = same
      ? "all ratings are the same: there is nothing to test"
      : "items have unlike numbers of ratings: the formula for chance agreement does not cover that";
    const paths = ["fleissNullStandardError", "fleissZ"];
    notes.push(...notesAt(same ? "no_variation" : "unequal_ratings", paths, message));
  }
  return notes;
}

export const manyReaders = defineMethod({
  id: "agreement.many_readers",
  version: 1,
  title: "Agreement of many readers",
  question: "How far do several readers agree beyond chance, when some readings are missing?",
  formula:
    "(po - pe) / (1 - pe), po = mean over items of the share of agreeing pairs. Fleiss' kappa: pe = sum of q(k)², q(k) = mean share of category k. AC1, AC2: pe = T / (K (K - 1)) sum of q(k) (1 - q(k)), T = sum of all weights. Alpha = 1 - (n - 1) sum of o(c,k) d(c,k) / sum of n(c) n(k) d(c,k) over pairs c < k, o being coincidences within items rated m times, each pair counting 1 / (m - 1), and d the squared difference on the scale",
  caution:
    "kappa and alpha are low at high agreement where one category is rare. AC1 and AC2 depend on the number of categories offered: state them. Intervals are about items, not about other readers, and too short with few items or few disagreements",
  sources: ["fleiss1971", "fleiss1979kappa", "gwet2008", "gwet2014", "krippendorff2011", "efron1993"],
  input: Input,
  options: Options,
  values: Values,
  run: agreementOfMany,
  examples: manyReadersExamples,
});
