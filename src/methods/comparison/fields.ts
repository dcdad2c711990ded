import * as v from "valibot";
import { choice, count } from "../../core/fields.ts";
import { InputError } from "../../core/input-error.ts";
import { DIFFERENCE_METHODS, type Share } from "../proportion/difference-interval.ts";
import { RATIO_METHODS } from "../proportion/ratio-interval.ts";
import { PAIRED_METHODS } from "./paired-difference.ts";

/** People of one reference status by the results of both kits (or of one kit on both specimens). */
export const pairedCounts = {
  both: count("people: reactive on both"),
  firstOnly: count("people: reactive on the first only"),
  secondOnly: count("people: reactive on the second only"),
  neither: count("people: reactive on neither"),
};

const Group = v.strictObject({
  count: count("how many of them in this group"),
  total: count("of how many observed in this group"),
});

/** Two groups of different people. */
export const twoGroups = {
  first: v.pipe(Group, v.description("the first group, e.g. people tested with the new kit")),
  second: v.pipe(Group, v.description("the second group, e.g. people tested with the comparator")),
};

export function pairedMethod() {
  return v.optional(
    choice(PAIRED_METHODS, "kind of interval of a difference of paired proportions"),
    "tango",
  );
}

export function unpairedMethod() {
  return v.optional(
    choice(DIFFERENCE_METHODS, "kind of interval of a difference of proportions"),
    "miettinen_nurminen",
  );
}

export function ratioMethod() {
  return v.optional(choice(RATIO_METHODS, "kind of interval of a ratio of proportions"), "score");
}

/** @throws InputError where a count is larger than its total */
export function requireGroups(groups: Readonly<Record<string, Share>>, place: readonly string[]): void {
  for (const [name, group] of Object.entries(groups)) {
    if (group.count <= group.total) continue;
    throw new InputError([...place, name, "count"], `at most the total, ${group.total}`, group.count);
  }
}
