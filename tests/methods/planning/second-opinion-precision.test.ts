import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { compute } from "../../../src/core/method.ts";
import { planningClusteredSize } from "../../../src/methods/planning/clustered-size.ts";
import { planningEffort } from "../../../src/methods/planning/effort.ts";
import {
  type EnrolmentInput,
  enrolmentChance,
  planningEnrolment,
} from "../../../src/methods/planning/enrolment.ts";
import { planningPrecision } from "../../../src/methods/planning/precision.ts";
import { expectClose } from "../../tolerance.ts";

interface Precision {
  readonly expected: number;
  readonly halfWidth: number;
  readonly level: number;
  readonly assurance: number;
  readonly horizon: number;
  readonly method: "clopper_pearson" | "wilson" | "jeffreys";
  readonly first: number | null;
  readonly stays: number | null;
  readonly meanHalfWidth: number | null;
  readonly assuredFirst: number | null;
  readonly assuredStays: number | null;
  readonly probability: number | null;
  readonly unrounded: number;
}
interface Enrolment {
  readonly positives: number;
  readonly negatives: number;
  readonly prevalence: EnrolmentInput["prevalence"];
  readonly invalid: number;
  readonly lost: number;
  readonly unverified: number;
  readonly unverifiedNegative: number;
  readonly assurance: number;
  readonly forPositives: number;
  readonly forNegatives: number;
  readonly total: number;
  readonly chancePositives: number;
  readonly chanceNegatives: number;
  readonly chanceBoth: number;
  readonly before: number;
  readonly naive: number;
  readonly fallsShort: number;
}
interface Effort {
  readonly total: number;
  readonly sites: { readonly label: string; readonly perDay: number; readonly opensAfterDays: number }[];
  readonly assurances: number[];
  readonly expected: number;
  readonly days: readonly number[];
  readonly people: readonly number[];
}
interface Clustered {
  readonly total: number;
  readonly clusters: number;
  readonly icc: number;
  readonly cv: number;
  readonly needed: number | null;
}
interface Opinion {
  readonly precisions: readonly Precision[];
  readonly enrolments: readonly Enrolment[];
  readonly efforts: readonly Effort[];
  readonly clustered: readonly Clustered[];
}

/** Made by R 4.2.2 base/stats with `tests/reference/scripts/second-opinion-planning-precision.R`. */
const file = new URL("../../reference/second-opinion-planning-precision.json", import.meta.url);
const opinion = JSON.parse(readFileSync(file, "utf8")) as Opinion;

function same(found: number | null, theirs: number | null, relative: number, what: string): void {
  if (theirs === null) expect(found, what).toBeNull();
  else expectClose(found, theirs, { relative }, what);
}

describe("precision", () => {
  it.each(opinion.precisions.map((asked) => [asked.method, asked.expected, asked.halfWidth, asked] as const))(
    "%s, %d within %d",
    (_method, _expected, _halfWidth, asked) => {
      const { expected, halfWidth, level, assurance, horizon, method } = asked;
      const options = { method, level, assurance, horizon };
      const { expectedWidth, assured, normal } = compute(
        planningPrecision,
        { expected, halfWidth },
        options,
      ).values;
      same(expectedWidth.first, asked.first, 0, "first");
      same(expectedWidth.stays, asked.stays, 0, "stays");
      // R's qbeta is good to about 1e-11 here.
      same(expectedWidth.halfWidth, asked.meanHalfWidth, 1e-10, "mean half-width");
      same(assured.first, asked.assuredFirst, 0, "assured first");
      same(assured.stays, asked.assuredStays, 0, "assured stays");
      same(assured.probability, asked.probability, 1e-12, "probability");
      same(normal.unrounded, asked.unrounded, 1e-13, "by the formula");
    },
  );
});

describe("enrolment", () => {
  it.each(
    opinion.enrolments.map(
      (asked) => [asked.positives, asked.negatives, asked.prevalence.kind, asked] as const,
    ),
  )("%i positives and %i negatives, prevalence %s", (_positives, _negatives, _kind, asked) => {
    const { positives, negatives, prevalence, invalid, lost, unverified, unverifiedNegative, assurance } =
      asked;
    const input = {
      positives,
      negatives,
      prevalence,
      losses: { invalid, lost, unverified, unverifiedNegative },
    };
    const { naive, targets } = compute(planningEnrolment, input, { assurances: [assurance] }).values;
    const found = targets[0];
    same(found?.forPositives ?? null, asked.forPositives, 0, "for the positives");
    same(found?.forNegatives ?? null, asked.forNegatives, 0, "for the negatives");
    same(found?.total ?? null, asked.total, 0, "for both");
    same(naive.total, asked.naive, 0, "by division");
    // Sums of thousands of masses that R has through logarithms of factorials: about 1e-12 each.
    const close = 1e-10;
    same(naive.fallsShort, asked.fallsShort, close, "falls short");
    const chance = enrolmentChance(input, asked.total);
    same(chance.positives, asked.chancePositives, close, "enough positives");
    same(chance.negatives, asked.chanceNegatives, close, "enough negatives");
    same(chance.both, asked.chanceBoth, close, "enough of both");
    same(enrolmentChance(input, asked.total - 1).both, asked.before, close, "with one fewer");
  });
});

describe("effort", () => {
  it.each(opinion.efforts.map((asked) => [asked.total, asked.sites.length, asked] as const))(
    "%i people at %i sites",
    (_total, _sites, { total, sites, assurances, expected, days, people }) => {
      const { values } = compute(planningEffort, { total, sites }, { assurances });
      // R's integrate over 200 pieces, uniroot to 1e-13.
      same(values.days.expected, expected, 1e-10, "days expected");
      for (const [at, entry] of values.days.atAssurances.entries()) {
        same(entry.days, days[at] ?? -1, 1e-10, `days at ${entry.assurance}`);
      }
      for (const [at, site] of values.bySite.entries()) {
        same(site.people, people[at] ?? -1, 1e-9, `people at ${site.label}`);
      }
    },
  );
});

describe("sites", () => {
  it.each(opinion.clustered.map((asked) => [asked.total, asked.clusters, asked] as const))(
    "%i people at %i sites",
    (_total, _clusters, { total, clusters, icc, cv, needed }) => {
      const { values } = compute(planningClusteredSize, {
        total,
        icc,
        cv,
        by: { kind: "clusters", clusters },
      });
      same(values.total, needed, 0, "total");
    },
  );
});
