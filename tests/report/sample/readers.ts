import type { Agreement, ManyReaders, Reread } from "../../../src/evaluation/document.ts";
import { exact } from "./intervals.ts";

type Counts = Agreement["counts"];
const around = (value: number, half: number) => ({
  value,
  lower: Math.max(-1, value - half),
  upper: Math.min(1, value + half),
});

/**
 * Two readers of the same devices. Shares and coefficients follow from the counts by textbook formulas
 * (Cohen's kappa, PABAK, Gwet's AC1); the widths of the coefficients' intervals are invented.
 */
function agreementOf(
  analyte: string,
  specimen: string,
  [first, second]: readonly [string, string],
  counts: Counts,
  half: number,
): Agreement {
  const { bothReactive: a, firstOnly: b, secondOnly: c, bothNonreactive: d } = counts;
  const all = a + b + c + d;
  const same = (a + d) / all;
  const [one, other] = [(a + b) / all, (a + c) / all];
  const chance = one * other + (1 - one) * (1 - other);
  const middle = (one + other) / 2;
  const gwet = 2 * middle * (1 - middle);
  const kappa = (same - chance) / (1 - chance);
  const discordant = (by: Agreement["disagreements"][number]["by"], group: string, k: number, n: number) => ({
    by,
    group,
    discordant: exact(k, n),
  });
  const wrong = b + c;
  return {
    analyte,
    kit: "kit-q",
    specimen,
    first,
    second,
    methods: ["eye", second === "OPT" ? "instrument" : "eye"],
    counts,
    invalid: { both: 11, firstOnly: 3, secondOnly: 2 },
    unpaired: 34,
    overall: exact(a + d, all),
    positivePercentAgreement: exact(a, a + c),
    negativePercentAgreement: exact(d, b + d),
    positiveAgreement: around((2 * a) / (2 * a + b + c), half),
    negativeAgreement: around((2 * d) / (2 * d + b + c), 0.004),
    kappa: around(kappa, half * 1.3),
    pabak: around(2 * same - 1, 0.012),
    ac1: around((same - gwet) / (1 - gwet), 0.01),
    krippendorffAlpha: kappa + 0.0001,
    prevalenceIndex: (a - d) / all,
    biasIndex: (b - c) / all,
    paradox: 2 * same - 1 - kappa > 0.2 ? "prevalence" : "none",
    lineStrength:
      second === "OPT"
        ? null
        : {
            table: [
              [d, c, 0],
              [b, Math.min(a, 20), 0],
              [0, 0, Math.max(0, a - 20)],
            ],
            weightedKappa: around(kappa + 0.01, half),
            notes: [],
          },
    disagreements: [
      discordant("line", "faint", Math.round(wrong * 0.8), 42),
      discordant("line", "clear", wrong - Math.round(wrong * 0.8), all - 42),
      discordant("window", "early", 2, 112),
      discordant("window", "in", wrong - 3, all - 230),
      discordant("window", "late", 1, 118),
      discordant("lot", "Q-101", Math.ceil(wrong / 2), 760),
      discordant("lot", "Q-102", Math.floor(wrong / 2) - 1, all - 760 - 380),
      discordant("lot", "Q-103", 1, 380),
      discordant("operator", "OP-03", Math.ceil(wrong / 2), 160),
      discordant("operator", "OP-07", Math.floor(wrong / 2), all - 160),
    ],
    notes: [],
  };
}

export const sampleAgreement: Agreement[] = [
  agreementOf(
    "hbsag",
    "venous",
    ["R1", "R2"],
    { bothReactive: 108, firstOnly: 14, secondOnly: 9, bothNonreactive: 1510 },
    0.03,
  ),
  agreementOf(
    "hbsag",
    "venous",
    ["R1", "OPT"],
    { bothReactive: 112, firstOnly: 10, secondOnly: 3, bothNonreactive: 1519 },
    0.025,
  ),
  agreementOf(
    "hcv",
    "venous",
    ["R1", "R2"],
    { bothReactive: 8, firstOnly: 11, secondOnly: 7, bothNonreactive: 1615 },
    0.16,
  ),
  agreementOf(
    "hbsag",
    "fingerstick",
    ["R1", "R2"],
    { bothReactive: 101, firstOnly: 19, secondOnly: 12, bothNonreactive: 1480 },
    0.035,
  ),
];

export const sampleManyReaders: ManyReaders[] = [
  {
    analyte: "hbsag",
    kit: "kit-q",
    specimen: "venous",
    readers: ["R1", "R2", "R3"],
    devices: 1641,
    fleissKappa: around(0.892, 0.031),
    ac1: around(0.981, 0.006),
    alpha: around(0.892, 0.032),
    notes: [],
  },
];

export const sampleRereadings: Reread[] = ["hbsag", "hcv"].map((analyte, place) => ({
  analyte,
  kit: "kit-q",
  specimen: "venous",
  reader: "R1",
  devices: 240,
  transitions: [
    { first: "reactive", second: "reactive", devices: 31 },
    { first: "reactive", second: "nonreactive", devices: 1 },
    { first: "nonreactive", second: "reactive", devices: 6 - place },
    { first: "nonreactive", second: "nonreactive", devices: 200 + place },
    { first: "nonreactive", second: "invalid", devices: 2 },
  ],
  flipped: exact(7 - place, 238),
  mcnemarPValue: 0.0703 + 0.06 * place,
  sensitivityDifference: { value: 0.032, lower: -0.041, upper: 0.123 },
  specificityDifference: { value: -0.024, lower: -0.056, upper: -0.002 },
  notes: [],
}));
