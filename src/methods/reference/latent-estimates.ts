import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { normalQuantile } from "../../numeric/normal.ts";
import type { Summit } from "./latent-climb.ts";
import type { LatentData } from "./latent-data.ts";
import type { LatentInput, LatentOptions, LatentValues } from "./latent-fields.ts";
import { type Covariance, covarianceOf, profileOf, waldOf } from "./latent-intervals.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import { pairCells } from "./latent-pair.ts";
import { MOST_SHARED } from "./latent-tables.ts";

interface Measured {
  readonly estimate: Estimate;
  readonly standardError: number | null;
}
type Estimates = Pick<LatentValues, "tests" | "populations" | "couplings">;
/** What is made of the unknown at a place, for the field of the values named. */
type Share = (place: number, path: string) => Measured;

/** The names and the people alone, where nothing can be estimated. */
export function noEstimates(input: LatentInput, data: LatentData): Estimates {
  const nothing = () => ({ estimate: NOT_ESTIMABLE, standardError: null });
  return estimatesBy(input, data, { share: nothing, coupling: nothing, mirrored: (measured) => measured });
}

/** Every unknown with its standard error and interval; notes on those at a border and without limits. */
export function latentEstimates(
  input: LatentInput,
  { level, interval }: LatentOptions,
  summit: Summit,
  data: LatentData,
  layout: LatentLayout,
  notes: Note[],
): Estimates {
  const covariance = covarianceOf(summit.theta, data, layout);
  const share: Share = (place, path) => {
    const logit = summit.theta[place] as number;
    const variance = covariance(place, place);
    const estimate =
      interval === "profile"
        ? profileOf(place, summit, variance, level, data, layout)
        : waldOf(logit, variance, level);
    const spread = fromLogit(logit) * fromLogit(-logit);
    notes.push(...notesOn(path, logit, variance, estimate));
    return { estimate, standardError: variance === null ? null : spread * Math.sqrt(variance) };
  };
  const coupling = (condition: number, place: number, path: string): Measured => {
    if (!data.randomEffect)
      return pairCovariance(condition, place, { summit, data, layout, covariance, level }, path, notes);
    return scaled(share(layout.dependence(condition, 0), path), MOST_SHARED);
  };
  return estimatesBy(input, data, {
    share: (kind, place, path) =>
      share(
        kind === "prevalence"
          ? layout.prevalence(place)
          : layout.reactive(kind === "diseased" ? 0 : 1, place),
        path,
      ),
    coupling,
    mirrored: ({ estimate: { value, lower, upper }, standardError }) => ({
      estimate: { value: lessThanOne(value), lower: lessThanOne(upper), upper: lessThanOne(lower) },
      standardError,
    }),
  });
}

interface Parts {
  readonly share: (kind: "prevalence" | "diseased" | "nondiseased", place: number, path: string) => Measured;
  readonly coupling: (condition: number, place: number, path: string) => Measured;
  readonly mirrored: (measured: Measured) => Measured;
}

function estimatesBy(input: LatentInput, data: LatentData, { share, coupling, mirrored }: Parts): Estimates {
  const between = data.randomEffect
    ? ["all tests"]
    : data.pairs.map(([first, second]) => `${input.tests[first]}, ${input.tests[second]}`);
  return {
    tests: input.tests.map((name, test) => ({
      name,
      sensitivity: share("diseased", test, `tests.${test}.sensitivity`),
      specificity: mirrored(share("nondiseased", test, `tests.${test}.specificity`)),
    })),
    populations: input.populations.map(({ label }, place) => ({
      label,
      people: data.groups.reduce((sum, group) => sum + (group.population === place ? group.people : 0), 0),
      prevalence: share("prevalence", place, `populations.${place}.prevalence`),
    })),
    couplings: between.map((tests, place) => ({
      between: tests,
      diseased: coupling(0, place, `couplings.${place}.diseased`),
      nondiseased: coupling(1, place, `couplings.${place}.nondiseased`),
    })),
  };
}

const NO_VARIANCE = "the likelihood does not curve down here: no standard error";

function notesOn(path: string, logit: number, variance: number | null, { lower, upper }: Estimate): Note[] {
  if (!Number.isFinite(logit)) {
    const without = lower === null || upper === null ? ", and no Wald limits (ask for profile limits)" : "";
    return [note("at_border", path, `the likeliest value is at the border: no standard error${without}`)];
  }
  return variance === null ? [note("no_information", path, NO_VARIANCE)] : [];
}

interface Fitted {
  readonly summit: Summit;
  readonly data: LatentData;
  readonly layout: LatentLayout;
  readonly covariance: Covariance;
  readonly level: number;
}

/** The conditional covariance of a pair, with limits by the delta method on its own scale. */
function pairCovariance(
  condition: number,
  pair: number,
  { summit, data, layout, covariance, level }: Fitted,
  path: string,
  notes: Note[],
): Measured {
  const [first, second] = data.pairs[pair] as readonly [number, number];
  const places = [
    layout.reactive(condition, first),
    layout.reactive(condition, second),
    layout.dependence(condition, pair),
  ];
  const [one, other, odds] = places.map((place) => summit.theta[place] as number) as [number, number, number];
  const { cells, slopes } = pairCells(one, other, odds);
  const [p, q] = [fromLogit(one), fromLogit(other)];
  const own = [q * p * fromLogit(-one), p * q * fromLogit(-other), 0];
  const slope = slopes.map((by, k) => (by[3] as number) - (own[k] as number));
  let variance: number | null = 0;
  for (const [a, row] of places.entries()) {
    for (const [b, column] of places.entries()) {
      const shared = covariance(row, column);
      variance =
        variance === null || shared === null
          ? null
          : variance + (slope[a] as number) * (slope[b] as number) * shared;
    }
  }
  const value = cells[3] - p * q;
  if (variance === null) {
    const message = "a share or the dependence of this pair is at its border: no standard error, no limits";
    notes.push(note("at_border", path, message));
    return { estimate: { value, lower: null, upper: null }, standardError: null };
  }
  const standardError = Math.sqrt(Math.max(0, variance));
  const reach = normalQuantile((1 + level) / 2) * standardError;
  return { estimate: { value, lower: value - reach, upper: value + reach }, standardError };
}

function scaled({ estimate: { value, lower, upper }, standardError }: Measured, factor: number): Measured {
  const by = (number: number | null) => (number === null ? null : number * factor);
  return {
    estimate: { value: by(value), lower: by(lower), upper: by(upper) },
    standardError: by(standardError),
  };
}

function lessThanOne(value: number | null): number | null {
  return value === null ? null : 1 - value;
}
