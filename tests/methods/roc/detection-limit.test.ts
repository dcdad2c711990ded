import { readFileSync } from "node:fs";
import { randomBinomial } from "d3-random";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { randomStream } from "../../../src/core/random.ts";
import { rocDetectionLimit } from "../../../src/methods/roc/detection-limit.ts";
import { normalCdf } from "../../../src/numeric/normal.ts";
import { expectClose } from "../../tolerance.ts";
import { faultsOf } from "../plain-values.ts";

type Numbers = readonly number[];
interface Panel {
  readonly concentration: Numbers;
  readonly reactive: Numbers;
  readonly tested: Numbers;
  readonly link: "probit" | "logit";
  readonly how: "ignore" | "widen";
  readonly line: Numbers;
  readonly fit: Numbers;
  readonly probabilities: Numbers;
  readonly limits: readonly (number | null)[];
  readonly top: Numbers;
}

/** R 4.2.2; see tests/reference/README.md. */
const panels = (
  JSON.parse(
    readFileSync(
      new URL("../../reference/second-opinion-detection-calibration.json", import.meta.url),
      "utf8",
    ),
  ) as { detection: readonly Panel[] }
).detection;

type Row = readonly [number, number, number];
const levelsOf = (rows: readonly Row[]) =>
  rows.map(([concentration, reactive, tested]) => ({ concentration, reactive, tested }));
const asked = (rows: readonly Row[], options: object = {}) =>
  compute(rocDetectionLimit, { levels: levelsOf(rows), blank: null, lackOfFit: "ignore" }, options);
const codes = (notes: readonly { code: string; path: string }[]) =>
  notes.map(({ code, path }) => `${code} ${path}`);

const SIX: readonly Row[] = [
  [10, 1, 20],
  [20, 3, 20],
  [40, 9, 20],
  [80, 16, 20],
  [160, 20, 20],
  [320, 20, 20],
];

describe("the limit of detection", () => {
  it.each(panels)("agrees with glm() and uniroot(): $link, $how, $reactive", (panel) => {
    const levels = panel.concentration.map((concentration, at) => ({
      concentration,
      reactive: panel.reactive[at] as number,
      tested: panel.tested[at] as number,
    }));
    const found = compute(
      rocDetectionLimit,
      { levels, blank: { reactive: 0, tested: 20 }, lackOfFit: panel.how },
      { probabilities: [...panel.probabilities] },
    );
    expect(faultsOf(found)).toEqual([]);
    const told = found.values[panel.link];
    const line = [
      told.intercept.value,
      told.slope.value,
      told.interceptError,
      told.slopeError,
      told.covariance,
    ];
    line.forEach((value, at) => {
      expectClose(value, panel.line[at] as number, { relative: 1e-9 }, `line ${at}`);
    });
    const { deviance, pearson, degreesOfFreedom, p, factor, g } = told.fit;
    [deviance, pearson, degreesOfFreedom, p, factor, g].forEach((value, at) => {
      expectClose(value, panel.fit[at] as number, { relative: 1e-8, absolute: 1e-12 }, `fit ${at}`);
    });
    told.concentrations.forEach(({ log10, concentration }, at) => {
      for (const [k, part] of (["value", "lower", "upper"] as const).entries()) {
        const expected = panel.limits[3 * at + k] ?? null;
        if (expected === null) {
          expect(log10[part]).toBeNull();
          expect(concentration[part]).toBeNull();
          continue;
        }
        expectClose(log10[part], expected, { relative: 1e-8, absolute: 1e-9 }, `${at} ${part}`);
        expectClose(concentration[part], 10 ** expected, { relative: 1e-7 }, `${at} ${part}, concentration`);
      }
    });
    const top = told.curve.at(-1)?.probability;
    [top?.value, top?.lower, top?.upper].forEach((value, at) => {
      expectClose(value, panel.top[at] as number, { relative: 1e-8 }, `top ${at}`);
    });
  });

  it("moves with the unit, and turns round with what is counted", () => {
    const one = asked(SIX).values.probit;
    const thousandfold = asked(SIX.map(([c, r, n]) => [c * 1000, r, n] as const)).values.probit;
    expectClose(thousandfold.slope.value, one.slope.value ?? 0, { relative: 1e-9 });
    one.concentrations.forEach(({ concentration }, at) => {
      const other = thousandfold.concentrations[at]?.concentration;
      expectClose(other?.value, 1000 * (concentration.value ?? 0), { relative: 1e-8 });
      expectClose(other?.upper, 1000 * (concentration.upper ?? 0), { relative: 1e-8 });
    });
    const turned = asked(SIX.map(([c, r, n]) => [1 / c, n - r, n] as const)).values.logit;
    const straight = asked(SIX).values.logit;
    // Probability 0.05 and 0.95 change places.
    expectClose(
      turned.concentrations[0]?.concentration.value,
      1 / (straight.concentrations[2]?.concentration.value ?? 0),
      {
        relative: 1e-8,
      },
    );
  });

  it("brackets the step where no line can be had", () => {
    const found = asked([
      [1, 0, 10],
      [2, 0, 10],
      [4, 6, 10],
      [8, 10, 10],
    ]);
    expect(faultsOf(found)).toEqual([]);
    expect(codes(found.notes)).toContain("separated probit");
    expect(found.values).toMatchObject({ noneUpTo: 2, allFrom: 8 });
    expect(found.values.observed.map(({ concentration }) => concentration)).toEqual([4, 4, 8]);
    expect(found.values.probit.slope.value).toBeNull();
  });

  it.each([
    [
      "all_alike",
      [
        [1, 5, 5],
        [2, 9, 9],
      ],
    ],
    [
      "one_value",
      [
        [3, 5, 9],
        [3, 2, 9],
      ],
    ],
    [
      "separated_downwards",
      [
        [1, 9, 9],
        [2, 0, 9],
      ],
    ],
    ["all_alike", [[1, 0, 0]]],
  ] as const)("says %s", (code, rows) => {
    const found = asked(rows);
    expect(faultsOf(found)).toEqual([]);
    expect(codes(found.notes)).toContain(`${code} logit`);
  });

  it("has no limits where the slope can't be told from 0, and no concentration where it falls", () => {
    const flat = asked([
      [1, 4, 10],
      [2, 5, 10],
      [4, 6, 10],
    ]);
    expect(faultsOf(flat)).toEqual([]);
    expect(codes(flat.notes)).toContain("slope_unclear probit.concentrations");
    expect(flat.values.probit.concentrations[1]?.concentration.value).not.toBeNull();
    const falling = asked([
      [1, 6, 10],
      [2, 5, 10],
      [4, 4, 10],
    ]);
    expect(faultsOf(falling)).toEqual([]);
    expect(codes(falling.notes)).toContain("falls probit.concentrations");
    expect(falling.values.logit.concentrations[1]?.concentration.value).toBeNull();
  });

  it("widens limits where asked, or where shown only", () => {
    const rows: readonly Row[] = [
      [1, 2, 20],
      [2, 9, 20],
      [4, 5, 20],
      [8, 18, 20],
      [16, 19, 20],
    ];
    const levels = levelsOf(rows);
    const ask = (lackOfFit: "widen" | "widen_when_shown", shownBelow: number) =>
      compute(rocDetectionLimit, { levels, blank: null, lackOfFit }, { shownBelow }).values.probit.fit;
    const { p, pearson } = ask("widen", 0.1);
    expectClose(ask("widen", 0.1).factor, (pearson ?? 0) / 3, { relative: 1e-12 });
    expect(ask("widen_when_shown", (p ?? 0) * 1.01).factor).toBeGreaterThan(1);
    expect(ask("widen_when_shown", (p ?? 0) * 0.99).factor).toBe(1);
  });

  it("speaks of blanks, of rows without devices, and of what lies beyond the panel", () => {
    const found = compute(
      rocDetectionLimit,
      {
        levels: levelsOf([...SIX, [5, 0, 0]]),
        blank: { reactive: 1, tested: 20 },
        lackOfFit: "ignore",
      },
      { probabilities: [0.0001, 0.5] },
    );
    expect(faultsOf(found)).toEqual([]);
    expect(codes(found.notes)).toEqual(
      expect.arrayContaining([
        "background blank",
        "no_observations rows.6",
        "beyond_tested probit.concentrations.0",
        "no_such_concentration noneUpTo",
      ]),
    );
    expect(found.values.blank).toMatchObject({ count: 1, total: 20 });
    expect(codes(asked(SIX).notes)).toContain("no_blanks blank");
  });

  it("covers the true concentration about as often as its limits say", () => {
    const [middle, slope, repeats] = [1.5, 3, 400];
    const truth = middle + 1.6448536269514722 / slope;
    const random = randomStream(20264, 2);
    const binomial = randomBinomial.source(random);
    let [held, had] = [0, 0];
    for (let repeat = 0; repeat < repeats; repeat += 1) {
      const rows = [0.9, 1.2, 1.5, 1.8, 2.1, 2.4].map(
        (x): Row => [10 ** x, binomial(24, normalCdf(slope * (x - middle)))(), 24],
      );
      const { lower, upper } = asked(rows, { probabilities: [0.95] }).values.probit.concentrations[0]
        ?.log10 ?? { lower: null, upper: null };
      if (lower === null || upper === null) continue;
      had += 1;
      if (lower <= truth && truth <= upper) held += 1;
    }
    expect(had).toBeGreaterThan(0.98 * repeats);
    // Three standard errors of 0.95 in 400 are 0.033.
    expect(held / had).toBeGreaterThan(0.915);
    expect(held / had).toBeLessThan(0.985);
  });

  it("is plain data, whatever the panel", () => {
    const row = fc
      .tuple(
        fc.constantFrom(0.001, 1, 2, 5, 40, 1e6),
        fc.integer({ min: 0, max: 9 }),
        fc.integer({ min: 0, max: 9 }),
      )
      .map(([concentration, reactive, rest]): Row => [concentration, reactive, reactive + rest]);
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 8 }),
        fc.constantFrom("ignore" as const, "widen" as const, "widen_when_shown" as const),
        (rows, lackOfFit) => {
          const found = compute(rocDetectionLimit, { levels: levelsOf(rows), blank: null, lackOfFit });
          expect(faultsOf(found)).toEqual([]);
          for (const { log10 } of found.values.probit.concentrations) {
            if (log10.lower === null) continue;
            expect(log10.lower).toBeLessThanOrEqual(log10.value ?? 0);
            expect(log10.upper).toBeGreaterThanOrEqual(log10.value ?? 0);
          }
        },
      ),
      { numRuns: 300, seed: 4 },
    );
  });

  it.each([
    [[[0, 1, 2]], "input.levels.0.concentration: expected a concentration above 0"],
    [[[1, 3, 2]], "input.levels.0.reactive: expected at most tested, 2, received 3"],
  ])("refuses %j", (rows, message) => {
    expect(() => asked(rows as unknown as readonly Row[])).toThrow(message);
  });
});
