import type { Clustered, Comparison, TruePrevalence } from "../../../src/evaluation/document.ts";
import { accuracyOf } from "./analysis.ts";
import type { CellCounts } from "./cells.ts";
import { exact } from "./intervals.ts";

type Measure = Comparison["measures"][number];
type Paired = NonNullable<Measure["paired"]>;
type Margin = Measure["margin"];
type Estimate = Measure["difference"];

/** Same people on both sides: shares and difference follow from the four counts; limits are invented. */
function measured(
  measure: Measure["measure"],
  paired: Paired,
  half: number,
  pValue: number,
  margin: Margin,
): Measure {
  const { both, firstOnly, secondOnly, neither } = paired;
  const all = both + firstOnly + secondOnly + neither;
  const value = (firstOnly - secondOnly) / all;
  const ratio = (both + firstOnly) / (both + secondOnly);
  return {
    measure,
    first: exact(both + firstOnly, all),
    second: exact(both + secondOnly, all),
    paired,
    difference: { value, lower: value - half * 1.3, upper: value + half * 0.8 },
    ratio: { value: ratio, lower: ratio - half * 1.3, upper: ratio + half * 0.8 },
    pValue,
    interval: "tango",
    test: "mid_p",
    margin,
    notes: [],
  };
}

const margin = (verdict: NonNullable<Margin>["verdict"], pValue: number): Margin => ({
  margin: 0.05,
  kind: "noninferiority",
  verdict,
  pValue,
  source: "study protocol 1.2, section 6",
  enteredOn: "2025-07-01",
});

const side = (specimen: string, kit = "kit-q") => ({ kit, specimen, reader: "R1" });

/** Fingerstick against venous blood of the same people, with a margin for the loss. */
export const sampleComparisons: Comparison[] = [
  {
    id: "hcv-fingerstick",
    title: "Fingerstick against venous blood",
    analyte: "hcv",
    first: side("fingerstick"),
    second: side("venous"),
    people: { both: 1640, firstOnly: 10, secondOnly: 22 },
    measures: [
      measured(
        "sensitivity",
        { both: 127, firstOnly: 1, secondOnly: 11, neither: 0 },
        0.047,
        0.0044,
        margin("undecided", 0.81),
      ),
      measured(
        "specificity",
        { both: 1484, firstOnly: 5, secondOnly: 7, neither: 5 },
        0.0041,
        0.58,
        margin("met", 0.00002),
      ),
    ],
    predictive: [],
    notes: [],
  },
  {
    id: "hbsag-fingerstick",
    title: "Fingerstick against venous blood, different people",
    analyte: "hbsag",
    first: side("fingerstick"),
    second: side("venous"),
    people: { both: 0, firstOnly: 1648, secondOnly: 1662 },
    measures: [
      {
        ...measured("sensitivity", { both: 107, firstOnly: 1, secondOnly: 4, neither: 1 }, 0.06, 0.28, null),
        paired: null,
        interval: "miettinen_nurminen",
        test: "score",
      },
    ],
    predictive: [
      {
        measure: "ppv",
        first: 0.9231,
        second: 0.9328,
        difference: { value: -0.0097, lower: -0.071, upper: 0.052 },
        ratio: { value: 0.9896, lower: 0.926, upper: 1.058 },
        pValue: 0.76,
      },
    ],
    notes: [{ code: "different_people", path: "people", message: "the two sides are different people" }],
  },
];

/** Two kits on the same people, held to be equivalent within five points. */
export const kitComparison: Comparison = {
  id: "kits",
  title: "Kit P against Kit Q",
  analyte: "hbsag",
  first: side("venous", "kit-p"),
  second: side("venous"),
  people: { both: 1630, firstOnly: 4, secondOnly: 12 },
  measures: [
    measured("sensitivity", { both: 104, firstOnly: 0, secondOnly: 7, neither: 2 }, 0.05, 0.0156, {
      margin: 0.05,
      kind: "equivalence",
      verdict: "undecided",
      pValue: 0.77,
      source: "study protocol 1.2, section 6",
      enteredOn: null,
    }),
  ],
  predictive: [],
  notes: [],
};

export function clusteredOf(cell: CellCounts): Clustered[] {
  const { sensitivity, specificity } = accuracyOf(cell);
  const widened = (of: typeof sensitivity, by: number): Estimate => ({
    value: of.value,
    lower: Math.max(0, (of.value ?? 0) - ((of.value ?? 0) - (of.lower ?? 0)) * by),
    upper: Math.min(1, (of.value ?? 0) + ((of.upper ?? 0) - (of.value ?? 0)) * by),
  });
  return (["sensitivity", "specificity"] as const)
    .map((measure) => {
      const plain = measure === "sensitivity" ? sensitivity : specificity;
      const designEffect = measure === "sensitivity" ? 1.82 : 0.94;
      const by = Math.sqrt(designEffect);
      return {
        analyte: cell.analyte,
        kit: cell.kit,
        specimen: cell.specimen,
        reader: cell.reader,
        measure,
        cluster: "Site",
        clusters: 5,
        plain,
        ratioEstimator: widened(plain, by * 0.95),
        effective: widened(plain, by),
        bootstrap:
          measure === "sensitivity" ? widened(plain, by * 0.85) : { ...plain, lower: null, upper: null },
        designEffect,
        intraclusterCorrelation: measure === "sensitivity" ? 0.038 : -0.0002,
        effectiveTotal: plain.total / designEffect,
        notes: [
          {
            code: "few_clusters",
            path: "designEffect",
            message: "five clusters are few: the intervals that allow for them are themselves uncertain",
          },
        ],
      };
    })
    .map(({ bootstrap, ...rest }) => ({
      ...rest,
      bootstrap: { value: bootstrap.value, lower: bootstrap.lower, upper: bootstrap.upper },
    }));
}

/** A programme's own counts with the kit. */
export function truePrevalenceOf(cell: CellCounts): TruePrevalence[] {
  const apparent = exact(cell.analyte === "hbsag" ? 412 : 61, 8120);
  const { sensitivity, specificity } = accuracyOf(cell);
  const value =
    ((apparent.value ?? 0) + (specificity.value ?? 0) - 1) /
    ((sensitivity.value ?? 0) + (specificity.value ?? 0) - 1);
  return [
    {
      analyte: cell.analyte,
      kit: cell.kit,
      specimen: cell.specimen,
      reader: cell.reader,
      population: "antenatal",
      title: "Antenatal care",
      apparent,
      estimated: { value: Math.max(0, value), lower: Math.max(0, value - 0.0085), upper: value + 0.0079 },
      known: { value: Math.max(0, value), lower: Math.max(0, value - 0.0049), upper: value + 0.005 },
      notes: [],
    },
  ];
}
