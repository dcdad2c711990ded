import { randomBinomial } from "d3-random";
import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/input-error.ts";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { proportionInterval } from "../../../src/methods/proportion/proportion-interval.ts";
import { referenceApparent } from "../../../src/methods/reference/apparent.ts";
import type { apparentAgainst } from "../../../src/methods/reference/apparent-accuracy.ts";
import { referenceComposite } from "../../../src/methods/reference/composite.ts";
import { referenceCorrected } from "../../../src/methods/reference/corrected.ts";
import { referenceDiscrepant } from "../../../src/methods/reference/discrepant.ts";
import { sensitivityLimits, specificityLimits } from "../../../src/methods/reference/known-errors-limits.ts";
import { referenceTipping } from "../../../src/methods/reference/tipping.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

const value = (share: number) => ({ kind: "value" as const, value: share });
const counted = (right: number, total: number) => ({ kind: "counts" as const, right, total });
const NONE = { diseased: 0, nondiseased: 0 };
const NO_GRID = { sensitivities: [], specificities: [], covariances: [] };
const INDEPENDENT = { kind: "independent" as const };
const TABLE = { bothReactive: 188, kitOnly: 14, referenceOnly: 9, neither: 789 };
const few = { draws: 500 };

interface Truth {
  readonly prevalence: number;
  readonly kit: { sensitivity: number; specificity: number };
  readonly reference: { sensitivity: number; specificity: number };
  readonly covariance: { diseased: number; nondiseased: number };
}

const TRUTHS: readonly Truth[] = [
  {
    prevalence: 0.2,
    kit: { sensitivity: 0.93, specificity: 0.97 },
    reference: { sensitivity: 0.9, specificity: 0.98 },
    covariance: NONE,
  },
  {
    prevalence: 0.3,
    kit: { sensitivity: 0.9, specificity: 0.95 },
    reference: { sensitivity: 0.95, specificity: 0.97 },
    covariance: { diseased: 0.02, nondiseased: 0.005 },
  },
  {
    prevalence: 0.15,
    kit: { sensitivity: 0.97, specificity: 0.99 },
    reference: { sensitivity: 0.95, specificity: 0.995 },
    covariance: NONE,
  },
];

function expectedTable({ prevalence, kit, reference, covariance }: Truth) {
  return compute(referenceApparent, {
    kit,
    reference,
    dependence: { kind: "covariance", ...covariance },
    prevalences: [prevalence],
  }).values.at[0] as ReturnType<typeof apparentAgainst>;
}

describe("reference.corrected", () => {
  it.each(TRUTHS)("gives back what reference.apparent was told (%#)", (truth) => {
    const cells = expectedTable(truth);
    const found = compute(
      referenceCorrected,
      {
        counts: {
          bothReactive: 500 * cells.bothReactive,
          kitOnly: 500 * cells.kitOnly,
          referenceOnly: 500 * cells.referenceOnly,
          neither: 500 * cells.neither,
        },
        reference: {
          sensitivity: value(truth.reference.sensitivity),
          specificity: value(truth.reference.specificity),
        },
        covariance: truth.covariance,
      },
      few,
    );
    const { corrected, prevalence } = found.values;
    expectClose(corrected.sensitivity.value, truth.kit.sensitivity, { relative: 1e-12 });
    expectClose(corrected.specificity.value, truth.kit.specificity, { relative: 1e-12 });
    expectClose(prevalence.value, truth.prevalence, { relative: 1e-12 });
    expect(faultsOf(found)).toEqual([]);
  });

  it("with a perfect reference is the plain proportion with its likelihood ratio interval", () => {
    for (const counts of [TABLE, { bothReactive: 50, kitOnly: 0, referenceOnly: 0, neither: 7 }]) {
      const { values } = compute(
        referenceCorrected,
        { counts, reference: { sensitivity: value(1), specificity: value(1) }, covariance: NONE },
        few,
      );
      const settings = { method: "likelihood_ratio", level: 0.95 } as const;
      const { bothReactive, kitOnly, referenceOnly, neither } = counts;
      const plain = proportionInterval(bothReactive, bothReactive + referenceOnly, settings);
      expectClose(values.corrected.sensitivity.lower, plain.lower as number, { relative: 1e-10 });
      expectClose(values.corrected.sensitivity.upper, plain.upper as number, { relative: 1e-10 });
      const other = proportionInterval(neither, neither + kitOnly, settings);
      expectClose(values.corrected.specificity.lower, other.lower as number, { relative: 1e-10 });
      expectClose(values.corrected.specificity.upper, other.upper as number, { relative: 1e-10 });
    }
  });

  it("exchanging positive and negative exchanges sensitivity and specificity", () => {
    const one = compute(
      referenceCorrected,
      {
        counts: TABLE,
        reference: { sensitivity: value(0.97), specificity: value(0.995) },
        covariance: { diseased: 0.01, nondiseased: 0.001 },
      },
      few,
    ).values;
    const other = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 789, kitOnly: 9, referenceOnly: 14, neither: 188 },
        reference: { sensitivity: value(0.995), specificity: value(0.97) },
        covariance: { diseased: 0.001, nondiseased: 0.01 },
      },
      few,
    ).values;
    expectClose(other.formula.specificity, one.formula.sensitivity as number, { relative: 1e-12 });
    expectClose(other.likelihood.specificity.lower, one.likelihood.sensitivity.lower as number, {
      relative: 1e-9,
    });
    expectClose(other.delta.sensitivityError, one.delta.specificityError as number, { relative: 1e-12 });
  });

  it("says null, why, and what would fit where the formula leaves 0..1", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 190, kitOnly: 10, referenceOnly: 3, neither: 797 },
        reference: { sensitivity: value(0.99), specificity: value(0.995) },
        covariance: NONE,
      },
      few,
    );
    expect(found.values.formula.sensitivity).toBeGreaterThan(1);
    expect(found.values.corrected.sensitivity).toMatchObject({ value: null, upper: 1 });
    expect(found.values.corrected.sensitivity.lower).toBeGreaterThan(0.9);
    expect(found.notes.map(({ code }) => code)).toContain("above_one");
    expect(found.values.admissible.referenceSpecificity).toBeCloseTo(797 / 800, 12);
    expect(faultsOf(found)).toEqual([]);
  });

  it("says null of everything where nothing within 0..1 fits the table", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 190, kitOnly: 10, referenceOnly: 3, neither: 797 },
        reference: { sensitivity: value(0.99), specificity: value(0.98) },
        covariance: NONE,
      },
      few,
    );
    expect(found.values.corrected.sensitivity).toEqual({ value: null, lower: null, upper: null });
    expect(found.notes.find(({ code }) => code === "above_one")?.message).toMatch(/hardly explains/);
    expect(faultsOf(found)).toEqual([]);
  });

  it("takes a table of less than one person, without score limits", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: { bothReactive: 0.188, kitOnly: 0.014, referenceOnly: 0.009, neither: 0.789 },
        reference: { sensitivity: value(1), specificity: value(1) },
        covariance: NONE,
      },
      few,
    );
    expectClose(found.values.corrected.sensitivity.value, 188 / 197, { relative: 1e-12 });
    expect(faultsOf(found)).toEqual([]);
  });

  it("the worst admissible reference is where a corrected number of people becomes 0", () => {
    const { admissible } = compute(
      referenceCorrected,
      { counts: TABLE, reference: { sensitivity: value(1), specificity: value(1) }, covariance: NONE },
      few,
    ).values;
    const at = (sensitivity: number, specificity: number) =>
      compute(
        referenceCorrected,
        {
          counts: TABLE,
          reference: { sensitivity: value(sensitivity), specificity: value(specificity) },
          covariance: NONE,
        },
        few,
      ).values.formula;
    const [sensitivity, specificity] = [
      admissible.referenceSensitivity as number,
      admissible.referenceSpecificity as number,
    ];
    expectClose(at(1, specificity).sensitivity, 1, { absolute: 1e-12 });
    expectClose(at(sensitivity, 1).specificity, 1, { absolute: 1e-12 });
  });

  it.each([
    ["a reference that says nothing", value(0.5), value(0.5), "uninformative_reference"],
    ["false positives alone", value(0.9), value(0.7), "incompatible"],
  ])("%s: null with a note", (_, sensitivity, specificity, code) => {
    const found = compute(
      referenceCorrected,
      { counts: TABLE, reference: { sensitivity, specificity }, covariance: NONE },
      few,
    );
    expect(found.values.corrected.sensitivity.value).toBeNull();
    expect(found.notes.map((one) => one.code)).toContain(code);
    expect(faultsOf(found)).toEqual([]);
  });

  it("says of a covariance that can't be which could be", () => {
    const found = compute(
      referenceCorrected,
      {
        counts: TABLE,
        reference: { sensitivity: value(0.98), specificity: value(0.998) },
        covariance: { diseased: 0.2, nondiseased: 0 },
      },
      few,
    );
    expect(found.notes.find(({ code }) => code === "impossible_covariance")?.message).toMatch(/could be/);
    expect(faultsOf(found)).toEqual([]);
  });

  it("draws the same for the same seed, others for another; a wider reference widens", () => {
    const asked = (sensitivity: ReturnType<typeof counted>, seed: number) =>
      compute(
        referenceCorrected,
        {
          counts: TABLE,
          reference: { sensitivity, specificity: counted(398, 400) },
          covariance: NONE,
        },
        { draws: 5000, seed },
      ).values.simulated;
    expect(asked(counted(98, 100), 3)).toEqual(asked(counted(98, 100), 3));
    expect(asked(counted(98, 100), 3)).not.toEqual(asked(counted(98, 100), 4));
    const width = ({ specificity }: ReturnType<typeof asked>) =>
      (specificity.upper ?? 0) - (specificity.lower ?? 0);
    expect(width(asked(counted(18, 20), 3))).toBeGreaterThan(width(asked(counted(1800, 2000), 3)));
  });

  it("refuses a part larger than its whole, and a range that runs backwards", () => {
    const refused = (
      sensitivity: ReturnType<typeof counted> | { kind: "range"; low: number; high: number },
    ) =>
      compute(
        referenceCorrected,
        { counts: TABLE, reference: { sensitivity, specificity: value(1) }, covariance: NONE },
        few,
      );
    expect(() => refused(counted(5, 4))).toThrow(InputError);
    expect(() => refused({ kind: "range", low: 0.9, high: 0.8 })).toThrow(InputError);
  });
});

describe("coverage of corrected accuracies, by simulation", () => {
  function drawnTable(truth: Truth, people: number, stream: () => number) {
    const cells = expectedTable(truth);
    let [left, share] = [people, 1];
    return [cells.bothReactive, cells.kitOnly, cells.referenceOnly].map((cell) => {
      const taken = left === 0 ? 0 : randomBinomial.source(stream)(left, Math.min(1, cell / share))();
      left -= taken;
      share -= cell;
      return taken;
    });
  }

  // 3 standard errors of a coverage of .95 in 1,500 studies are .017. Measured: .946 to .960.
  it.each(TRUTHS)("likelihood limits cover in about 95 of 100 studies (%#)", (truth) => {
    const studies = 1500;
    const covered = { sensitivity: 0, specificity: 0 };
    const stream = randomStream(17);
    for (let study = 0; study < studies; study += 1) {
      const [bothReactive = 0, kitOnly = 0, referenceOnly = 0] = drawnTable(truth, 800, stream);
      const neither = 800 - bothReactive - kitOnly - referenceOnly;
      const counts = { bothReactive, kitOnly, referenceOnly, neither };
      const errors = { reference: truth.reference, covariance: truth.covariance };
      const inside = (limits: { lower: number; upper: number } | null, share: number) =>
        limits !== null && limits.lower <= share && share <= limits.upper;
      if (inside(sensitivityLimits(counts, errors, 0.95), truth.kit.sensitivity)) covered.sensitivity += 1;
      if (inside(specificityLimits(counts, errors, 0.95), truth.kit.specificity)) covered.specificity += 1;
    }
    expect(Math.abs(covered.sensitivity / studies - 0.95)).toBeLessThan(0.02);
    expect(Math.abs(covered.specificity / studies - 0.95)).toBeLessThan(0.02);
  });

  // 3 standard errors of a coverage of .95 in 400 studies are .033.
  it("simulated limits cover with a reference estimated from its own study", () => {
    const truth = TRUTHS[0] as Truth;
    const studies = 400;
    const covered = { sensitivity: 0, specificity: 0 };
    const stream = randomStream(23);
    for (let study = 0; study < studies; study += 1) {
      const [bothReactive = 0, kitOnly = 0, referenceOnly = 0] = drawnTable(truth, 800, stream);
      const { sensitivity, specificity } = compute(
        referenceCorrected,
        {
          counts: {
            bothReactive,
            kitOnly,
            referenceOnly,
            neither: 800 - bothReactive - kitOnly - referenceOnly,
          },
          reference: {
            sensitivity: counted(randomBinomial.source(stream)(150, truth.reference.sensitivity)(), 150),
            specificity: counted(randomBinomial.source(stream)(300, truth.reference.specificity)(), 300),
          },
          covariance: NONE,
        },
        { draws: 800, seed: study },
      ).values.corrected;
      const inside = ({ lower, upper }: typeof sensitivity, share: number) =>
        (lower ?? 2) <= share && share <= (upper ?? -1);
      if (inside(sensitivity, truth.kit.sensitivity)) covered.sensitivity += 1;
      if (inside(specificity, truth.kit.specificity)) covered.specificity += 1;
    }
    expect(covered.sensitivity / studies).toBeGreaterThan(0.917);
    expect(covered.specificity / studies).toBeGreaterThan(0.917);
  });
});

describe("reference.apparent", () => {
  it("is the truth against a reference that never errs", () => {
    const { at } = compute(referenceApparent, {
      kit: { sensitivity: 0.95, specificity: 0.99 },
      reference: { sensitivity: 1, specificity: 1 },
      dependence: INDEPENDENT,
      prevalences: [0.02, 0.5],
    }).values;
    for (const entry of at) {
      expectClose(entry.sensitivity, 0.95, { relative: 1e-12 });
      expectClose(entry.specificity, 0.99, { relative: 1e-12 });
      expectClose(entry.presentAmongPositive, 1, { relative: 1e-12 });
    }
  });

  it("says null with a note where the reference calls nobody positive", () => {
    const found = compute(referenceApparent, {
      kit: { sensitivity: 0.95, specificity: 0.99 },
      reference: { sensitivity: 0.9, specificity: 1 },
      dependence: INDEPENDENT,
      prevalences: [0],
    });
    expect(found.values.at[0]?.sensitivity).toBeNull();
    expect(faultsOf(found)).toEqual([]);
  });

  it("refuses a covariance beyond the bounds", () => {
    const dependence = { kind: "covariance" as const, diseased: 0.07, nondiseased: 0 };
    const kit = { sensitivity: 0.92, specificity: 0.96 };
    const reference = { sensitivity: 0.8, specificity: 0.99 };
    const ask = () => compute(referenceApparent, { kit, reference, dependence, prevalences: [0.1] });
    expect(ask).toThrow(/0\.063999/);
  });
});

describe("reference.composite", () => {
  it("says null with a note where both are never positive", () => {
    const found = compute(referenceComposite, {
      kit: { sensitivity: 0.9, specificity: 0.9 },
      first: { sensitivity: 0.5, specificity: 1 },
      second: { sensitivity: 0, specificity: 1 },
      dependence: INDEPENDENT,
      prevalence: 0.3,
    });
    expect(found.values.bothPositive.apparentSensitivity).toBeNull();
    expect(faultsOf(found)).toEqual([]);
  });

  it("two copies of one test that always agree are that test", () => {
    const test = { sensitivity: 0.8, specificity: 0.95 };
    const { anyPositive, firstAlone } = compute(referenceComposite, {
      kit: { sensitivity: 0.9, specificity: 0.9 },
      first: test,
      second: test,
      dependence: { kind: "phi", diseased: 1, nondiseased: 1 },
      prevalence: 0.3,
    }).values;
    expectClose(anyPositive.sensitivity, 0.8, { relative: 1e-12 });
    expectClose(anyPositive.apparentSpecificity, firstAlone.apparentSpecificity as number, {
      relative: 1e-12,
    });
  });
});

describe("reference.discrepant", () => {
  it("says in title, caution and notes that it is no analysis", () => {
    expect(referenceDiscrepant.title).toMatch(/never an analysis/);
    expect(referenceDiscrepant.caution).toMatch(/never report/);
    const found = compute(referenceDiscrepant, {
      kit: { sensitivity: 0.9, specificity: 0.97 },
      comparator: { sensitivity: 0.8, specificity: 0.99 },
      resolver: { sensitivity: 1, specificity: 1 },
      prevalence: 0,
    });
    expect(found.notes.map(({ code }) => code)).toContain("teaching_only");
    expect(faultsOf(found)).toEqual([]);
  });

  it("never takes from the kit with a resolver that never errs", () => {
    for (const prevalence of [0.01, 0.1, 0.5, 0.9]) {
      for (const sensitivity of [0.6, 0.8, 0.95]) {
        for (const specificity of [0.9, 0.99]) {
          const { gain } = compute(referenceDiscrepant, {
            kit: { sensitivity, specificity },
            comparator: { sensitivity: 0.85, specificity: 0.98 },
            resolver: { sensitivity: 1, specificity: 1 },
            prevalence,
          }).values;
          expect(gain.sensitivity).toBeGreaterThan(-1e-12);
          expect(gain.specificity).toBeGreaterThan(-1e-12);
        }
      }
    }
  });
});

describe("reference.tipping", () => {
  const asked = (measure: "sensitivity" | "specificity", threshold: number, grid: typeof NO_GRID) => ({
    counts: TABLE,
    criterion: { measure, threshold, direction: "at_least" as const },
    reference: { sensitivity: 0.98, specificity: 0.998 },
    covariance: NONE,
    grid,
  });
  const steps = (from: number, to: number) =>
    Array.from({ length: 41 }, (_, at) => from + ((to - from) * at) / 40);

  it("borders stand exactly where the verdict of a grid changes", () => {
    const specificities = steps(0.99, 1);
    const grid = { ...NO_GRID, sensitivities: [0.98], specificities } as unknown as typeof NO_GRID;
    const { cells, borders } = compute(referenceTipping, asked("sensitivity", 0.92, grid)).values;
    const border = borders.referenceSpecificity.above.at as number;
    expect(border).toBeGreaterThan(0.998);
    for (const { referenceSpecificity, verdict } of cells) {
      expect(verdict).toBe(referenceSpecificity < border ? "met" : "undecided");
    }
  });

  it("the limit stands at the threshold on the border", () => {
    const { borders } = compute(referenceTipping, asked("sensitivity", 0.92, NO_GRID)).values;
    const specificity = borders.referenceSpecificity.above.at as number;
    const errors = { reference: { sensitivity: 0.98, specificity }, covariance: NONE };
    expectClose(sensitivityLimits(TABLE, errors, 0.95)?.lower, 0.92, { relative: 1e-10 });
  });

  it("independent errors: the reference's sensitivity alone doesn't move the kit's", () => {
    const sensitivities = steps(0.9, 1);
    const grid = { ...NO_GRID, sensitivities, specificities: [0.998] } as unknown as typeof NO_GRID;
    const { cells, believed } = compute(referenceTipping, asked("sensitivity", 0.92, grid)).values;
    for (const cell of cells) {
      expectClose(cell.value, believed.value as number, { relative: 1e-12 });
      expectClose(cell.lower, believed.lower as number, { relative: 1e-9 });
    }
  });

  it("judges by the estimate alone, one-sided, and the mirror image of a criterion", () => {
    const point = compute(referenceTipping, asked("specificity", 0.98, NO_GRID), { rule: "point" }).values;
    expect(point.believed.verdict).toBe((point.believed.value ?? 0) >= 0.98 ? "met" : "not_met");
    const one = compute(referenceTipping, asked("sensitivity", 0.92, NO_GRID), { sides: "one" }).values;
    const two = compute(referenceTipping, asked("sensitivity", 0.92, NO_GRID), { level: 0.9 }).values;
    expect(one.believed).toEqual(two.believed);
    const base = asked("sensitivity", 0.99, NO_GRID);
    const most = { ...base, criterion: { ...base.criterion, direction: "at_most" as const } };
    expect(compute(referenceTipping, most).values.believed.verdict).toBe("met");
  });

  it("refuses a grid that is too large and a one-sided level of a half", () => {
    const many = Array.from({ length: 101 }, (_, at) => at / 100);
    const grid = {
      sensitivities: many,
      specificities: many,
      covariances: [NONE, NONE, NONE],
    } as unknown as typeof NO_GRID;
    expect(() => compute(referenceTipping, asked("sensitivity", 0.9, grid))).toThrow(/20,000/);
    const half = { sides: "one" as const, level: 0.5 };
    expect(() => compute(referenceTipping, asked("sensitivity", 0.9, NO_GRID), half)).toThrow(InputError);
  });
});
