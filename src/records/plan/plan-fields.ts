import * as v from "valibot";
import { Name, Share, Words } from "../plain-fields.ts";
import { Criterion } from "../study-fields.ts";

/** The parts of a plan that stand for themselves: prevalence, criteria with what is expected, and the rest. */

/** What lies nearer to 0 or 1 can't be reckoned with. */
const NEAREST = 1e-9;

function between0And1(what: string, instead: string) {
  const message = `expected ${what} above 0 and below 1${instead === "" ? "" : ` (${instead})`}`;
  return v.pipe(
    v.number(),
    v.gtValue(0, message),
    v.ltValue(1, message),
    v.check(
      (value) => value <= 0 || value >= 1 || (value >= NEAREST && value <= 1 - NEAREST),
      `${message}, and no nearer to either than a thousand-millionth`,
    ),
  );
}
const OpenShare = between0And1("a proportion", "");
const Expected = between0And1("a proportion", "nothing is certain of a kit: write 0.999, say, instead of 1");
const Figure = between0And1("a figure", "no number of people shows exactly 0 or 1: write 0.999, say");
const Prevalence = between0And1(
  "a prevalence",
  "where nobody is positive, or everybody, one of the two measures can't be studied",
);
export const Power = between0And1(
  "a probability",
  "no number of people makes it certain: write 0.8, 0.9 or 0.95, say",
);
const Loss = v.pipe(
  v.number(),
  v.minValue(0, "expected a share from 0 to below 1"),
  v.ltValue(1, "expected a share from 0 to below 1 (if all were lost nobody would be left)"),
);
const HalfWidth = v.pipe(
  v.number(),
  v.gtValue(0, "expected a half-width above 0 and at most 0.5 (0.03 is three points)"),
  v.maxValue(0.5, "expected a half-width above 0 and at most 0.5 (0.03 is three points)"),
);
const CountOf = v.pipe(
  v.number(),
  v.integer("expected a whole number"),
  v.minValue(0, "expected 0 or more"),
  v.maxValue(1e9, "expected at most 1,000,000,000"),
);
const AtLeastOne = v.pipe(CountOf, v.minValue(1, "expected 1 or more"));
const Between = (least: number, most: number) => {
  const expected = `expected ${least.toLocaleString("en-GB")} to ${most.toLocaleString("en-GB")}`;
  return v.pipe(v.number(), v.minValue(least, expected), v.maxValue(most, expected));
};
const Amount = Between(0, 1e12);
const Shape = Between(0.001, 1e9);

const PREVALENCE_FORMS: readonly (readonly string[])[] = [
  ["value"],
  ["positive", "tested"],
  ["a", "b"],
  ["low", "high"],
];

/** How many are reference positive among those enrolled: known, counted before, a beta prior, or a range. */
const PlannedPrevalence = v.pipe(
  v.strictObject({
    value: v.optional(v.pipe(Prevalence, v.description("taken as known exactly"))),
    positive: v.optional(v.pipe(CountOf, v.description("reference positive among those tested before"))),
    tested: v.optional(v.pipe(AtLeastOne, v.description("people tested before"))),
    a: v.optional(v.pipe(Shape, v.description("first shape of a beta distribution"))),
    b: v.optional(v.pipe(Shape, v.description("second shape of a beta distribution"))),
    low: v.optional(v.pipe(Prevalence, v.description("lowest prevalence to be ready for"))),
    high: v.optional(v.pipe(Prevalence, v.description("highest prevalence to be ready for"))),
  }),
  v.check((stated) => {
    const given = Object.keys(stated).filter((key) => stated[key as keyof typeof stated] !== undefined);
    return PREVALENCE_FORMS.some(
      (form) => form.length === given.length && form.every((key) => given.includes(key)),
    );
  }, "expected value; or positive and tested; or a and b; or low and high"),
  v.check(
    ({ positive, tested }) => positive === undefined || tested === undefined || positive <= tested,
    "expected positive not above tested",
  ),
  v.check(
    ({ low, high }) => low === undefined || high === undefined || low < high,
    "expected low below high",
  ),
);

export const PlannedAnalyte = v.strictObject({
  id: Name,
  title: Words,
  reference: v.optional(v.pipe(Words, v.description("the reference test or algorithm, in words"))),
  prevalence: v.pipe(PlannedPrevalence, v.description("among the people who will be enrolled")),
});

/** A criterion as in a study file, with the value that is expected of the kit. */
export const PlannedCriterion = v.pipe(
  v.strictObject({
    ...Criterion.pipe[0].entries,
    at_least: v.optional(v.pipe(Figure, v.description("the measure must be at least this"))),
    at_most: v.optional(v.pipe(Figure, v.description("the measure must be at most this"))),
    expected: v.pipe(Expected, v.description("the true value that the kit is expected to have")),
    power: v.optional(
      v.pipe(Power, v.description("probability wanted that it is met; absent: the plan's power")),
    ),
  }),
  v.check(
    (criterion) => (criterion.at_least === undefined) !== (criterion.at_most === undefined),
    "expected either at_least or at_most",
  ),
);

/** How wide an interval may be, apart from any criterion. */
export const PlannedWidth = v.strictObject({
  id: Name,
  title: Words,
  analyte: v.pipe(Name, v.description("an analyte of this file")),
  measure: v.picklist(["sensitivity", "specificity"]),
  expected: Expected,
  half_width: v.pipe(HalfWidth, v.description("half the length of the interval: 0.03 is three points")),
  assurance: v.optional(
    v.pipe(Power, v.description("probability wanted that the interval is short enough")),
    0.9,
  ),
});

const PlannedSide = v.strictObject({
  title: Words,
  kit: v.optional(v.pipe(Name, v.description("id of its kit file; absent: made from the title"))),
  expected: Expected,
});

/** Two kits: on the same people, or on different people. */
export const PlannedComparison = v.strictObject({
  id: Name,
  title: Words,
  analyte: v.pipe(Name, v.description("an analyte of this file")),
  measure: v.picklist(["sensitivity", "specificity"]),
  design: v.pipe(
    v.picklist(["paired", "unpaired"]),
    v.description("paired: both kits on the same people; unpaired: each on its own"),
  ),
  first: v.pipe(
    PlannedSide,
    v.description("the side whose fitness is asked: the kit that the criteria are about"),
  ),
  second: v.pipe(PlannedSide, v.description("the side it is held against")),
  discordant: v.optional(
    v.pipe(
      Share,
      v.description("paired: share of people for whom just one kit is right; absent: unknown, bounded"),
    ),
  ),
  margin: v.optional(
    v.pipe(
      OpenShare,
      v.description("largest tolerable loss of the first side; absent: is there a difference"),
    ),
  ),
  source: v.optional(v.pipe(Words, v.description("document the margin comes from"))),
  power: v.optional(Power),
});

/** Agreement between two readers, to be known to within a half-width. */
export const PlannedAgreement = v.strictObject({
  id: Name,
  title: Words,
  kappa: v.pipe(OpenShare, v.description("kappa expected")),
  reactive_first: v.pipe(OpenShare, v.description("share that the first reader calls reactive")),
  reactive_second: v.pipe(OpenShare, v.description("share that the second reader calls reactive")),
  half_width: HalfWidth,
});

/** A look at the data before the end, for one criterion of at_least. */
export const PlannedStopping = v.variant("design", [
  v.strictObject({
    design: v.literal("two_stage"),
    id: Name,
    criterion: v.pipe(Name, v.description("a criterion of this file that demands at_least")),
    unacceptable: v.pipe(OpenShare, v.description("a value at which the kit must fail")),
    error: v.optional(v.pipe(OpenShare, v.description("probability allowed that such a kit passes")), 0.05),
    power: v.optional(Power),
    largest: v.optional(v.pipe(AtLeastOne, v.maxValue(300, "expected at most 300")), 100),
  }),
  v.strictObject({
    design: v.literal("group_sequential"),
    id: Name,
    criterion: v.pipe(Name, v.description("a criterion of this file that demands at_least")),
    unacceptable: v.pipe(OpenShare, v.description("a value at which the kit must fail")),
    error: v.optional(v.pipe(OpenShare, v.description("probability allowed that such a kit passes")), 0.05),
    power: v.optional(Power),
    looks: v.pipe(
      v.array(v.pipe(v.number(), v.gtValue(0), v.maxValue(1))),
      v.minLength(2, "expected two looks or more"),
      v.maxLength(10, "expected at most ten looks"),
      v.check(
        (looks) =>
          looks.at(-1) === 1 && looks.every((look, at) => at === 0 || look > (looks[at - 1] as number)),
        "expected shares of the final number, increasing, the last being 1",
      ),
      v.description("when the data are looked at, as shares of the final number"),
    ),
    spending: v.optional(v.picklist(["obrien_fleming", "pocock"]), "obrien_fleming"),
    failure: v.optional(v.pipe(v.boolean(), v.description("stop for failure too")), true),
  }),
]);

const Site = v.strictObject({
  id: Name,
  title: Words,
  per_day: v.pipe(Between(0.001, 1e6), v.description("people enrolled on a working day, on average")),
  opens_after: v.optional(v.pipe(Between(0, 1e5), v.description("working days after the first site")), 0),
});

/** How people come in, and how many of them are lost to the analysis. */
export const Recruitment = v.strictObject({
  assurance: v.optional(
    v.pipe(Power, v.description("probability wanted that enough reference positives and negatives come")),
    0.9,
  ),
  invalid: v.optional(v.pipe(Loss, v.description("share without a valid result of the kit")), 0),
  lost: v.optional(v.pipe(Loss, v.description("share lost before both tests were done")), 0),
  unverified: v.optional(v.pipe(Loss, v.description("share without a reference result")), 0),
  sites: v.optional(v.pipe(v.array(Site), v.maxLength(500, "expected at most 500 sites")), []),
});

/** People of one site are more alike than people of different sites. */
export const Alike = v.pipe(
  v.strictObject({
    icc: v.pipe(Share, v.description("intra-cluster correlation of being right")),
    clusters: v.optional(
      v.pipe(
        AtLeastOne,
        v.maxValue(1e6, "expected at most 1,000,000"),
        v.description("how many clusters there will be, e.g. sites"),
      ),
    ),
    size: v.optional(v.pipe(Between(1, 1e8), v.description("or how many people of each kind in a cluster"))),
    cv: v.optional(
      v.pipe(
        Between(0, 100),
        v.description("how much the clusters differ in size: standard deviation over mean"),
      ),
      0,
    ),
  }),
  v.check(
    ({ clusters, size }) => (clusters === undefined) !== (size === undefined),
    "expected either clusters or size",
  ),
);

export const Costs = v.strictObject({
  unit: v.pipe(Words, v.description("the money unit, e.g. credits")),
  fixed: v.optional(Amount, 0),
  per_site: v.optional(Amount, 0),
  per_day: v.optional(Amount, 0),
  per_person: v.optional(Amount, 0),
  per_kit: v.optional(Amount, 0),
  per_reference: v.optional(Amount, 0),
  kits_per_person: v.optional(Between(0, 1000), 1),
  spare_kits: v.optional(v.pipe(Share, v.description("share of kits ordered beyond those used")), 0),
});

/** What one person says about two analytes at once. */
export const Together = v.strictObject({
  correlation: v.pipe(
    v.number(),
    v.minValue(-1, "expected -1 to 1"),
    v.maxValue(1, "expected -1 to 1"),
    v.description("correlation of the kit being right on both analytes of one person"),
  ),
  both_positive: v.optional(
    v.pipe(Share, v.description("share of people positive for both; absent: as if independent")),
  ),
});

/** Other values of what was assumed; absent: values around the plan's own. */
export const WhatIf = v.strictObject({
  criterion: v.pipe(Name, v.description("a criterion of this file")),
  expected: v.optional(
    v.pipe(v.array(Expected), v.minLength(1, "expected one or more"), v.maxLength(12, "expected at most 12")),
  ),
  thresholds: v.optional(
    v.pipe(v.array(Figure), v.minLength(1, "expected one or more"), v.maxLength(12, "expected at most 12")),
  ),
  prevalences: v.optional(v.pipe(v.array(Prevalence), v.maxLength(12, "expected at most 12"))),
});
