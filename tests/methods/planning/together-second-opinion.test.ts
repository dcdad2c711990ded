import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { jointPower } from "../../../src/methods/planning/joint-power.ts";
import { jointSize } from "../../../src/methods/planning/joint-size.ts";
import { whatIf } from "../../../src/methods/planning/what-if.ts";
import { expectClose } from "../../tolerance.ts";

type Side = "at_least" | "at_most";
type Method = "clopper_pearson" | "wilson";
interface Criteria {
  readonly expected: readonly number[];
  readonly threshold: readonly number[];
  readonly direction: readonly Side[];
  readonly method: Method;
}
interface Power extends Criteria {
  readonly total: readonly number[];
  readonly shared: number;
  readonly correlation: number;
  readonly each: readonly number[];
  readonly stated: number;
  readonly independent: number;
  readonly lowest: number;
  readonly highest: number;
}
/** Total, fewest in favour, power there and one before. */
type Planned = readonly [number, number, number, number];
interface Sizes extends Criteria {
  readonly power: number;
  readonly horizon: number;
  readonly eachPower: readonly [number, number];
  readonly independent: readonly Planned[];
  readonly guaranteed: readonly Planned[];
  readonly together: readonly [number, number];
}
interface Table {
  readonly expected: number[];
  readonly thresholds: number[];
  readonly prevalences: number[];
  readonly direction: Side;
  readonly of: "positives" | "negatives";
  readonly assurance: number;
  readonly usable: number;
  readonly horizon: number;
  readonly method: Method;
  /** The size; then for each prevalence, those to enrol as expected; then for each, with the assurance. */
  readonly cells: readonly (readonly number[])[];
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-planning-together.R`. */
const file = new URL("../../reference/second-opinion-planning-together.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as {
  powers: readonly Power[];
  sizes: readonly Sizes[];
  tables: readonly Table[];
};
const criteriaOf = ({ expected, threshold, direction }: Criteria) =>
  expected.map((share, at) => ({
    label: `${at + 1}`,
    expected: share,
    threshold: threshold[at] as number,
    direction: direction[at] as Side,
  }));

describe("power for two criteria at once", () => {
  it.each(opinion.powers.map((row) => [`${row.expected} of ${row.total}, ${row.method}`, row] as const))(
    "%s",
    (_, row) => {
      const { shared, correlation, method } = row;
      const criteria = criteriaOf(row).map((one, at) => ({ ...one, total: row.total[at] as number }));
      const { values } = compute(jointPower, { criteria, shared, correlation }, { method });
      // R adds up to a million masses that come from logarithms of factorials: about 1e-12 was measured.
      const close = { relative: 1e-10 };
      for (const [at, { power }] of values.each.entries()) expectClose(power, row.each[at] as number, close);
      for (const kind of ["stated", "independent", "lowest", "highest"] as const) {
        expectClose(values.together[kind], row[kind], close, kind);
      }
    },
  );
});

describe("people needed to meet several criteria", () => {
  it.each(opinion.sizes.map((row) => [`${row.expected}, ${row.method}`, row] as const))("%s", (_, row) => {
    const { power, horizon, method } = row;
    const { values } = compute(jointSize, { criteria: criteriaOf(row) }, { power, horizon, method });
    for (const [at, kind] of (["independent", "guaranteed"] as const).entries()) {
      expectClose(values[kind].eachPower, row.eachPower[at] as number, { relative: 1e-15 });
      expectClose(values[kind].together, row.together[at] as number, { relative: 1e-12 }, kind);
      for (const [place, { size }] of values[kind].sizes.entries()) {
        const [total, needed, reached, before] = row[kind][place] as Planned;
        expect([size.total, size.needed]).toEqual([total, needed]);
        expectClose(size.power, reached, { relative: 1e-12 });
        expectClose(size.powerBefore, before, { relative: 1e-12 });
      }
    }
  });
});

describe("what if", () => {
  it.each(opinion.tables.map((row) => [row.of, row] as const))("%s", (_, row) => {
    const { cells, assurance, usable, horizon, method, ...input } = row;
    const found = compute(whatIf, input, { assurance, usable, horizon, method }).values.cells;
    expect(
      found.map(({ stays, enrol }) => [
        stays,
        ...enrol.map(({ expected }) => expected),
        ...enrol.map(({ assured }) => assured),
      ]),
    ).toEqual(cells);
  });
});
