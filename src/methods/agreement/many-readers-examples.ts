import type { WorkedExample } from "../../core/method.ts";

const R = "R 4.2.2: coincidences and pair counts written out";

/** Twelve items, four readers, some readings missing. */
const FOUR_READERS = [
  [1, 1, null, 1],
  [2, 2, 3, 2],
  [3, 3, 3, 3],
  [3, 3, 3, 3],
  [2, 2, 2, 2],
  [1, 2, 3, 4],
  [4, 4, 4, 4],
  [1, 1, 2, 1],
  [2, 2, 2, 2],
  [null, 5, 5, 5],
  [null, null, 1, 1],
  [null, 3, null, null],
];

/** Ten items and fourteen readers, given as how often each of five categories was chosen. */
const FOURTEEN_READERS = [
  [0, 0, 0, 0, 14],
  [0, 2, 6, 4, 2],
  [0, 0, 3, 5, 6],
  [0, 3, 9, 2, 0],
  [2, 2, 8, 1, 1],
  [7, 7, 0, 0, 0],
  [3, 2, 6, 3, 0],
  [2, 5, 3, 2, 2],
  [6, 5, 2, 1, 0],
  [0, 2, 2, 3, 7],
].map((counts) => counts.flatMap((count, category) => new Array<number>(count).fill(category + 1)));

/** Kept beside `many-readers.ts`, which would become too long to read. */
export const manyReadersExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "four readers, twelve items, missing readings: nominal alpha",
    input: { ratings: FOUR_READERS },
    expect: { "krippendorffAlpha.estimate.value": 0.743421052631579 },
    tolerance: { relative: 1e-8 },
    source: "krippendorff2011",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "the same as ordered categories",
    input: { ratings: FOUR_READERS },
    options: { scale: "ordinal", weights: "ordinal" },
    expect: { "krippendorffAlpha.estimate.value": 0.815387503754881 },
    tolerance: { relative: 1e-8 },
    source: "krippendorff2011",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "fourteen readers, ten items, five categories",
    input: { ratings: FOURTEEN_READERS },
    expect: {
      observedAgreement: 0.378021978021978,
      expectedAgreement: 0.212755102040816,
      "fleissKappa.estimate.value": 0.209930704421955,
      fleissNullStandardError: 0.0169650692243931,
      fleissZ: 12.3742910591905,
      "gwetAgreement.estimate.value": 0.225614150816628,
      "krippendorffAlpha.estimate.value": 0.215574056533227,
    },
    tolerance: { relative: 1e-8 },
    source: "encyclopaedia_fleiss",
    recomputedBy: R,
    memory: true,
  },
  {
    name: "one reader: nothing to compare",
    input: { ratings: [[0], [1], [1]] },
    expect: { observedAgreement: null, "fleissKappa.estimate.value": null, comparedItems: 0 },
    tolerance: { relative: 1e-8 },
    source: "no publication: by definition",
  },
];
