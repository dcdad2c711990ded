import * as v from "valibot";
import { choice } from "../../../core/fields.ts";
import { INTERVAL_METHODS } from "./rules.ts";

/** Option of every method that gives a proportion with its interval; absent means the exact one. */
export function intervalMethod() {
  return v.optional(choice(INTERVAL_METHODS, "kind of interval of a proportion"), "clopper_pearson");
}
