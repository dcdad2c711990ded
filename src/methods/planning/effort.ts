import * as v from "valibot";
import { openProportion, proportion, quantity, text } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Arrivals, arrivalsOf, daysAt, meanDaysOpen } from "./effort-days.ts";
import { effortExamples } from "./effort-examples.ts";
import { whole } from "./fields.ts";
import { roundUp } from "./round-up.ts";

const amount = (most: number, meaning: string) =>
  v.pipe(
    v.number(),
    v.finite("expected a finite number"),
    v.minValue(0, "expected 0 or more"),
    v.maxValue(most, `expected at most ${most.toLocaleString("en-GB")}`),
    v.description(meaning),
  );
const cost = (meaning: string) => v.optional(amount(1e12, meaning), 0);
const Site = v.strictObject({
  label: text("name of the site"),
  perDay: v.pipe(
    amount(1e6, "people enrolled in a working day, on average"),
    v.gtValue(0, "expected above 0"),
  ),
  opensAfterDays: v.optional(amount(1e5, "working days from the start until it opens"), 0),
});
const Input = v.strictObject({
  total: whole(1, 10_000_000, "people to enrol"),
  sites: v.pipe(
    v.array(Site),
    v.minLength(1, "expected at least one site"),
    v.maxLength(500, "expected at most 500 sites"),
    v.description("the sites, with different names"),
  ),
  costs: v.optional(
    v.strictObject({
      fixed: cost("whatever comes"),
      perSite: cost("for each site"),
      perDay: cost("for each working day of the study, all sites together"),
      perPerson: cost("for each person enrolled"),
      perKit: cost("for each kit bought, spare ones included"),
      perReference: cost("for each person's reference tests"),
    }),
    {},
  ),
  kitsPerPerson: v.optional(amount(1000, "kits used on a person"), 1),
  spareKits: v.optional(amount(10, "kits bought in reserve, as a share of those used"), 0),
});
const Options = v.strictObject({
  assurances: v.optional(
    v.pipe(
      v.array(openProportion("a probability of being finished")),
      v.maxLength(10, "expected at most ten"),
      v.description("probabilities wanted of being finished in time, up to ten"),
    ),
    [0.5, 0.9],
  ),
});
const Values = v.strictObject({
  days: v.strictObject({
    expected: quantity("days", "working days until the last person is enrolled, on average"),
    atAssurances: v.pipe(
      v.array(
        v.strictObject({
          assurance: proportion("probability wanted of being finished"),
          days: quantity("days", "working days after which that is so probable"),
          cost: quantity("money", "cost of the study if it takes so many days"),
        }),
      ),
      v.description("one entry per assurance, in the order given"),
    ),
  }),
  bySite: v.pipe(
    v.array(
      v.strictObject({
        label: text("name of the site"),
        people: quantity("people", "people enrolled there, on average"),
        kits: quantity("count", "kits for so many, with the spare ones, rounded up"),
      }),
    ),
    v.description("one entry per site, in the order given"),
  ),
  kits: quantity("count", "kits of all sites"),
  cost: v.pipe(
    v.strictObject({
      fixed: quantity("money", "whatever comes"),
      sites: quantity("money", "for the sites"),
      days: quantity("money", "for the working days expected"),
      people: quantity("money", "for the people"),
      kits: quantity("money", "for the kits"),
      references: quantity("money", "for the reference tests"),
      total: quantity("money", "all together"),
    }),
    v.description("in the money of the costs given"),
  ),
});
export type EffortInput = v.InferOutput<typeof Input>;
export type EffortOptions = v.InferOutput<typeof Options>;
export type EffortValues = v.InferOutput<typeof Values>;

/**
 * How long a study takes, how many kits it uses and what it costs.
 *
 * People come to each site at random, at its own steady rate from the day on which it opens, until the total is
 * reached: a Poisson stream. The day of the last one is exact, not simulated.
 *
 * @param input   people to enrol; sites with people a day and opening day; costs in any one money; kits per
 *   person, spare kits as a share
 * @param options probabilities of being finished for which the days are wanted
 * @returns working days, not rounded; people by site on average (they add up to the total); kits rounded up at
 *   each site; costs with the days expected
 * Behaves badly where rates are guesses: real streams vary more than Poisson's, and the days then do too
 * Source: anisimov2007
 */
export function effortOf(input: EffortInput, options: EffortOptions): Finding<EffortValues> {
  const { total, sites } = input;
  requireDifferentLabels(sites);
  const arrivals = arrivalsOf(sites);
  const expected = meanDaysOpen(arrivals, total, 0);
  const bySite = sites.map((site) => siteEffort(site, arrivals, input));
  const kits = bySite.reduce((sum, site) => sum + site.kits, 0);
  const atDays = (days: number) => costOf(input, days, kits);
  const atAssurances = options.assurances.map((assurance) => {
    const days = daysAt(arrivals, total, assurance);
    return { assurance, days, cost: atDays(days).total };
  });
  return { values: { days: { expected, atAssurances }, bySite, kits, cost: atDays(expected) }, notes: [] };
}

function requireDifferentLabels(sites: EffortInput["sites"]): void {
  for (const [at, { label }] of sites.entries()) {
    if (sites.findIndex((other) => other.label === label) === at) continue;
    throw new InputError(["input", "sites", at, "label"], "a name that no other site has", label);
  }
}

/** So few people on average come to a site that is as good as never open. */
const NOBODY = 1e-6;

/** A site's mean share of the total is its rate times the mean of the days for which it is open. */
function siteEffort(
  { label, perDay, opensAfterDays }: EffortInput["sites"][number],
  arrivals: Arrivals,
  { total, kitsPerPerson, spareKits }: EffortInput,
) {
  const people = perDay * meanDaysOpen(arrivals, total, opensAfterDays);
  const kits = people < NOBODY ? 0 : roundUp(people * kitsPerPerson * (1 + spareKits));
  return { label, people, kits };
}

function costOf({ total, sites, costs }: EffortInput, days: number, kits: number) {
  const parts = {
    fixed: costs.fixed,
    sites: costs.perSite * sites.length,
    days: costs.perDay * days,
    people: costs.perPerson * total,
    kits: costs.perKit * kits,
    references: costs.perReference * total,
  };
  return { ...parts, total: Object.values(parts).reduce((sum, part) => sum + part, 0) };
}

export const planningEffort = defineMethod({
  id: "planning.effort",
  version: 1,
  title: "Days, kits and cost of a study",
  question: "How long will the study take, how many kits does it need, and what does it cost?",
  formula:
    "people expected by day t: L(t) = sum over sites of rate × days open by t; P(finished by t) = P(gamma variable of shape total <= L(t)); a site's people = its rate × mean days open; kits = people × kits per person × (1 + spare share), rounded up at each site",
  caution:
    "working days, not calendar days. The rates are taken as known and steady: real ones are guesses, change with season and stock, and make the finish less certain than this. A site may run out of kits while another has too many: the spare share must allow for that",
  sources: ["anisimov2007"],
  input: Input,
  options: Options,
  values: Values,
  run: effortOf,
  examples: effortExamples,
});
