import type { LatentClass } from "./latent-class-fields.ts";
import { named } from "./named.ts";
import type { ReferenceErrors } from "./reference-fields.ts";
import type { Study } from "./study.ts";
import type { Fault } from "./yaml-file.ts";

type Path = readonly (string | number)[];
type Composite = NonNullable<ReferenceErrors["composite"]>;

/** Names in what a study file says of its reference, and figures that can't be true together. */
export function checkReference(study: Study, fault: Fault): void {
  study.analytes.forEach(({ reference }, index) => {
    const composite = reference.errors?.composite;
    if (composite === undefined) return;
    checkComposite(composite, ["analytes", index, "reference", "errors", "composite", "covariance"], fault);
  });
  const strata = study.strata.map((stratum) => stratum.id);
  const deciding = study.verification?.strata ?? [];
  deciding.forEach((name, index) => {
    const path = ["verification", "strata", index];
    named(path, name, strata, "a stratum of this file", fault);
    if (deciding.indexOf(name) < index) fault(path, "each stratum once", name);
  });
  study.latent_class.forEach((model, index) => {
    checkModel(study, model, ["latent_class", index], fault);
  });
}

/** Two tests of the same people can't err together more than each errs. */
function checkComposite({ tests, covariance }: Composite, path: Path, fault: Fault): void {
  for (const [state, measure] of [
    ["diseased", "sensitivity"],
    ["nondiseased", "specificity"],
  ] as const) {
    const [one = 0, other = 0] = tests.map((test) => test[measure]);
    const lowest = Math.max(0, one + other - 1) - one * other;
    const highest = Math.min(one, other) - one * other;
    const stated = covariance[state];
    if (stated >= lowest - ROUNDING && stated <= highest + ROUNDING) continue;
    const expected = `a covariance from ${rounded(lowest)} to ${rounded(highest)}, as these two tests allow`;
    fault([...path, state], expected, stated);
  }
}

const ROUNDING = 1e-12;

function rounded(value: number): number {
  return Number(value.toFixed(6));
}

function checkModel(study: Study, model: LatentClass, path: Path, fault: Fault): void {
  const analytes = study.analytes.map((analyte) => analyte.id);
  named([...path, "analyte"], model.analyte, analytes, "an analyte of this file", fault);
  if (model.populations !== undefined) {
    const strata = study.strata.map((stratum) => stratum.id);
    named([...path, "populations"], model.populations, strata, "a stratum of this file", fault);
  }
  checkTests(study, model, path, fault);
  checkPairs(model, [...path, "dependence", "pairs"], fault);
  checkPriors(model, [...path, "priors"], fault);
}

const PREVALENCE = "prevalence";

function checkTests(study: Study, { tests }: LatentClass, path: Path, fault: Fault): void {
  const specimens = study.specimens.map((specimen) => specimen.type);
  const ids = tests.map((test) => test.id);
  tests.forEach(({ id, specimen, reference }, index) => {
    const place = [...path, "tests", index];
    if (ids.indexOf(id) < index) fault([...place, "id"], "each name once", id);
    if (id === PREVALENCE) fault([...place, "id"], "another name: prevalence stands for its prior", id);
    if (specimen !== undefined) {
      named([...place, "specimen"], specimen, specimens, "a specimen type of this file", fault);
    }
    if (reference && tests.findIndex((test) => test.reference) < index) {
      fault([...place, "reference"], "one test at most that is the reference", true);
    }
  });
  if (study.records.shape !== "counts" || tests.filter((test) => !test.reference).length < 2) return;
  const expected = "one kit and the reference: counts don't tell which people had two kits' results";
  fault([...path, "tests"], expected, `${tests.length} tests`);
}

/** A pair names two tests of the model, and a test stands in one pair at most. */
function checkPairs({ tests, dependence }: LatentClass, path: Path, fault: Fault): void {
  if (typeof dependence === "string") return;
  const ids = tests.map((test) => test.id);
  const used = new Set<string>();
  dependence.pairs.forEach((pair, index) => {
    pair.forEach((name, side) => {
      const place = [...path, index, side];
      named(place, name, ids, "a test of this model", fault);
      if (used.has(name)) fault(place, "a test that stands in no other place of a pair", name);
      used.add(name);
    });
  });
}

/** With priors, every test has one. */
function checkPriors({ tests, priors }: LatentClass, path: Path, fault: Fault): void {
  if (priors === undefined) return;
  const ids = tests.map((test) => test.id);
  for (const name of Object.keys(priors)) {
    if (name !== PREVALENCE)
      named([...path, name], name, [...ids, PREVALENCE], "a test of this model", fault);
  }
  for (const id of ids) {
    if (!Object.hasOwn(priors, id)) fault(path, `priors of the test ${id}`, undefined);
  }
}
