import type { EnrolmentChanceData } from "../../src/figures/enrolment-chance.ts";
import type { PowerSawToothData } from "../../src/figures/power-saw-tooth.ts";
import type { StoppingLooksData } from "../../src/figures/stopping-looks.ts";
import type { WhatIfSizesData } from "../../src/figures/what-if-sizes.ts";

/** Invented numbers for drawing: layouts are tested with them, never statistics. */

/** A saw-tooth: one more failure is allowed from 20 people on, and then for every 15 further people. */
function sampleCurve(last: number): PowerSawToothData["curve"] {
  return Array.from({ length: last }, (_, at) => {
    const total = at + 1;
    if (total < 20) return { total, needed: null, power: 0 };
    const allowed = Math.floor((total - 20) / 15);
    const power = 1 - 1 / (2 + allowed) - ((total - 20) % 15) * 0.004;
    return { total, needed: total - allowed, power };
  });
}

export const SAW_TOOTH: PowerSawToothData = {
  name: "power",
  criterion: "HBsAg <&> sensitivity ≥ 95 %",
  people: "HBsAg-positive people",
  curve: sampleCurve(120),
  power: 0.8,
  first: 65,
  stays: 80,
};

export const CHANCE: EnrolmentChanceData = {
  name: "enrolment",
  analyte: "HBsAg",
  curve: Array.from({ length: 41 }, (_, at) => ({ total: 4000 + 100 * at, chance: at / 40 })),
  assurance: 0.9,
  naive: 6000,
  assured: 7600,
};

export const SIZES: WhatIfSizesData = {
  name: "what-if",
  criterion: "HBsAg sensitivity",
  people: "HBsAg-positive people",
  direction: "at_least",
  cells: [
    { expected: 0.96, threshold: 0.93, stays: 788 },
    { expected: 0.96, threshold: 0.95, stays: 5644 },
    { expected: 0.96, threshold: 0.97, stays: null },
    { expected: 0.98, threshold: 0.93, stays: 222 },
    { expected: 0.98, threshold: 0.95, stays: 515 },
    { expected: 0.98, threshold: 0.97, stays: 3273 },
    { expected: 0.99, threshold: 0.93, stays: 144 },
    { expected: 0.99, threshold: 0.95, stays: 230 },
    { expected: 0.99, threshold: 0.97, stays: 652 },
  ],
  plan: { expected: 0.98, threshold: 0.95 },
};

export const LOOKS: StoppingLooksData = {
  name: "looks",
  rule: "HBsAg sensitivity, looks on the way",
  looks: [
    { total: 70, passFrom: null, failAt: 66 },
    { total: 105, passFrom: 105, failAt: 101 },
    { total: 140, passFrom: 137, failAt: 136 },
  ],
  expected: 0.985,
  unacceptable: 0.95,
};
