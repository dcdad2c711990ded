import { InputError } from "../../core/input-error.ts";
import type { Preset } from "../../core/preset-names.ts";
import type { Status, Step } from "./model.ts";

/** What a preset leaves open. */
export interface PresetChoices {
  /** How often an invalid run is repeated at once. */
  readonly again?: 0 | 1 | 2 | 3;
  /** What a person ends with whose last repeat is invalid too. */
  readonly invalid?: Status;
  /** serial_confirm only: what a reactive result that the next kit does not confirm ends with. */
  readonly discordant?: "negative" | "inconclusive";
}

type Filled = Required<PresetChoices>;
type Places = readonly [least: number, most: number];

/** How many kits each preset takes. */
export const PRESET_KITS: Readonly<Record<Preset, Places>> = {
  single: [1, 1],
  serial_confirm: [2, 5],
  parallel: [2, 4],
  tie_breaker: [3, 3],
  consecutive_two: [2, 2],
  consecutive_three: [3, 3],
  laboratory_confirm: [2, 3],
};

/**
 * The steps of a usual algorithm, in plain form, to be changed at will.
 *
 * - `single`: one kit, its result is the status.
 * - `serial_confirm`: the next kit only after a reactive result; all must be reactive for a positive.
 * - `parallel`: every kit is run on everybody; any reactive result makes a positive.
 * - `tie_breaker`: two kits on everybody; where they differ the third decides (majority). It makes positives
 *   of people with a non-reactive result, which `algorithms.outcomes` says in a note.
 * - `consecutive_two`, `consecutive_three`: so many reactive results in a row make a positive; a first result
 *   that is non-reactive a negative; a later one an inconclusive.
 * - `laboratory_confirm`: the last kit is the laboratory's. With one rapid kit it decides on every reactive
 *   and every invalid result; with two, agreeing reactive results are positive without it, and it decides
 *   where the second differs from a reactive first, and on invalid results.
 *
 * @param kits    ids of the kits in the order of use; the same id twice repeats that kit
 * @param choices repeats of an invalid run (1 unless stated), the status after the last (inconclusive unless
 *   stated; a laboratory preset sends such people to the laboratory first), and for serial_confirm what
 *   an unconfirmed reactive result ends with (negative unless stated)
 * @throws InputError where the number of kits does not fit the preset
 */
export function presetSteps(name: Preset, kits: readonly string[], choices: PresetChoices = {}): Step[] {
  const [least, most] = PRESET_KITS[name];
  if (kits.length < least || kits.length > most) {
    const wanted = least === most ? `${least}` : `${least} to ${most}`;
    throw new InputError(["kits"], `${wanted} kit ids for ${name}`, kits.length);
  }
  const filled: Filled = {
    again: choices.again ?? 1,
    invalid: choices.invalid ?? "inconclusive",
    discordant: choices.discordant ?? "negative",
  };
  return BUILDERS[name](kits, filled);
}

const BUILDERS: Readonly<Record<Preset, (kits: readonly string[], choices: Filled) => Step[]>> = {
  single: (kits, choices) => inARow(kits, choices, "negative"),
  serial_confirm: (kits, choices) => inARow(kits, choices, choices.discordant),
  parallel: (kits, choices) => parallel(kits, choices),
  tie_breaker: (kits, choices) => tieBreaker(kits, choices),
  consecutive_two: (kits, choices) => inARow(kits, choices, "inconclusive"),
  consecutive_three: (kits, choices) => inARow(kits, choices, "inconclusive"),
  laboratory_confirm: (kits, choices) => laboratory(kits, choices),
};

/** All reactive: positive. The first non-reactive: negative. A later one: `unconfirmed`. */
function inARow(kits: readonly string[], { again, invalid }: Filled, unconfirmed: Status): Step[] {
  return kits.map((kit, at) => ({
    id: `test_${at + 1}`,
    kit,
    reactive: at + 1 < kits.length ? `test_${at + 2}` : "positive",
    nonreactive: at === 0 ? "negative" : unconfirmed,
    again,
    invalid,
  }));
}

/** Each later kit stands twice: after a reactive result so far, and after none. */
function parallel(kits: readonly string[], { again, invalid }: Filled): Step[] {
  return kits.flatMap((kit, at): Step[] => {
    const last = at + 1 === kits.length;
    const reached = last ? "positive" : `test_${at + 2}_after_reactive`;
    const none = last ? "negative" : `test_${at + 2}_after_none`;
    const plain: Step = {
      id: at === 0 ? "test_1" : `test_${at + 1}_after_none`,
      kit,
      reactive: reached,
      nonreactive: none,
      again,
      invalid,
    };
    if (at === 0) return [plain];
    const already: Step = {
      ...plain,
      id: `test_${at + 1}_after_reactive`,
      nonreactive: reached,
      invalid: reached,
    };
    return [already, plain];
  });
}

function tieBreaker([first, second, third]: readonly string[], { again, invalid }: Filled): Step[] {
  const common = { again, invalid };
  const next = { kit: second as string, ...common };
  return [
    {
      id: "test_1",
      kit: first as string,
      reactive: "test_2_after_reactive",
      nonreactive: "test_2_after_none",
      ...common,
    },
    { id: "test_2_after_reactive", ...next, reactive: "positive", nonreactive: "test_3" },
    { id: "test_2_after_none", ...next, reactive: "test_3", nonreactive: "negative" },
    { id: "test_3", kit: third as string, reactive: "positive", nonreactive: "negative", ...common },
  ];
}

function laboratory(kits: readonly string[], { again, invalid }: Filled): Step[] {
  const rapid = kits.slice(0, -1);
  const steps = rapid.map((kit, at): Step => {
    const last = at + 1 === rapid.length;
    const agreed = rapid.length > 1 ? "positive" : "laboratory";
    return {
      id: `test_${at + 1}`,
      kit,
      reactive: last ? agreed : `test_${at + 2}`,
      nonreactive: at === 0 ? "negative" : "laboratory",
      again,
      invalid: "laboratory",
    };
  });
  const decides = { reactive: "positive", nonreactive: "negative" };
  return [...steps, { id: "laboratory", kit: kits[kits.length - 1] as string, ...decides, again, invalid }];
}
