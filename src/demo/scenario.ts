import type { AnalyteId, ArmId, InvalidCause, LineId, SiteId } from "./world.ts";

/**
 * The invented world in numbers. Republic of Selbria, its places, its kit, its people and its
 * criteria exist nowhere else; the results are simulated.
 */
export const SEED = 20260401;

export const LINES: readonly LineId[] = ["T1", "T2"];
export const ANALYTE_OF: Readonly<Record<LineId, AnalyteId>> = { T1: "hbsag", T2: "anti_hcv" };
export const LINE_OF: Readonly<Record<AnalyteId, LineId>> = { hbsag: "T1", anti_hcv: "T2" };
export const ANALYTES: readonly AnalyteId[] = ["hbsag", "anti_hcv"];

export interface Site {
  readonly id: SiteId;
  readonly title: string;
  readonly arm: ArmId;
  readonly lab: string;
  /** Lots in the order of use, the second from this study day on; none: one lot throughout. */
  readonly lots: readonly [string, ...string[]];
  readonly secondLotFrom: number;
}

const sited = (
  id: SiteId,
  title: string,
  arm: ArmId,
  lab: string,
  lots: readonly [string, ...string[]],
  secondLotFrom: number,
): Site => ({ id, title, arm, lab, lots, secondLotFrom });

export const SITES: readonly Site[] = [
  sited("B", "Brisselmouth Hospital", "A", "REF-1", ["Q-101", "Q-102"], 75),
  sited("O", "Ondavell Clinic", "A", "REF-1", ["Q-101", "Q-102"], 90),
  sited("T", "Teroon Lake Health Centre", "A", "REF-1", ["Q-103"], 0),
  sited("K", "Skerrold Outreach Unit", "B", "REF-2", ["Q-101", "Q-102"], 60),
  sited("L", "Mavenfold Liver Clinic", "B", "REF-2", ["Q-101", "Q-102"], 110),
];

export const PREVALENCE: Readonly<Record<ArmId, Readonly<Record<AnalyteId, number>>>> = {
  A: { hbsag: 0.06, anti_hcv: 0.02 },
  B: { hbsag: 0.09, anti_hcv: 0.35 },
};
/** Odds ratio between the two conditions within a person. */
export const ASSOCIATION = 2.5;

export const LOTS = [
  { lot: "Q-101", expiry: "2026-08-31", received: "2026-03-10", quantity: 1600 },
  { lot: "Q-102", expiry: "2027-03-31", received: "2026-05-18", quantity: 1600 },
  { lot: "Q-103", expiry: "2027-01-31", received: "2026-03-12", quantity: 1000 },
] as const;

/**
 * Line strength in log10 units of the optical reader, 15 minutes after the buffer. The standard
 * deviation among people who have the condition (0.61 and 0.507 in all) is split into what stays
 * with the person and what differs between two specimens of the same person.
 */
export const SIGNAL: Readonly<
  Record<LineId, { mean: number; fingerstick: number; person: number; specimen: number }>
> = {
  T1: { mean: 2.2, fingerstick: -0.165, person: Math.sqrt(0.61 * 0.61 - 0.19 * 0.19), specimen: 0.19 },
  T2: { mean: 2.1, fingerstick: -0.37, person: Math.sqrt(0.507 * 0.507 - 0.19 * 0.19), specimen: 0.19 },
};
export const BACKGROUND = { mean: 0.3, deviation: 0.235, driftPerMinuteAfter20: 0.012 };

/**
 * One standard deviation between sites (0.25) and between operators (0.30) on the logit of the
 * sensitivity, as a shift in log10 units: divided by the slope of that logit at the aimed-at
 * sensitivity, 3.9 (T1 at 97.5 %) and 5.4 (T2 at 98.5 %).
 */
export const SITE_DEVIATION: Readonly<Record<LineId, number>> = { T1: 0.25 / 3.9, T2: 0.25 / 5.4 };
export const OPERATOR_DEVIATION: Readonly<Record<LineId, number>> = { T1: 0.3 / 3.9, T2: 0.3 / 5.4 };

export const SPECIAL_FALSE_POSITIVE = {
  T1: { share: 0.0025, pregnantShare: 0.0025, mean: 1.15, deviation: 0.12 },
  T2: { share: 0.004, pregnantShare: 0.015, mean: 1.15, deviation: 0.12 },
} as const;
/** A strong T1 line now and then carries a false T2 line. */
export const CROSS_REACTION = { strongFrom: 2.8, share: 0.015, mean: 1.1, deviation: 0.15 };

/** A lot stored above 30 °C for more than 14 days, and a lot with a slightly stronger second line. */
export const HEAT = { lot: "Q-103", line: "T1", shift: -0.2, fromDay: 85 } as const;
export const STRONGER_LOT = { lot: "Q-102", line: "T2", shift: 0.05 } as const;

export const EYE = { R1: 1.0, R2: 1.05, deviation: 0.08, faintBelow: 0.35, secondMissing: 0.02 } as const;
export const OPTICAL = { T1: 1.0, T2: 1.1, deviation: 0.05 } as const;

/** Invalid first devices by specimen; more in damp air and in one operator's hands. */
export const INVALID = {
  venous_whole_blood: 0.009,
  fingerstick: 0.026,
  dampAirFrom: 85,
  dampAirTimes: 2,
  secondAttempt: 0.1,
  typedNonreactive: 0.02,
  causes: { no_flow: 55, no_control: 25, smear: 12, leak: 8 } satisfies Record<InvalidCause, number>,
} as const;

export const TYPING = { wrong: 0.003, swapped: 0.001 } as const;
export const MISSING_SPECIMEN = { venous_whole_blood: 0.04, fingerstick: 0.02 } as const;

/** What is planned about the records as a whole, besides the people themselves. */
export interface Plan {
  /** People enrolled at each site. */
  readonly sizes: Readonly<Record<SiteId, number>>;
  readonly secondVisits: number;
  /** Planted: people enrolled again under a new code. */
  readonly secondEnrolments: number;
  /** Planted: devices whose T1 line is seen, and called reactive, without the control line. */
  readonly linesWithoutControl: number;
  /** Planted: specimens that the second laboratory tests again because of the rapid result. */
  readonly triggeredByIndex: number;
  /** Specimens without a reference result. */
  readonly pending: number;
  readonly lost: number;
}

/** The demo study: 1,720 people. */
export const DEMO_PLAN: Plan = {
  sizes: { B: 560, O: 430, T: 410, K: 190, L: 130 },
  secondVisits: 52,
  secondEnrolments: 2,
  linesWithoutControl: 5,
  triggeredByIndex: 9,
  pending: 12,
  lost: 6,
};

/** Minutes from buffer to reading, in the program's own mixture, and how they get recorded. */
export const READING_TIME = {
  inWindow: { share: 0.86, mean: 17, deviation: 1.5, from: 15, to: 20 },
  early: { share: 0.07, from: 6, to: 14 },
  late: { share: 0.05, from: 21, to: 35 },
  veryLate: { share: 0.02, from: 36, to: 60 },
  rounded: 0.06,
  roundedBelow: 30,
  missing: 0.01,
} as const;

/** The reference laboratories' assays. */
export const ASSAY = {
  hbsag: { sensitivity: 0.998, specificity: 0.995, repeatReactiveIfFalse: 0.5, neutralisationValid: 0.97 },
  anti_hcv: {
    sensitivity: 0.997,
    specificity: 0.992,
    blotPositiveIfTrue: 0.9,
    blotIndeterminateIfTrue: 0.04,
    blotIndeterminateIfFalse: 0.08,
    viraemic: 0.72,
  },
  secondEnzymeShare: 0.1,
} as const;
