import * as v from "valibot";
import { choice, count, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";

/** One site of a study, or one published study. */
export const study = {
  label: text("name of the site or study"),
  truePositives: count("people: kit reactive, condition present"),
  falsePositives: count("people: kit reactive, condition absent"),
  falseNegatives: count("people: kit non-reactive, condition present"),
  trueNegatives: count("people: kit non-reactive, condition absent"),
};

export interface Study {
  readonly label: string;
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
  readonly trueNegatives: number;
}

/** The list of studies, to be spread into the input of a method. */
export const studiesField = {
  studies: v.pipe(
    v.array(v.strictObject(study)),
    v.minLength(1, "expected one study or more"),
    v.maxLength(500, "expected at most 500 studies"),
    v.description("one fourfold table per site or study, each of other people"),
  ),
};

/** What tells the studies apart, or `null`; to be spread into the input of a method. */
export const covariateField = {
  covariate: v.nullable(
    v.strictObject({
      name: text("what tells the studies apart: type of site, specimen"),
      levels: v.pipe(
        v.array(text("level of this study")),
        v.description("one entry per study, same order as `studies`"),
      ),
    }),
  ),
};

export interface Covariate {
  readonly name: string;
  readonly levels: readonly string[];
}

export const CORRECTIONS = ["none", "zero_cells", "all"] as const;
export type Correction = (typeof CORRECTIONS)[number];

/** Where 0.5 is added to the four counts of a study before logarithms are taken. */
export function correction() {
  return choice(
    CORRECTIONS,
    "0.5 added to all four counts of no study, of studies with a count of 0, or of all studies",
  );
}

/** The study with 0.5 added to its four counts where the correction says so. */
export function corrected<Counts extends Omit<Study, "label">>(counts: Counts, how: Correction): Counts {
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  const anyZero = [truePositives, falsePositives, falseNegatives, trueNegatives].includes(0);
  if (how === "none" || (how === "zero_cells" && !anyZero)) return counts;
  return {
    ...counts,
    truePositives: truePositives + 0.5,
    falsePositives: falsePositives + 0.5,
    falseNegatives: falseNegatives + 0.5,
    trueNegatives: trueNegatives + 0.5,
  };
}

/** @throws InputError where two studies bear the same label: the same people may have been counted twice */
export function requireStudies(studies: readonly { readonly label: string }[]): void {
  const seen = new Set<string>();
  studies.forEach(({ label }, place) => {
    if (seen.has(label)) {
      throw new InputError(["input", "studies", place, "label"], "a label that no other study bears", label);
    }
    seen.add(label);
  });
}

/** @throws InputError where a covariate does not give one level per study */
export function requireLevels(studies: readonly unknown[], covariate: Covariate | null): void {
  if (covariate === null || covariate.levels.length === studies.length) return;
  const expected = `one level per study, ${studies.length}`;
  throw new InputError(["input", "covariate", "levels"], expected, covariate.levels.length);
}
