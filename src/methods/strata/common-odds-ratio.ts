import * as v from "valibot";
import type { Estimate } from "../../core/estimate.ts";
import { count, estimate, level, quantity, text } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { chiSquareCdf } from "../../numeric/chi-square.ts";
import { normalQuantile } from "../../numeric/normal.ts";

const Input = v.strictObject({
  strata: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the stratum"),
        firstWith: count("first group, with the feature"),
        firstWithout: count("first group, without it"),
        secondWith: count("second group, with the feature"),
        secondWithout: count("second group, without it"),
      }),
    ),
    v.minLength(1, "expected at least one stratum"),
    v.description("one fourfold table per stratum"),
  ),
});
const Options = v.strictObject({ level: level() });
const Values = v.strictObject({
  commonOddsRatio: estimate("ratio", "odds ratio, first group over second, within strata"),
  crudeOddsRatio: quantity("ratio", "odds ratio of all strata thrown together"),
  chiSquare: quantity("statistic", "Mantel-Haenszel chi-square, no continuity correction"),
  pValue: quantity("probability", "its p-value, one degree of freedom"),
  strata: v.pipe(
    v.array(
      v.strictObject({ label: text("stratum"), oddsRatio: quantity("ratio", "odds ratio in this stratum") }),
    ),
    v.description("one entry per stratum, in the order given"),
  ),
});
export type CommonOddsRatioInput = v.InferOutput<typeof Input>;
export type CommonOddsRatioOptions = v.InferOutput<typeof Options>;
export type CommonOddsRatioValues = v.InferOutput<typeof Values>;
type Table = CommonOddsRatioInput["strata"][number];

/**
 * The odds ratio of two groups that strata have in common (Mantel and Haenszel).
 *
 * @returns ratio with limits on the log scale; `null` with a note: `unbounded` where no stratum
 *   contradicts an infinite ratio, `not_estimable` where no stratum compares the groups
 * Sources: mantel1959, robins1986 for the variance
 */
export function commonOddsRatioOf(
  { strata }: CommonOddsRatioInput,
  options: CommonOddsRatioOptions,
): Finding<CommonOddsRatioValues> {
  const notes: Note[] = [];
  const tests = testOf(strata);
  if (tests.chiSquare === null) {
    const message = "no stratum has both groups and both results";
    notes.push(note("no_variation", "chiSquare", message), note("no_variation", "pValue", message));
  }
  const ratios = strata.map((table, index) => ratioOf(table, `strata.${index}.oddsRatio`, notes));
  const whole = strata.reduce(added, { firstWith: 0, firstWithout: 0, secondWith: 0, secondWithout: 0 });
  const values: CommonOddsRatioValues = {
    commonOddsRatio: pooled(strata, options.level, notes),
    crudeOddsRatio: ratioOf(whole, "crudeOddsRatio", notes),
    ...tests,
    strata: strata.map(({ label }, index) => ({ label, oddsRatio: ratios[index] ?? null })),
  };
  return { values, notes };
}

type Cells = Omit<Table, "label">;

const added = (sum: Cells, table: Cells): Cells => ({
  firstWith: sum.firstWith + table.firstWith,
  firstWithout: sum.firstWithout + table.firstWithout,
  secondWith: sum.secondWith + table.secondWith,
  secondWithout: sum.secondWithout + table.secondWithout,
});

const peopleOf = (table: Cells) =>
  table.firstWith + table.firstWithout + table.secondWith + table.secondWithout;

function ratioOf(table: Cells, path: string, notes: Note[]): number | null {
  const along = table.firstWith * table.secondWithout;
  const across = table.firstWithout * table.secondWith;
  if (across > 0) return along / across;
  notes.push(
    along > 0
      ? note("unbounded", path, "a cell is 0: the odds ratio is infinite")
      : note("not_estimable", path, "a row or column is empty: 0 divided by 0"),
  );
  return null;
}

/** Weighted ratio of products, with Robins, Breslow and Greenland's variance of its logarithm. */
function pooled(strata: readonly Table[], level: number, notes: Note[]): Estimate {
  let [along, across, first, mixed, second] = [0, 0, 0, 0, 0];
  for (const table of strata) {
    const people = peopleOf(table);
    if (people === 0) continue;
    const agree = (table.firstWith + table.secondWithout) / people;
    const differ = (table.firstWithout + table.secondWith) / people;
    const with_ = (table.firstWith * table.secondWithout) / people;
    const against = (table.firstWithout * table.secondWith) / people;
    along += with_;
    across += against;
    first += agree * with_;
    mixed += agree * against + differ * with_;
    second += differ * against;
  }
  const path = "commonOddsRatio";
  if (along === 0 || across === 0) {
    notes.push(
      along > 0
        ? note("unbounded", path, "no stratum speaks against an infinite odds ratio")
        : note("not_estimable", path, "the limits need a stratum that speaks for each direction"),
    );
    return { value: along === 0 && across > 0 ? 0 : null, lower: null, upper: null };
  }
  const value = along / across;
  const variance =
    first / (2 * (along * along)) + mixed / (2 * along * across) + second / (2 * (across * across));
  const factor = Math.exp(normalQuantile((1 - level) / 2, "upper") * Math.sqrt(variance));
  return { value, lower: value / factor, upper: value * factor };
}

function testOf(strata: readonly Table[]): Pick<CommonOddsRatioValues, "chiSquare" | "pValue"> {
  let [excess, variance] = [0, 0];
  for (const table of strata) {
    const people = peopleOf(table);
    if (people < 2) continue;
    const first = table.firstWith + table.firstWithout;
    const having = table.firstWith + table.secondWith;
    excess += table.firstWith - (first * having) / people;
    variance += ((first / people) * (people - first) * (having / people) * (people - having)) / (people - 1);
  }
  if (variance === 0) return { chiSquare: null, pValue: null };
  const chiSquare = (excess * excess) / variance;
  return { chiSquare, pValue: chiSquareCdf(chiSquare, 1, "upper") };
}

export const commonOddsRatio = defineMethod({
  id: "strata.common_odds_ratio",
  version: 1,
  title: "Common odds ratio over strata",
  question: "Do two groups differ once site, or another stratum, is accounted for?",
  formula:
    "OR = sum(a d / n) / sum(b c / n); chi-square = (sum(a - E a))² / sum(var a); limits: exp(log OR ± z sqrt(V)), V of Robins, Breslow and Greenland",
  caution:
    "one number for all strata: look at each stratum's odds ratio first. For two groups of people, not two tests on the same people",
  sources: ["mantel1959", "robins1986"],
  input: Input,
  options: Options,
  values: Values,
  run: commonOddsRatioOf,
  examples: [
    {
      name: "admissions by department, men over women",
      input: {
        strata: [
          { label: "A", firstWith: 512, firstWithout: 313, secondWith: 89, secondWithout: 19 },
          { label: "B", firstWith: 353, firstWithout: 207, secondWith: 17, secondWithout: 8 },
          { label: "C", firstWith: 120, firstWithout: 205, secondWith: 202, secondWithout: 391 },
          { label: "D", firstWith: 138, firstWithout: 279, secondWith: 131, secondWithout: 244 },
          { label: "E", firstWith: 53, firstWithout: 138, secondWith: 94, secondWithout: 299 },
          { label: "F", firstWith: 22, firstWithout: 351, secondWith: 24, secondWithout: 317 },
        ],
      },
      expect: {
        "commonOddsRatio.value": 0.904696828258623,
        "commonOddsRatio.lower": 0.77190736175935,
        "commonOddsRatio.upper": 1.06032976443666,
        chiSquare: 1.52460666044344,
      },
      tolerance: { relative: 1e-8 },
      source: "r_mantelhaen_test",
      recomputedBy: "R 4.2.2 mantelhaen.test(UCBAdmissions, correct = FALSE)",
    },
    {
      name: "penicillin and rabbits",
      input: {
        strata: [
          { label: "1/8", firstWith: 0, firstWithout: 6, secondWith: 0, secondWithout: 5 },
          { label: "1/4", firstWith: 3, firstWithout: 3, secondWith: 0, secondWithout: 6 },
          { label: "1/2", firstWith: 6, firstWithout: 0, secondWith: 2, secondWithout: 4 },
          { label: "1", firstWith: 5, firstWithout: 1, secondWith: 6, secondWithout: 0 },
          { label: "4", firstWith: 2, firstWithout: 0, secondWith: 5, secondWithout: 0 },
        ],
      },
      expect: {
        "commonOddsRatio.value": 7,
        "commonOddsRatio.lower": 1.02671268846167,
        "commonOddsRatio.upper": 47.7251333802226,
        chiSquare: 5.65714285714286,
        pValue: 0.0173844203520662,
        "strata.0.oddsRatio": null,
      },
      tolerance: { relative: 1e-8 },
      source: "r_mantelhaen_test",
      recomputedBy: "R 4.2.2 mantelhaen.test(Rabbits, correct = FALSE)",
    },
  ],
});
