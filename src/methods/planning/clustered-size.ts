import * as v from "valibot";
import { proportion, quantity } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { whole } from "./fields.ts";
import { roundUp } from "./round-up.ts";

const Input = v.strictObject({
  total: whole(1, 100_000_000, "people that would be needed if they were independent"),
  icc: proportion("intra-cluster correlation expected"),
  by: v.pipe(
    v.variant("kind", [
      v.strictObject({
        kind: v.literal("size"),
        size: v.pipe(
          v.number(),
          v.finite("expected a finite number"),
          v.minValue(1, "expected 1 or more"),
          v.maxValue(100_000_000, "expected at most 100,000,000"),
          v.description("mean number of people at a site"),
        ),
      }),
      v.strictObject({
        kind: v.literal("clusters"),
        clusters: whole(1, 1_000_000, "number of sites there are"),
      }),
    ]),
    v.description("what is fixed: the people at each site, or the number of sites"),
  ),
  cv: v.optional(
    v.pipe(
      v.number(),
      v.finite("expected a finite number"),
      v.minValue(0, "expected 0 or more"),
      v.maxValue(100, "expected at most 100"),
      v.description("coefficient of variation of the site sizes: standard deviation over mean"),
    ),
    0,
  ),
});
const Options = v.strictObject({});
const Values = v.strictObject({
  designEffect: quantity("ratio", "how many times the people that independent ones would be"),
  total: quantity("people", "people needed"),
  clusters: quantity("count", "sites needed, or used"),
  clusterSize: quantity("people", "mean number of people at a site"),
  leastClusters: quantity("count", "fewest sites with which any number of people would do"),
});
export type ClusteredSizeInput = v.InferOutput<typeof Input>;
export type ClusteredSizeValues = v.InferOutput<typeof Values>;

/**
 * How many people and sites it takes when people at the same site resemble one another.
 *
 * @param input people that independent ones would be; correlation 0..1; either the mean number at a site or
 *   the number of sites; variation of the sizes
 * @returns people rounded up; with a given number of sites the design effect grows with the total, and it is
 *   that of the rounded total. `null` with a note where so few sites never do, however many people
 * Sources: donner2000; for given sites, hemming2011
 */
export function clusteredSize(
  input: ClusteredSizeInput,
  _options: v.InferOutput<typeof Options>,
): Finding<ClusteredSizeValues> {
  const { total, icc, by, cv } = input;
  const perPerson = (cv * cv + 1) * icc;
  const leastClusters = above(total * perPerson);
  if (by.kind === "size") {
    const designEffect = 1 + by.size * perPerson - icc;
    const needed = roundUp(total * designEffect);
    if (!Number.isSafeInteger(needed)) {
      throw new InputError(["input", "total"], "a total that sites can be counted for", total);
    }
    const clusters = roundUp(needed / by.size);
    return {
      values: { designEffect, total: needed, clusters, clusterSize: by.size, leastClusters },
      notes: [],
    };
  }
  if (by.clusters < leastClusters) return tooFew(leastClusters);
  const needed = roundUp((total * (1 - icc)) / (1 - (total * perPerson) / by.clusters));
  return needed < by.clusters
    ? fewerThanSites(total, icc * (cv * cv), leastClusters)
    : atSites(needed, by.clusters, perPerson, icc, leastClusters);
}

/** The smallest whole number above a value; a value within its own rounding of a whole number is that number. */
function above(value: number): number {
  const up = roundUp(value);
  return Math.abs(up - value) <= 1e-12 * up ? up + 1 : up;
}

function atSites(
  total: number,
  clusters: number,
  perPerson: number,
  icc: number,
  leastClusters: number,
): Finding<ClusteredSizeValues> {
  const clusterSize = total / clusters;
  const designEffect = 1 + clusterSize * perPerson - icc;
  return { values: { designEffect, total, clusters, clusterSize, leastClusters }, notes: [] };
}

function tooFew(leastClusters: number): Finding<ClusteredSizeValues> {
  const values = { designEffect: null, total: null, clusters: null, clusterSize: null, leastClusters };
  const message = `so few sites never say enough, however many people come: take more sites, at least ${leastClusters}`;
  const paths = ["designEffect", "total", "clusters", "clusterSize"];
  return { values, notes: notesAt("too_few_sites", paths, message) };
}

/** More sites than people: one person at each of the sites used. */
function fewerThanSites(total: number, excess: number, leastClusters: number): Finding<ClusteredSizeValues> {
  const needed = roundUp(total * (1 + excess));
  const values = {
    designEffect: 1 + excess,
    total: needed,
    clusters: needed,
    clusterSize: 1,
    leastClusters,
  };
  const message = "there are more sites than people needed: one person at each of so many sites does";
  return { values, notes: [note("more_sites_than_people", "clusters", message)] };
}

export const planningClusteredSize = defineMethod({
  id: "planning.clustered_size",
  version: 1,
  title: "Size of a study at several sites",
  question: "How many people and sites does it take when people at one site resemble one another?",
  formula:
    "design effect = 1 + ((cv² + 1) m - 1) icc for m people at a site on average; total = independent total t times design effect. With k sites given, m = total / k, hence total = t (1 - icc) / (1 - (cv² + 1) t icc / k), which needs k > (cv² + 1) t icc",
  caution:
    "the correlation must come from other studies and is itself uncertain: try a larger one. More sites help more than more people at each. With fewer than about 30 sites intervals need a further allowance (common practice, no source)",
  sources: ["donner2000", "hemming2011"],
  input: Input,
  options: Options,
  values: Values,
  run: clusteredSize,
  examples: [
    {
      name: "80 positives, 50 at a site, correlation 0.02",
      input: { total: 80, icc: 0.02, by: { kind: "size", size: 50 } },
      expect: { designEffect: 1.98, total: 159, clusters: 4 },
      tolerance: { relative: 1e-12 },
      source: "donner2000",
      recomputedBy: "R 4.2.2: ceiling(80 * (1 + 49 * .02))",
      memory: true,
    },
    {
      name: "80 positives at 6 sites, correlation 0.02",
      input: { total: 80, icc: 0.02, by: { kind: "clusters", clusters: 6 } },
      expect: { total: 107, clusters: 6, leastClusters: 2 },
      tolerance: { relative: 0 },
      source: "hemming2011",
      recomputedBy: "R 4.2.2: the first n of 1:1000 with n / (1 + (n / 6 - 1) * .02) >= 80",
      memory: true,
    },
    {
      name: "400 people at 8 sites, correlation 0.02: never enough",
      input: { total: 400, icc: 0.02, by: { kind: "clusters", clusters: 8 } },
      expect: { total: null, designEffect: null, leastClusters: 9 },
      tolerance: { relative: 0 },
      source: "hemming2011",
      recomputedBy: "R 4.2.2: no n of 1:1e7 with n / (1 + (n / 8 - 1) * .02) >= 400; with 9 sites 3528",
      memory: true,
    },
  ],
});
