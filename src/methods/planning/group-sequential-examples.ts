import type { WorkedExample } from "../../core/method.ts";

const script = "tests/reference/scripts/second-opinion-planning-stopping.R";

/** Errors allowed at half time as the literature prints them (recalled), and plans found by trying every border. */
export const groupSequentialExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "half of 2.5 % spent cautiously: .0015 at half time",
    input: { unacceptable: 0.9, expected: 0.95, fractions: [0.5, 1] },
    options: { error: 0.025, total: 200 },
    expect: { "looks.0.errorAllowed": 0.0015, "looks.1.errorAllowed": 0.025 },
    tolerance: { decimals: 4 },
    source: "lan1983",
    recomputedBy: "R 4.2.2: 2 - 2 * pnorm(qnorm(1 - .025 / 2) / sqrt(.5))",
    memory: true,
  },
  {
    name: "half of 2.5 % spent evenly: .0155 at half time",
    input: { unacceptable: 0.9, expected: 0.95, fractions: [0.5, 1] },
    options: { error: 0.025, total: 200, spending: "pocock" },
    expect: { "looks.0.errorAllowed": 0.0155, "looks.1.errorAllowed": 0.025 },
    tolerance: { decimals: 4 },
    source: "lan1983",
    recomputedBy: "R 4.2.2: .025 * log(1 + (exp(1) - 1) * .5)",
    memory: true,
  },
  {
    name: "80 % against 92 %, three looks, stopping both ways",
    input: { unacceptable: 0.8, expected: 0.92, fractions: [1 / 3, 2 / 3, 1] },
    options: { error: 0.025, power: 0.9, failure: true },
    expect: {
      total: 89,
      "looks.0.total": 30,
      "looks.0.passFrom": null,
      "looks.0.failAt": 22,
      "looks.1.passFrom": 56,
      "looks.1.failAt": 50,
      "looks.2.passFrom": 79,
      "looks.2.errorSpent": 0.022496966374405902,
      error: 0.022305164393461065,
      power: 0.9019796164309588,
      "expectedTotal.unacceptable": 58.85673923329487,
      "expectedTotal.expected": 74.71118827192744,
    },
    tolerance: { relative: 1e-11 },
    source: "no publication: every border and every total tried",
    recomputedBy: `R 4.2.2: dbinom, pnorm (${script})`,
  },
  {
    name: "50 % against 70 %, four looks, stopping only where the kit does well",
    input: { unacceptable: 0.5, expected: 0.7, fractions: [0.25, 0.5, 0.75, 1] },
    options: { spending: "pocock", failure: false },
    expect: {
      total: 44,
      "looks.0.passFrom": 10,
      "looks.1.passFrom": 16,
      "looks.2.passFrom": 23,
      "looks.3.passFrom": 29,
      "looks.0.errorSpent": 0.005859375,
      error: 0.047972937192639585,
      power: 0.8113668559220645,
    },
    tolerance: { relative: 1e-11 },
    source: "no publication: every border and every total tried",
    recomputedBy: `R 4.2.2: dbinom, log (${script})`,
  },
];
