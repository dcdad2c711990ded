import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningAtLeastOne } from "../../../src/methods/planning/at-least-one.ts";
import { planningCriterionPower } from "../../../src/methods/planning/criterion-power.ts";
import { planningCriterionSize } from "../../../src/methods/planning/criterion-size.ts";
import { planningZeroEvents } from "../../../src/methods/planning/zero-events.ts";
import type { IntervalMethod } from "../../../src/methods/proportion/intervals/rules.ts";
import { expectClose } from "../../tolerance.ts";

interface Asked {
  readonly expected: number;
  readonly threshold: number;
  readonly direction: "at_least" | "at_most";
  readonly method: IntervalMethod;
  readonly level: number;
  readonly sides: "one" | "two";
}
interface Sized extends Asked {
  readonly power: number;
  readonly horizon: number;
  readonly first: number;
  readonly firstNeeded: number;
  readonly firstPower: number;
  readonly firstBefore: number;
  readonly stays: number;
  readonly staysNeeded: number;
  readonly staysPower: number;
  readonly staysBefore: number;
  readonly fewest: number;
}
interface Powered extends Asked {
  readonly total: number;
  readonly needed: number | null;
  readonly ruledOut: number | null;
  readonly met: number;
  readonly notMet: number;
  readonly atThreshold: number;
  readonly notMetAtThreshold: number;
}
interface Found {
  readonly prevalence: number;
  readonly population: number | null;
  readonly assurance: number;
  readonly affected: number | null;
  readonly total: number;
  readonly probability: number;
}
interface Unseen {
  readonly total: number;
  readonly level: number;
  readonly exactOneSided: number;
  readonly exactTwoSided: number;
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-planning-criterion.R`. */
const file = new URL("../../reference/second-opinion-planning-criterion.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as {
  readonly sizes: readonly Sized[];
  readonly powers: readonly Powered[];
  readonly found: readonly Found[];
  readonly unseen: readonly Unseen[];
};
const nameOf = ({ expected, threshold, direction, method, level, sides }: Asked) =>
  `${expected} expected, ${direction} ${threshold}, ${method}, ${sides} sides ${level}`;

describe("people needed to meet a criterion, by every total and every result of it", () => {
  it.each(opinion.sizes.map((row) => [nameOf(row), row] as const))("%s", (_, row) => {
    const { expected, threshold, direction, method, level, sides, power, horizon } = row;
    const options = { method, level, sides, power, horizon };
    const { values } = compute(planningCriterionSize, { expected, threshold, direction }, options);
    for (const kind of ["first", "stays"] as const) {
      expect(values[kind].total, kind).toBe(row[kind]);
      expect(values[kind].needed, kind).toBe(row[`${kind}Needed`]);
      expect(values[kind].allowed, kind).toBe(row[kind] - row[`${kind}Needed`]);
      expectClose(values[kind].power, row[`${kind}Power`], { relative: 1e-11 }, `${kind} power`);
      expectClose(values[kind].powerBefore, row[`${kind}Before`], { relative: 1e-11 }, `${kind} before`);
    }
    expect(values.fewest).toBe(row.fewest);
  });
});

describe("power of a study against a criterion", () => {
  it.each(opinion.powers.map((row) => [`${row.total} people, ${nameOf(row)}`, row] as const))(
    "%s",
    (_, row) => {
      const { expected, threshold, direction, method, level, sides, total } = row;
      const asked = { expected, threshold, direction, total };
      const { values } = compute(planningCriterionPower, asked, { method, level, sides });
      expect(values.needed).toBe(row.needed);
      expect(values.allowed).toBe(row.needed === null ? null : total - row.needed);
      expect(values.ruledOut).toBe(row.ruledOut);
      // A sum of R's over hundreds of masses keeps about 12 places, of tiny ones fewer.
      const close = { relative: 1e-10, absolute: 1e-15 };
      for (const key of ["met", "notMet", "atThreshold", "notMetAtThreshold"] as const) {
        expectClose(values[key], row[key], close, key);
      }
      expectClose(
        values.undecided,
        1 - row.met - row.notMet,
        { relative: 1e-10, absolute: 1e-12 },
        "undecided",
      );
    },
  );
});

describe("people needed to find at least one, by every total", () => {
  it.each(opinion.found.map((row) => [row.prevalence, row.population, row] as const))(
    "%d of %s",
    (_, __, row) => {
      const { prevalence, population, assurance } = row;
      const { values } = compute(planningAtLeastOne, { prevalence, population }, { assurance });
      expect(values.affected).toBe(row.affected);
      expect(values.total).toBe(row.total);
      expectClose(values.probability, row.probability, { relative: 1e-11 }, "probability");
    },
  );
});

describe("an event not seen once, by binom.test", () => {
  it.each(opinion.unseen.map((row) => [row.total, row.level, row] as const))(
    "among %d at %d",
    (_, __, row) => {
      const { values } = compute(planningZeroEvents, { total: row.total }, { level: row.level });
      expectClose(values.exactOneSided, row.exactOneSided, { relative: 1e-12 }, "one-sided");
      expectClose(values.exactTwoSided, row.exactTwoSided, { relative: 1e-12 }, "two-sided");
    },
  );
});
