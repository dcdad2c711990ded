import { InputError } from "../../core/input-error.ts";
import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { notesAt } from "../notes-at.ts";
import { groupSequentialExamples } from "./group-sequential-examples.ts";
import {
  type GroupSequentialInput,
  type GroupSequentialOptions,
  type GroupSequentialValues,
  Input,
  Options,
  Values,
} from "./group-sequential-fields.ts";
import { rulePaths } from "./rule-paths.ts";
import {
  type Borders,
  bothSteps,
  lookTotals,
  type SequentialDemands,
  sequentialBorders,
} from "./sequential-borders.ts";
import { leastTotal, reachesPower, smallestSingle } from "./single-look.ts";

/**
 * Looks at the data before the end that keep the error: where to stop, and how many people it takes.
 *
 * The borders are counts, found from exact binomial probabilities and a spending function. The error is kept
 * even where a stop for failure is not obeyed.
 *
 * @param input   two proportions right, in 0..1; when to look, as shares of the final total (people at a
 *   look are rounded up)
 * @param options error, power, how the error is spent, whether failure stops too, and the final total
 * @returns `null` with a note where no total up to the horizon reaches the power, where the total given
 *   leaves no room for the looks or no result that could pass, and where what is expected is not above what
 *   is unacceptable
 * @throws InputError where the fractions do not increase up to 1
 * Behaves badly where people at a look differ from the plan: borders have then to be found anew.
 * Source: lan1983; with failure: pampallona2001
 */
export function planGroupSequential(
  input: GroupSequentialInput,
  options: GroupSequentialOptions,
): Finding<GroupSequentialValues> {
  requireFractions(input.fractions);
  if (input.expected <= input.unacceptable)
    return nothing(null, null, [...ANSWERS, "total", "single"], NOT_ABOVE);
  const { error, power, spending, failure } = options;
  const demands = { ...input, error, power, spending, failure };
  const single = smallestSingle(demands, options.horizon);
  const singleNotes = single === null ? [note("beyond_horizon", "single", beyond("one look", options))] : [];
  if (options.total !== null) {
    const borders = sequentialBorders(options.total, demands);
    const found =
      borders === null
        ? nothing(options.total, single, ANSWERS, noRoom(options.total, demands))
        : describePlan(options.total, borders, demands, single);
    return { ...found, notes: [...found.notes, ...singleNotes] };
  }
  const found = smallestTotal(demands, options.horizon);
  if (found !== null) {
    const described = describePlan(found.total, found.borders, demands, single);
    return { ...described, notes: [...described.notes, ...singleNotes] };
  }
  const failed = nothing(
    null,
    single,
    [...ANSWERS, "total"],
    ["beyond_horizon", beyond("the plan", options)],
  );
  return { ...failed, notes: [...failed.notes, ...singleNotes] };
}

const ANSWERS = ["error", "power", "expectedTotal.unacceptable", "expectedTotal.expected"];
const NOT_ABOVE = [
  "not_above",
  "the expected proportion is not above the unacceptable one: no study can tell them apart in this direction. State a higher expected or a lower unacceptable proportion",
] as const;

const beyond = (what: string, { horizon }: GroupSequentialOptions) =>
  `${what} would need more than ${horizon} people. Raise the horizon, accept more error or less power, or state proportions further apart`;

function noRoom(total: number, { fractions }: SequentialDemands): readonly [string, string] {
  return lookTotals(total, fractions) === null
    ? ["looks_coincide", `with ${total} people two looks fall together. Plan fewer looks or more people`]
    : [
        "nothing_passes",
        `even ${total} of ${total} right would exceed the error. Plan more people or accept more error`,
      ];
}

function requireFractions(fractions: readonly number[]): void {
  fractions.forEach((fraction, at) => {
    const before = at === 0 ? 0 : (fractions[at - 1] as number);
    if (fraction <= before) throw new InputError(["input", "fractions", at], `more than ${before}`, fraction);
  });
  const last = fractions[fractions.length - 1];
  if (last !== 1)
    throw new InputError(["input", "fractions", fractions.length - 1], "1, the final total", last);
}

/** The smallest final total whose plan reaches the power; totals that no rule could do with are passed over. */
function smallestTotal(demands: SequentialDemands, horizon: number) {
  const least = leastTotal(demands, horizon);
  if (least === null) return null;
  const steps = bothSteps(demands);
  for (let total = least; total <= horizon; total += 1) {
    const borders = sequentialBorders(total, demands, steps);
    if (borders !== null && reachesPower(borders.power, demands.power)) return { total, borders };
  }
  return null;
}

function nothing(
  total: number | null,
  single: GroupSequentialValues["single"],
  paths: readonly string[],
  [code, message]: readonly [string, string],
): Finding<GroupSequentialValues> {
  const expectedTotal = { unacceptable: null, expected: null };
  return {
    values: { total, looks: [], error: null, power: null, expectedTotal, single },
    notes: notesAt(code, paths, message),
  };
}

function describePlan(
  total: number,
  borders: Borders,
  demands: SequentialDemands,
  single: GroupSequentialValues["single"],
): Finding<GroupSequentialValues> {
  const bad = rulePaths(borders.looks, demands.unacceptable);
  const good = rulePaths(borders.looks, demands.expected);
  const upTo = (parts: readonly number[], at: number) =>
    Math.min(
      1,
      parts.slice(0, at + 1).reduce((sum, part) => sum + part, 0),
    );
  const looks = borders.looks.map((look, at) => ({
    ...look,
    passIfExpected: upTo(good.pass, at),
    stopIfUnacceptable: Math.min(1, upTo(bad.pass, at) + upTo(bad.fail, at)),
  }));
  const expectedTotal = { unacceptable: bad.expectedTotal, expected: good.expectedTotal };
  const values = { total, looks, error: bad.passes, power: good.passes, expectedTotal, single };
  return { values, notes: notesOn(values, demands) };
}

function notesOn({ looks, power, total }: GroupSequentialValues, demands: SequentialDemands): Note[] {
  const notes = looks.flatMap(({ passFrom, failAt }, at): Note[] => {
    const never = "even all right would spend more error than this look may";
    const noFail = demands.failure
      ? "even none right would spend more of the missing power than this look may"
      : "no stop for failure was asked for";
    return [
      ...(passFrom === null ? [note("no_pass_here", `looks.${at}.passFrom`, never)] : []),
      ...(failAt === null ? [note("no_fail_here", `looks.${at}.failAt`, noFail)] : []),
    ];
  });
  if (power !== null && !reachesPower(power, demands.power)) {
    const message = `${total} people do not reach a power of ${demands.power}. Plan more people, or leave the total open to have it searched`;
    notes.push(note("power_not_reached", "power", message));
  }
  return notes;
}

export const planningGroupSequential = defineMethod({
  id: "planning.group_sequential",
  version: 1,
  title: "Looks at the data before the end",
  question: "Where may a study of one kit stop before its end, and how many people does it take?",
  formula:
    "error allowed by share t: obrien_fleming 2 - 2 P(Z <= z / sqrt(t)) with P(Z > z) = error / 2; pocock error log(1 + (e - 1) t). At each look the smallest passFrom with P(passed by now; unacceptable) <= allowed, exact, failures not obeyed. With failure: the largest failAt with P(failed by now; expected) <= the same function of 1 - power, below passFrom - 1. Total: the smallest with P(pass; expected) >= power",
  caution:
    "the borders hold for the planned numbers only; where people at a look differ, they have to be found anew from the error already spent. Power goes up and down with the total, so that one person more may fall just short. The estimate after an early stop is too extreme, and the usual interval no longer covers what it says",
  sources: ["lan1983", "obrien1979", "pocock1977", "pampallona2001", "schultz1973"],
  input: Input,
  options: Options,
  values: Values,
  run: planGroupSequential,
  examples: groupSequentialExamples,
});
