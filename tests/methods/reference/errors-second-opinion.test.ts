import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { referenceApparent } from "../../../src/methods/reference/apparent.ts";
import { referenceComposite } from "../../../src/methods/reference/composite.ts";
import { referenceCorrected } from "../../../src/methods/reference/corrected.ts";
import { referenceDiscrepant } from "../../../src/methods/reference/discrepant.ts";
import { sensitivityError, specificityError } from "../../../src/methods/reference/known-errors-limits.ts";
import { referenceTipping } from "../../../src/methods/reference/tipping.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";
import { referenceCases } from "../worked/reference-case.ts";
import { referenceErrorsChecks } from "../worked/reference-errors.ts";

type Two = [number, number];
type Three = [number, number, number];
type Four = [number, number, number, number];
type Five = [number, number, number, number, number];
type Six = [number, number, number, number, number, number];
interface Opinions {
  corrected: {
    counts: Four;
    reference: Two;
    covariance: Two;
    variance: Two;
    correction: Three;
    sensitivity: Two;
    specificity: Two;
    errors: Two;
  }[];
  drawn: { counts: Four; sensitivity: Two; specificity: Two; se: Three; sp: Three; prevalence: Three }[];
  apparent: { kit: Two; reference: Two; covariance: Two; prevalence: number; cells: Four; apparent: Three }[];
  composite: {
    tests: Six;
    prevalence: number;
    covariance: Two;
    any: Five;
    both: Five;
    first: Five;
    second: Five;
  }[];
  discrepant: {
    tests: Six;
    prevalence: number;
    unresolved: Two;
    resolved: Two;
    everybody: Two;
    retested: number;
  }[];
  tipping: {
    counts: Four;
    reference: Two;
    threshold: number;
    at: number;
    border?: number;
    covariance?: number;
  }[];
}

/** Made by R 4.2.2 base and stats with `tests/reference/scripts/second-opinion-reference-errors.R`. */
const file = new URL("../../reference/second-opinion-reference-errors.json", import.meta.url);
const opinions = JSON.parse(readFileSync(file, "utf8")) as Opinions;

const cross = ([bothReactive, kitOnly, referenceOnly, neither]: Four) => ({
  bothReactive,
  kitOnly,
  referenceOnly,
  neither,
});
const accuracy = ([sensitivity, specificity]: Two) => ({ sensitivity, specificity });
const covariances = ([diseased, nondiseased]: Two) => ({ diseased, nondiseased });
const value = (share: number) => ({ kind: "value" as const, value: share });
const named = <Case extends object>(cases: readonly Case[]): [string, Case][] =>
  cases.map((one) => [JSON.stringify(one).slice(0, 70), one]);

describe("known errors, worked cases", () => {
  const cases = referenceCases().filter(({ id }) => Object.hasOwn(referenceErrorsChecks, id));

  it("are all there", () => {
    expect(cases.map(({ id }) => id)).toEqual(["I-06", "I-08", "I-10", "I-11"]);
  });

  it.each(cases.map((one) => [one.id, one] as const))("%s", (id, { inputs, expected, tolerance }) => {
    const actual = referenceErrorsChecks[id]?.(inputs) ?? {};
    for (const [key, wanted] of Object.entries(expected)) {
      expectClose(actual[key] as number, wanted as number, { relative: tolerance.rel }, key);
    }
  });
});

describe("corrected, against R", () => {
  it.each(named(opinions.corrected))("%s", (_, row) => {
    const [sensitivity, specificity] = row.reference;
    const asked = {
      counts: cross(row.counts),
      reference: { sensitivity: value(sensitivity), specificity: value(specificity) },
      covariance: covariances(row.covariance),
    };
    const found = compute(referenceCorrected, asked, { draws: 200 });
    const { formula, likelihood } = found.values;
    expectClose(formula.prevalence, row.correction[0], { relative: 1e-12 }, "prevalence");
    expectClose(formula.sensitivity, row.correction[1], { relative: 1e-12 }, "sensitivity");
    expectClose(formula.specificity, row.correction[2], { relative: 1e-12 }, "specificity");
    // R's optim stops within about 1e-9 of the likelihood's top.
    for (const name of ["sensitivity", "specificity"] as const) {
      expectClose(likelihood[name].lower, row[name][0], { absolute: 2e-7 }, `${name} lower`);
      expectClose(likelihood[name].upper, row[name][1], { absolute: 2e-7 }, `${name} upper`);
    }
    const errors = { reference: accuracy(row.reference), covariance: covariances(row.covariance) };
    const variance = accuracy(row.variance);
    // Central differences of a step of 1e-6.
    const close = { relative: 1e-7 };
    expectClose(
      sensitivityError(asked.counts, errors, variance),
      row.errors[0],
      close,
      "error of sensitivity",
    );
    expectClose(
      specificityError(asked.counts, errors, variance),
      row.errors[1],
      close,
      "error of specificity",
    );
    expect(faultsOf(found)).toEqual([]);
  });

  it.each(named(opinions.drawn))("draws: %s", (_, row) => {
    const counted = ([right, total]: Two) => ({ kind: "counts" as const, right, total });
    const { values } = compute(
      referenceCorrected,
      {
        counts: cross(row.counts),
        reference: { sensitivity: counted(row.sensitivity), specificity: counted(row.specificity) },
        covariance: { diseased: 0, nondiseased: 0 },
      },
      { draws: 200_000 },
    );
    expect(values.interval).toBe("simulated");
    const pairs = [
      [values.simulated.sensitivity, row.se],
      [values.simulated.specificity, row.sp],
      [values.simulated.prevalence, row.prevalence],
    ] as const;
    // Standard errors of the percentiles of 200,000 draws are at most 0.0004 here.
    for (const [estimated, [median, lower, upper]] of pairs) {
      expectClose(estimated.value, median, { absolute: 0.0015 }, "median");
      expectClose(estimated.lower, lower, { absolute: 0.0015 }, "lower");
      expectClose(estimated.upper, upper, { absolute: 0.0015 }, "upper");
    }
  });
});

describe("expected accuracies, every combination of results, against R", () => {
  const exact = { relative: 1e-12 };

  it.each(named(opinions.apparent))("apparent: %s", (_, row) => {
    const { at } = compute(referenceApparent, {
      kit: accuracy(row.kit),
      reference: accuracy(row.reference),
      dependence: { kind: "covariance", ...covariances(row.covariance) },
      prevalences: [row.prevalence],
    }).values;
    const names = ["bothReactive", "kitOnly", "referenceOnly", "neither"] as const;
    for (const [place, name] of names.entries()) {
      expectClose(at[0]?.[name], row.cells[place] as number, exact, name);
    }
    expectClose(at[0]?.sensitivity, row.apparent[0], exact, "sensitivity");
    expectClose(at[0]?.specificity, row.apparent[1], exact, "specificity");
    expectClose(at[0]?.referencePositive, row.apparent[2], exact, "reference positive");
  });

  it.each(named(opinions.composite))("composite: %s", (_, row) => {
    const [se, sp, firstSe, firstSp, secondSe, secondSp] = row.tests;
    const { values } = compute(referenceComposite, {
      kit: accuracy([se, sp]),
      first: accuracy([firstSe, firstSp]),
      second: accuracy([secondSe, secondSp]),
      dependence: { kind: "covariance", ...covariances(row.covariance) },
      prevalence: row.prevalence,
    });
    const pairs = [
      [values.anyPositive, row.any],
      [values.bothPositive, row.both],
      [values.firstAlone, row.first],
      [values.secondAlone, row.second],
    ] as const;
    for (const [found, wanted] of pairs) {
      expectClose(found.sensitivity, wanted[0], exact, "sensitivity");
      expectClose(found.specificity, wanted[1], exact, "specificity");
      expectClose(found.apparentSensitivity, wanted[2], exact, "apparent sensitivity");
      expectClose(found.apparentSpecificity, wanted[3], exact, "apparent specificity");
      expectClose(found.apparentPrevalence, wanted[4], exact, "apparent prevalence");
    }
  });

  it.each(named(opinions.discrepant))("discrepant: %s", (_, row) => {
    const [se, sp, otherSe, otherSp, judgeSe, judgeSp] = row.tests;
    const { values } = compute(referenceDiscrepant, {
      kit: accuracy([se, sp]),
      comparator: accuracy([otherSe, otherSp]),
      resolver: accuracy([judgeSe, judgeSp]),
      prevalence: row.prevalence,
    });
    for (const kind of ["unresolved", "resolved", "everybody"] as const) {
      expectClose(values[kind].sensitivity, row[kind][0], exact, `${kind} sensitivity`);
      expectClose(values[kind].specificity, row[kind][1], exact, `${kind} specificity`);
    }
    expectClose(values.retested, row.retested, exact, "retested");
  });
});

describe("tipping, against R", () => {
  it.each(named(opinions.tipping))("%s", (_, row) => {
    const found = compute(referenceTipping, {
      counts: cross(row.counts),
      criterion: { measure: "sensitivity", threshold: row.threshold, direction: "at_least" },
      reference: accuracy(row.reference),
      covariance: { diseased: 0, nondiseased: 0 },
      grid: { sensitivities: [], specificities: [], covariances: [] },
    });
    const { believed, borders } = found.values;
    expectClose(believed.lower, row.at, { absolute: 2e-7 }, "lower limit");
    if (row.border !== undefined) {
      expectClose(borders.referenceSpecificity.below.at, row.border, { absolute: 1e-7 }, "specificity");
    }
    if (row.covariance !== undefined) {
      expectClose(borders.covarianceDiseased.above.at, row.covariance, { absolute: 1e-7 }, "covariance");
    }
    expect(faultsOf(found)).toEqual([]);
  });
});
