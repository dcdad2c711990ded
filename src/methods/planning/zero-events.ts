import * as v from "valibot";
import { level, quantity } from "../../core/fields.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { whole } from "./fields.ts";

const Input = v.strictObject({
  total: whole(1, Number.MAX_SAFE_INTEGER, "people among whom the event is not seen once"),
});
const Options = v.strictObject({ level: level() });
const Values = v.strictObject({
  ruleOfThree: quantity("proportion", "3 over the total: a rule of thumb for the one-sided limit at 95 %"),
  exactOneSided: quantity("proportion", "exact upper limit, one-sided at the level"),
  exactTwoSided: quantity("proportion", "upper limit of the exact two-sided interval at the level"),
});
export type ZeroEventsInput = v.InferOutput<typeof Input>;
export type ZeroEventsOptions = v.InferOutput<typeof Options>;
export type ZeroEventsValues = v.InferOutput<typeof Values>;

/**
 * How frequent an event may still be that was not seen once.
 *
 * @param input   people among whom it was not seen, 1 or more
 * @param options confidence level
 * @returns upper limits, 0..1; the rule of three is `null` with a note at another level than 0.95, and
 *   with fewer than three people
 * The rule of three lies above the one-sided limit, ever closer; the two-sided limit is a quarter higher.
 * Sources: hanley1983, clopper1934
 */
export function zeroEvents(
  { total }: ZeroEventsInput,
  options: ZeroEventsOptions,
): Finding<ZeroEventsValues> {
  const outside = 1 - options.level;
  const notes = ruleNotes(total, options.level);
  const values = {
    ruleOfThree: notes.length === 0 ? 3 / total : null,
    exactOneSided: -Math.expm1(Math.log(outside) / total),
    exactTwoSided: -Math.expm1(Math.log(outside / 2) / total),
  };
  return { values, notes };
}

function ruleNotes(total: number, wanted: number): Note[] {
  if (wanted !== 0.95) {
    const message = "the rule of three holds at the level 0.95 alone: take the exact limits";
    return [note("other_level", "ruleOfThree", message)];
  }
  if (total >= 3) return [];
  return [note("too_few", "ruleOfThree", "with fewer than three people the rule of three says nothing")];
}

export const planningZeroEvents = defineMethod({
  id: "planning.zero_events",
  version: 1,
  title: "An event that is not seen once",
  question: "If it is not seen once among so many people, how frequent may it still be?",
  formula:
    "one-sided: 1 - (1 - level)^(1/n); two-sided: 1 - ((1 - level) / 2)^(1/n); rule of three: 3 / n, since -log(0.05) is about 3",
  caution:
    "not seen is not absent. The rule of three is the one-sided limit; beside two-sided intervals give the two-sided one",
  sources: ["hanley1983", "clopper1934"],
  input: Input,
  options: Options,
  values: Values,
  run: zeroEvents,
  examples: [
    {
      name: "not once among 30",
      input: { total: 30 },
      expect: {
        ruleOfThree: 0.1,
        exactOneSided: 0.0950338528553042,
        exactTwoSided: 0.115703308222028,
      },
      tolerance: { relative: 1e-8 },
      source: "hanley1983",
      recomputedBy: "R 4.2.2: 1 - .05^(1/n), 1 - .025^(1/n)",
      memory: true,
    },
    {
      name: "not once among 300",
      input: { total: 300 },
      expect: {
        ruleOfThree: 0.01,
        exactOneSided: 0.00993608194445772,
        exactTwoSided: 0.0122209746942935,
      },
      tolerance: { relative: 1e-8 },
      source: "hanley1983",
      recomputedBy: "R 4.2.2: 1 - .05^(1/n), 1 - .025^(1/n)",
      memory: true,
    },
  ],
});
