import * as v from "valibot";
import { PRESETS } from "../../core/preset-names.ts";
import { Name, Share, Words } from "../plain-fields.ts";
import {
  Amount,
  AtLeastOne,
  CountOf,
  UncertainAccuracy,
  UncertainInvalid,
  UncertainPrevalence,
  UncertainPrice,
} from "./uncertain-fields.ts";

/** The parts of an algorithm file that stand for themselves: kits, dependence, channels, algorithms. */

/** What a path through an algorithm may end with. */
export const STATUSES = ["positive", "negative", "inconclusive"] as const;

/** Algorithms that need no drawing: how many kits each takes. */
export const PRESET_KITS = {
  single: [1, 1],
  serial_confirm: [2, 5],
  parallel: [2, 4],
  tie_breaker: [3, 3],
  consecutive_two: [2, 2],
  consecutive_three: [3, 3],
  laboratory_confirm: [2, 3],
} as const;

const Accuracy = v.strictObject({
  sensitivity: v.pipe(UncertainAccuracy, v.description("share of the truly positive that are reactive")),
  specificity: v.pipe(UncertainAccuracy, v.description("share of the truly negative that are non-reactive")),
});

const MINUTES = "expected 0 to 100,000 minutes";
const WASTE = "expected a share from 0 to 0.9 (0.03: three kits of a hundred)";
export const AlgorithmKit = v.strictObject({
  id: Name,
  title: Words,
  antigens: v.optional(
    v.pipe(Name, v.description("kits of one name share antigens, and may be wrong together")),
  ),
  analytes: v.pipe(
    v.record(v.string(), Accuracy),
    v.check((analytes) => Object.keys(analytes).length > 0, "expected at least one analyte"),
    v.description("what the kit shows; with two analytes one device shows both"),
  ),
  invalid: v.optional(v.pipe(UncertainInvalid, v.description("runs without a valid result")), { value: 0 }),
  price: v.pipe(UncertainPrice, v.description("of one kit, in the unit of the costs")),
  minutes: v.optional(
    v.pipe(
      v.number(),
      v.minValue(0, MINUTES),
      v.maxValue(1e5, MINUTES),
      v.description("until the result is there"),
    ),
  ),
  waste: v.optional(
    v.pipe(
      v.number(),
      v.minValue(0, WASTE),
      v.maxValue(0.9, WASTE),
      v.description("share of kits lost before use: expired, damaged, spent on controls"),
    ),
    0,
  ),
  pack: v.optional(
    v.pipe(AtLeastOne, v.maxValue(10_000, "expected at most 10,000"), v.description("kits in a pack")),
    1,
  ),
});

export const Channel = v.strictObject({
  id: Name,
  title: Words,
  clients: v.pipe(
    AtLeastOne,
    v.maxValue(8_000_000, "expected at most 8,000,000"),
    v.description("people tested in a year"),
  ),
  prevalence: v.pipe(v.record(v.string(), UncertainPrevalence), v.description("of each analyte")),
  return: v.optional(v.pipe(Share, v.description("share of inconclusive people who come back"))),
});

const Next = v.pipe(Name, v.description("positive, negative, inconclusive, or the next step"));
const AGAIN = "expected 0 to 3";
const Again = v.pipe(
  v.number(),
  v.integer("expected a whole number"),
  v.minValue(0, AGAIN),
  v.maxValue(3, AGAIN),
  v.description("how often an invalid run is repeated at once"),
);
const AlgorithmStep = v.strictObject({
  id: Name,
  kit: v.pipe(Name, v.description("a kit of this file")),
  reactive: Next,
  nonreactive: Next,
  again: v.optional(Again, 1),
  invalid: v.optional(v.pipe(Next, v.description("after the last repeat")), "inconclusive"),
});

/** An algorithm: one of the usual ones by its name, or drawn step by step, first step first. */
export const TestingAlgorithm = v.pipe(
  v.strictObject({
    id: Name,
    title: Words,
    analyte: v.pipe(Name, v.description("an analyte of this file")),
    preset: v.optional(v.picklist(PRESETS)),
    kits: v.optional(v.pipe(v.array(Name), v.description("with a preset: its kits, first used first"))),
    discordant: v.optional(
      v.pipe(
        v.picklist(["negative", "inconclusive"]),
        v.description("with a preset: what a second result against the first means"),
      ),
    ),
    again: v.optional(Again),
    steps: v.optional(
      v.pipe(
        v.array(AlgorithmStep),
        v.minLength(1, "expected at least one step"),
        v.maxLength(12, "expected at most 12 steps"),
      ),
    ),
    retest_after: v.optional(
      v.pipe(
        v.number(),
        v.minValue(0, "expected 0 days or more"),
        v.maxValue(3660, "expected at most 3,660 days"),
        v.description("days until inconclusive people are tested anew; absent: nobody is"),
      ),
    ),
    main: v.optional(
      v.pipe(v.boolean(), v.description("the one that the page leads with; absent: the first")),
    ),
  }),
  v.check(
    ({ preset, steps }) => (preset === undefined) !== (steps === undefined),
    "expected either preset or steps",
  ),
  v.check(
    ({ preset, kits }) => (preset === undefined) === (kits === undefined),
    "expected kits with a preset, and none with steps of one's own",
  ),
);

export const AlgorithmCosts = v.strictObject({
  unit: v.pipe(Words, v.description("the money unit, e.g. credits")),
  per_client: v.optional(v.pipe(Amount, v.description("of testing one person, kits left out")), 0),
  per_false_positive: v.optional(v.pipe(Amount, v.description("what calling one wrongly positive costs"))),
  per_missed: v.optional(v.pipe(Amount, v.description("what missing one costs"))),
});

const TARGET = "expected a proportion above 0 and below 1";
const Target = v.pipe(v.number(), v.gtValue(0, TARGET), v.ltValue(1, TARGET));
export const Targets = v.strictObject({
  ppv: v.optional(v.pipe(Target, v.description("share of positive results that must be right"))),
  npv: v.optional(v.pipe(Target, v.description("share of negative results that must be right"))),
  most_inconclusive: v.optional(v.pipe(Share, v.description("largest share of people without a decision"))),
  most_minutes: v.optional(v.pipe(v.number(), v.minValue(0, MINUTES), v.maxValue(1e5, MINUTES))),
  different_antigens: v.optional(
    v.pipe(v.boolean(), v.description("no two kits of one algorithm may share antigens")),
  ),
});

const TESTS = "expected 1, 2 or 3";
export const Search = v.strictObject({
  kits: v.optional(
    v.pipe(
      v.array(Name),
      v.minLength(1, "expected at least one kit"),
      v.maxLength(8, "expected at most eight kits"),
      v.description("kits to choose from; absent: all"),
    ),
  ),
  most_tests: v.optional(v.pipe(v.number(), v.integer(TESTS), v.minValue(1, TESTS), v.maxValue(3, TESTS)), 3),
  repeat: v.optional(
    v.pipe(v.boolean(), v.description("whether a kit may come twice in one algorithm")),
    false,
  ),
});

const RISK = "expected a risk above 0 and below 0.5";
export const Order = v.strictObject({
  risk: v.optional(
    v.pipe(
      v.number(),
      v.gtValue(0, RISK),
      v.ltValue(0.5, RISK),
      v.description("risk allowed of running out before the year is over"),
    ),
    0.05,
  ),
});

export const Observed = v.pipe(
  v.strictObject({
    channel: v.pipe(Name, v.description("a channel of this file")),
    algorithm: v.pipe(Name, v.description("an algorithm of this file")),
    tested: v.pipe(AtLeastOne, v.description("people tested with the first kit")),
    first_reactive: v.pipe(AtLeastOne, v.description("people whom the first kit called reactive")),
    second_nonreactive: v.pipe(CountOf, v.description("of them, those whom the second did not")),
  }),
  v.check(
    ({ first_reactive, second_nonreactive }) => second_nonreactive <= first_reactive,
    "expected second_nonreactive not above first_reactive",
  ),
  v.check(
    ({ first_reactive, tested }) => first_reactive <= tested,
    "expected first_reactive not above tested",
  ),
);
