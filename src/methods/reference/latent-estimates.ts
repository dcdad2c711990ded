import { type Estimate, NOT_ESTIMABLE } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { drawnAgain } from "./latent-bootstrap.ts";
import type { Summit } from "./latent-climb.ts";
import type { LatentData } from "./latent-data.ts";
import type { LatentInput, LatentOptions, LatentValues } from "./latent-fields.ts";
import { covarianceOf, profileOf, waldOf } from "./latent-intervals.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import { type Measured, pairCovariance } from "./latent-pair-covariance.ts";
import { MOST_SHARED } from "./latent-tables.ts";

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
  options: LatentOptions,
  summit: Summit,
  data: LatentData,
  layout: LatentLayout,
  notes: Note[],
): Estimates {
  const { level, interval } = options;
  const covariance = covarianceOf(summit.theta, data, layout);
  const again = interval === "bootstrap" ? drawnAgain(summit, data, layout, options) : null;
  notes.push(...(again?.notes ?? []));
  const share: Share = (place, path) => {
    const logit = summit.theta[place] as number;
    const variance = covariance(place, place);
    const estimate = again
      ? again.estimateOf((theta) => fromLogit(theta[place] as number))
      : interval === "profile"
        ? profileOf(place, summit, variance, level, data, layout)
        : waldOf(logit, variance, level);
    const spread = fromLogit(logit) * fromLogit(-logit);
    notes.push(...notesOn(path, logit, variance, estimate, interval));
    return { estimate, standardError: variance === null ? null : spread * Math.sqrt(variance) };
  };
  const coupling = (condition: number, place: number, path: string): Measured => {
    if (!data.randomEffect)
      return pairCovariance(
        condition,
        place,
        { summit, data, layout, covariance, level, again },
        path,
        notes,
      );
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

function notesOn(
  path: string,
  logit: number,
  variance: number | null,
  { lower, upper }: Estimate,
  interval: LatentOptions["interval"],
): Note[] {
  if (!Number.isFinite(logit)) {
    const wald = lower === null || upper === null ? ", and no Wald limits (ask for profile limits)" : "";
    const without =
      interval === "bootstrap"
        ? ", and nobody is drawn who would speak against it: limits too narrow (ask for profile limits)"
        : wald;
    return [note("at_border", path, `the likeliest value is at the border: no standard error${without}`)];
  }
  return variance === null ? [note("no_information", path, NO_VARIANCE)] : [];
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
