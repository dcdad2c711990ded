import * as v from "valibot";
import { count, quantity, seed } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { note } from "../../core/note.ts";
import { normalCdf } from "../../numeric/normal.ts";
import { exactTrend, type ScoredStratum, simulatedTrend } from "./exact-trend.ts";
import { requireStrata, stratum, tables } from "./fields.ts";

const Input = v.strictObject({
  strata: v.pipe(
    v.array(
      v.strictObject({
        ...stratum,
        score: v.pipe(v.number(), v.finite(), v.description("place of the stratum on its scale")),
      }),
    ),
    v.minLength(2, "expected at least two strata"),
    v.description("one entry per stratum, in their natural order"),
  ),
});
const Options = v.strictObject({ draws: tables(), seed: seed(1) });
const Values = v.strictObject({
  slope: quantity("proportion", "change of the proportion per unit of score, weighted least squares"),
  z: quantity("statistic", "standardised trend; above 0 where the proportion rises"),
  chiSquare: quantity("statistic", "its square, one degree of freedom"),
  pValue: quantity("probability", "two-sided p-value"),
  exactPValue: quantity("probability", "two-sided p-value of the exact conditional test"),
  exactIncreasing: quantity("probability", "exact one-sided p-value of a rise"),
  exactDecreasing: quantity("probability", "exact one-sided p-value of a fall"),
  monteCarloError: quantity("probability", "standard error of the exact p-value; 0 if it was not simulated"),
  draws: count("random tables drawn; 0 if none were needed"),
});
export type TrendInput = v.InferOutput<typeof Input>;
export type TrendOptions = v.InferOutput<typeof Options>;
export type TrendValues = v.InferOutput<typeof Values>;

/**
 * Cochran–Armitage test: does a proportion rise or fall over ordered strata?
 *
 * @param input   counts of independent people per stratum with a score; strata with nobody play no part
 * @returns p-values in 0..1; all `null` with the note `no_variation` where all people have the same
 *   result or the same score
 * Sources: armitage1955, cochran1954
 */
export function trendOverStrata({ strata }: TrendInput, options: TrendOptions): Finding<TrendValues> {
  requireStrata(strata);
  const filled = strata.filter(({ total }) => total > 0);
  const linear = linearPart(filled);
  if (linear === null) return nothingVaries();
  const exact = exactTrend(filled);
  if (exact !== null) return { values: valuesOf(linear, exact, 0), notes: [] };
  const simulated = simulatedTrend(filled, options.draws, options.seed);
  const message = `too many tables to add up: estimated from ${options.draws} random tables`;
  const paths = ["exactPValue", "exactIncreasing", "exactDecreasing"];
  return {
    values: valuesOf(linear, simulated, options.draws),
    notes: paths.map((path) => note("simulated", path, message)),
  };
}

/** Slope and its standardised value; `null` where results or scores don't vary. */
function linearPart(strata: readonly ScoredStratum[]): { slope: number; z: number } | null {
  const all = strata.reduce((sum, { total }) => sum + total, 0);
  const share = strata.reduce((sum, { count: seen }) => sum + seen, 0) / all;
  const meanScore = strata.reduce((sum, { score, total }) => sum + score * total, 0) / all;
  const spread = strata.reduce((sum, { score, total }) => sum + total * Math.pow(score - meanScore, 2), 0);
  if (!(share > 0 && share < 1) || !(spread > 0)) return null;
  const product = strata.reduce(
    (sum, { score, count: seen, total }) => sum + (seen - total * share) * (score - meanScore),
    0,
  );
  return { slope: product / spread, z: product / Math.sqrt(share * (1 - share) * spread) };
}

function valuesOf(
  { slope, z }: { slope: number; z: number },
  exact: { twoSided: number; increasing: number; decreasing: number },
  draws: number,
): TrendValues {
  const { twoSided } = exact;
  return {
    slope,
    z,
    chiSquare: z * z,
    pValue: Math.min(1, 2 * normalCdf(Math.abs(z), "upper")),
    exactPValue: twoSided,
    exactIncreasing: exact.increasing,
    exactDecreasing: exact.decreasing,
    monteCarloError: draws === 0 ? 0 : Math.sqrt((twoSided * (1 - twoSided)) / draws),
    draws,
  };
}

function nothingVaries(): Finding<TrendValues> {
  const values = {
    slope: null,
    z: null,
    chiSquare: null,
    pValue: null,
    exactPValue: null,
    exactIncreasing: null,
    exactDecreasing: null,
    monteCarloError: null,
    draws: 0,
  };
  const message = "all people have the same result, or the same score: no trend can be seen";
  const paths = Object.keys(values).filter((path) => path !== "draws");
  return { values, notes: paths.map((path) => note("no_variation", path, message)) };
}

const SMOKERS = [
  { label: "1", count: 83, total: 86, score: 1 },
  { label: "2", count: 90, total: 93, score: 2 },
  { label: "3", count: 129, total: 136, score: 3 },
  { label: "4", count: 70, total: 82, score: 4 },
];

export const trend = defineMethod({
  id: "strata.trend",
  version: 1,
  title: "Trend over ordered strata",
  question: "Does a proportion rise or fall with reading time, signal strength, or month?",
  formula:
    "chi-square = (sum of (count - total p)(score - mean score))² / (p (1 - p) sum of total (score - mean score)²), 1 degree of freedom; exact: distribution of the sum of the scores of those counted, margins fixed; two-sided: at least as far from its mean",
  caution:
    "the scores are a choice and change the answer; looks for a straight line only: a rise and fall may be missed",
  sources: ["armitage1955", "cochran1954", "agresti2002"],
  input: Input,
  options: Options,
  values: Values,
  run: trendOverStrata,
  examples: [
    {
      name: "smokers in four studies",
      input: { strata: SMOKERS },
      expect: { chiSquare: 8.22492228519773, pValue: 0.00413189747764143 },
      tolerance: { relative: 1e-8 },
      source: "fleiss1981",
      recomputedBy: "R 4.2.2 prop.trend.test",
      memory: true,
    },
    {
      name: "the same, to the digits R prints",
      input: { strata: SMOKERS },
      expect: { chiSquare: 8.2249 },
      tolerance: { decimals: 4 },
      source: "r_prop_trend_test",
    },
    {
      name: "0, 1, 3 of 4: exact, by counting",
      input: {
        strata: [
          { label: "low", count: 0, total: 4, score: 0 },
          { label: "middle", count: 1, total: 4, score: 1 },
          { label: "high", count: 3, total: 4, score: 2 },
        ],
      },
      expect: { exactIncreasing: 0.0343434343434343, exactPValue: 0.0686868686868687 },
      tolerance: { relative: 1e-12 },
      source: "no publication: 17 of the 495 ways to choose 4 of 12 reach the sum 7, twice for both sides",
    },
  ],
});
