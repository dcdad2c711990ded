import * as v from "valibot";
import { BayesianValues } from "../../methods/reference/bayesian-fields.ts";
import { LatentValues } from "../../methods/reference/latent-fields.ts";
import { Count, Notes, Proportion, Real } from "./parts.ts";

const Beta = v.strictObject({ alpha: v.number(), beta: v.number() });

/** Where the people of the model stand with one test: the parts add up to the people counted. */
const TestPeople = v.strictObject({
  reactive: Count,
  nonreactive: Count,
  /** Invalid results, and results outside the window where these are set aside: taken as not done. */
  invalid: Count,
  outsideWindow: Count,
  /** Reference without a status: taken as not done. */
  indeterminate: Count,
  notDone: Count,
});

/** A test of the model: a kit's result, or the reference status. */
const LatentTest = v.strictObject({
  id: v.string(),
  title: v.string(),
  reference: v.boolean(),
  /** `null` for the reference. */
  side: v.nullable(v.strictObject({ kit: v.string(), specimen: v.string(), reader: v.string() })),
  people: TestPeople,
  /** What the study file believes of it before the data; `null` without priors. */
  prior: v.nullable(v.strictObject({ sensitivity: Beta, specificity: Beta })),
});

/** One share under other priors: how far the answer hangs on what was believed. */
const OtherShare = v.strictObject({
  /** As in the values of the Bayesian model, e.g. `tests.0.sensitivity`. */
  parameter: v.string(),
  median: Real,
  lower: Real,
  upper: Real,
  /** Median less the median as stated, in posterior standard deviations as stated. */
  shift: Real,
});

/** A model in which no test, the reference included, is beyond doubt. */
export const LatentClassSchema = v.strictObject({
  id: v.string(),
  title: v.string(),
  analyte: v.string(),
  tests: v.array(LatentTest),
  /** The stratum whose groups are the populations; `null`: everybody together. */
  populations: v.nullable(v.strictObject({ stratum: v.string(), title: v.string() })),
  /** `asked` = `counted` + the sum of `setAside`. */
  people: v.strictObject({
    asked: Count,
    counted: Count,
    setAside: v.array(v.strictObject({ reason: v.string(), people: Count })),
  }),
  dependence: v.picklist(["independent", "pairs", "random_effect"]),
  /** Ids of tests whose errors may go together. */
  pairs: v.array(v.strictObject({ first: v.string(), second: v.string() })),
  /** Where the priors come from; `null` without priors. */
  source: v.nullable(v.string()),
  enteredOn: v.nullable(v.string()),
  prevalencePrior: v.nullable(Beta),
  /** Each kit against the reference as if that never erred, where the reference is one of the tests. */
  naive: v.array(v.strictObject({ test: v.string(), sensitivity: Proportion, specificity: Proportion })),
  /** By maximum likelihood; tests and populations in the order above. `null`: nobody to count. */
  likelihood: v.nullable(LatentValues),
  /** With the priors of the study file; `null` without. */
  bayesian: v.nullable(BayesianValues),
  /** The same under other priors; `null` without. */
  priorSensitivity: v.nullable(
    v.strictObject({
      alternatives: v.array(
        v.strictObject({
          /** `as_stated`, `half_weight`, …; `flat_alone.` with the share whose prior alone was made flat. */
          name: v.string(),
          /** The largest of the shifts in size, with its sign. */
          largestShift: Real,
          shares: v.array(OtherShare),
        }),
      ),
    }),
  ),
  /** Paths begin with `likelihood.`, `bayesian.` or `priorSensitivity.` where a note is about these. */
  notes: Notes,
});
