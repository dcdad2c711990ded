import type { RapidResult } from "./model.ts";
import type { Study } from "./study.ts";

/**
 * Which result counts when an invalid one was repeated. `first`: the first device's; `last`: the
 * last device's; `any`: the first valid one, or the last if none is valid.
 */
export function countedAttempt<Result extends { readonly result: RapidResult }>(
  results: readonly Result[],
  rule: Study["treatment"]["repeat"],
): Result | null {
  const last = results.at(-1) ?? null;
  if (rule === "first") return results[0] ?? null;
  if (rule === "last") return last;
  return results.find((result) => result.result !== "invalid") ?? last;
}
