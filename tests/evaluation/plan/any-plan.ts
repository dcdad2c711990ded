import fc from "fast-check";
import { stringify } from "yaml";
import { parsePlan } from "../../../src/records/plan/parse-plan.ts";
import type { Plan } from "../../../src/records/plan/plan.ts";

/** Plans in memory, for tests. Everything is invented. */
export type PlanText = Record<string, unknown>;

const SMALL = {
  format: "fourfold-plan/1",
  id: "small",
  title: "A small plan",
  analytes: [{ id: "A1", title: "Analyte one", prevalence: { value: 0.2 } }],
  specimens: [{ type: "serum", title: "Serum" }],
  criteria: [
    { id: "se", analyte: "A1", measure: "sensitivity", at_least: 0.8, expected: 0.95, source: "made up" },
  ],
  interval: { method: "clopper_pearson", level: 0.95 },
};

/** A small plan, changed. */
export const planText = (change: PlanText = {}): PlanText => ({ ...SMALL, ...change });

/** What reading makes of a plan. */
export const parsed = (plan: PlanText) =>
  parsePlan({ name: "plan.yaml", bytes: new TextEncoder().encode(stringify(plan)) });

/** A plan that must be readable. */
export function readable(plan: PlanText): Plan {
  const read = parsed(plan);
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.value;
}

const share = fc.double({ min: 0.005, max: 0.995, noNaN: true }).map((value) => Number(value.toFixed(3)));
const high = fc.double({ min: 0.6, max: 0.999, noNaN: true }).map((value) => Number(value.toFixed(3)));
const power = fc.constantFrom(0.5, 0.8, 0.9, 0.95);
const analyte = fc.constantFrom("A1", "A2");
const measure = fc.constantFrom("sensitivity", "specificity");
const maybe = <Value>(value: fc.Arbitrary<Value>) => fc.option(value, { nil: undefined });
const named = (start: string) => (list: readonly PlanText[]) =>
  list.map((one, index) => ({ ...one, id: `${start}${index}` }));

const prevalence = fc.oneof(
  share.map((value) => ({ value })),
  fc.tuple(fc.nat(30), fc.integer({ min: 30, max: 500 })).map(([positive, tested]) => ({ positive, tested })),
  fc.tuple(share, share).map(([a, b]) => ({ a: 10 * a, b: 10 * b })),
  fc
    .tuple(share, share)
    .filter(([one, other]) => one !== other)
    .map(([one, other]) => ({ low: Math.min(one, other), high: Math.max(one, other) })),
);

const criterion = fc
  .tuple(
    fc.record({
      analyte,
      measure,
      expected: high,
      power: maybe(power),
      rule: fc.constantFrom("interval", "one_sided", "point"),
      importance: fc.constantFrom("primary", "primary", "secondary"),
      source: fc.constant("made up"),
    }),
    high,
    fc.integer({ min: 0, max: 5 }),
  )
  .map(([fields, figure, kind]) =>
    kind === 0
      ? {
          ...fields,
          measure: "invalid_rate",
          expected: 1 - fields.expected,
          at_most: Number((1 - figure).toFixed(3)),
        }
      : { ...fields, at_least: figure },
  );

const comparison = fc.record({
  title: fc.constant("Two kits"),
  analyte,
  measure,
  design: fc.constantFrom("paired", "unpaired"),
  first: fc.record({ title: fc.constant("One"), expected: high }),
  second: fc.record({ title: fc.constantFrom("Other", "Third"), expected: high }),
  margin: fc.constantFrom(0.1, 0.2, 0.3),
});

const stopping = fc.oneof(
  fc.record({
    design: fc.constant("two_stage"),
    criterion: fc.constant("c0"),
    unacceptable: share,
    largest: fc.integer({ min: 1, max: 60 }),
  }),
  fc.record({
    design: fc.constant("group_sequential"),
    criterion: fc.constant("c0"),
    unacceptable: share,
    looks: fc.constantFrom([0.5, 1], [0.2, 0.4, 1]),
    spending: fc.constantFrom("obrien_fleming", "pocock"),
    failure: fc.boolean(),
  }),
);

/** Any plan that a person might write; not all of them can be read. */
export const anyPlan: fc.Arbitrary<PlanText> = fc
  .record({
    analytes: fc.tuple(prevalence, prevalence).map((two) =>
      two.map((stated, index) => ({
        id: `A${index + 1}`,
        title: `Analyte ${index + 1}`,
        prevalence: stated,
      })),
    ),
    criteria: fc.array(criterion, { minLength: 1, maxLength: 4 }).map(named("c")),
    decision: fc
      .constantFrom("each", "all_must_pass", "holm", "fixed_sequence")
      .map((control) => ({ control })),
    power: maybe(power),
    interval: fc.record({
      method: fc.constantFrom("clopper_pearson", "wilson", "blaker", "jeffreys", "mid_p"),
      level: fc.constantFrom(0.8, 0.95, 0.99),
    }),
    alike: maybe(
      fc.oneof(
        fc.record({
          icc: fc.constantFrom(0, 0.001, 0.02, 0.5, 1),
          clusters: fc.integer({ min: 1, max: 30 }),
        }),
        fc.record({
          icc: fc.constantFrom(0, 0.02, 1),
          size: fc.integer({ min: 1, max: 50 }),
          cv: fc.constantFrom(0, 0.5),
        }),
      ),
    ),
    together: maybe(fc.constantFrom({ correlation: 0 }, { correlation: 0.05 })),
    recruitment: maybe(
      fc.record({
        assurance: power,
        invalid: fc.constantFrom(0, 0.05, 0.5),
        lost: fc.constantFrom(0, 0.1),
        unverified: fc.constantFrom(0, 0.2),
        sites: fc.constantFrom(
          [],
          [
            { id: "S", title: "Site", per_day: 3 },
            { id: "T", title: "Other site", per_day: 0.5, opens_after: 30 },
          ],
        ),
      }),
    ),
    costs: maybe(fc.constant({ unit: "credits", per_day: 10, per_kit: 1.5 })),
    widths: fc
      .array(
        fc.record({
          title: fc.constant("Width"),
          analyte,
          measure,
          expected: high,
          half_width: fc.constantFrom(0.02, 0.05, 0.3),
        }),
        { maxLength: 1 },
      )
      .map(named("w")),
    comparisons: fc.array(comparison, { maxLength: 1 }).map(named("k")),
    agreement: fc
      .array(
        fc.record({
          title: fc.constant("Readers"),
          kappa: high,
          reactive_first: share,
          reactive_second: share,
          half_width: fc.constantFrom(0.05, 0.2),
        }),
        { maxLength: 1 },
      )
      .map(named("r")),
    stopping: fc.array(stopping, { maxLength: 1 }).map(named("s")),
    what_if: fc.constantFrom([], [{ criterion: "c0" }]),
  })
  .map((plan) => planText(JSON.parse(JSON.stringify(plan)) as PlanText));
