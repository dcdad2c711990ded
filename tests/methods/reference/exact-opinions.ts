import { readFileSync } from "node:fs";

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-reference-exact.R`. */
export interface ExactOpinions {
  readonly elicited: readonly {
    readonly kind: "mean" | "median" | "mode";
    readonly value: number;
    readonly at: number;
    readonly chance: number;
    readonly alpha: number;
    readonly beta: number;
    readonly median: number;
    readonly lower: number;
  }[];
  readonly exact: readonly {
    readonly name: string;
    /** Reactive and non-reactive, or: both, first only, second only, neither. */
    readonly counts: readonly number[];
    /** Of the prevalence, then of sensitivity and specificity of every test. */
    readonly priors: readonly (readonly [number, number])[];
    readonly logEvidence: number;
    /** Mean, standard deviation, median, limits of every unknown, in the order of the priors. */
    readonly shares: readonly (readonly number[])[];
    /** Mean, median, limits of the predictive values of one test, reactive and not. */
    readonly predictive: readonly (readonly number[])[];
  }[];
}

const file = new URL("../../reference/second-opinion-reference-exact.json", import.meta.url);
export const exactOpinions = JSON.parse(readFileSync(file, "utf8")) as ExactOpinions;
