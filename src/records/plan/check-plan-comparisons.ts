import { named } from "../named.ts";
import type { Fault } from "../yaml-file.ts";
import type { Plan, PlanComparison } from "./plan.ts";

/** How far a share may be off by rounding alone. */
const ROUNDING = 1e-9;

/** Which people a comparison speaks of, and whether its shares fit each other. */
export function checkPlannedComparisons(plan: Plan, unknown: Fault, wrong: Fault): void {
  const analytes = plan.analytes.map((analyte) => analyte.id);
  plan.comparisons.forEach((comparison, index) => {
    const path = ["comparisons", index];
    named([...path, "analyte"], comparison.analyte, analytes, "an analyte of this file", unknown);
    checkDiscordant(comparison, [...path, "discordant"], wrong);
    const { first, second } = comparison;
    if (first.kit !== undefined && first.kit === second.kit) {
      wrong([...path, "second", "kit"], "another kit than the first side's", second.kit);
    }
    const main = plan.comparisons.find((other) => other.first.kit !== undefined)?.first.kit;
    if (first.kit !== undefined && first.kit !== main) {
      wrong([...path, "first", "kit"], `the kit that is planned for, ${main} as above`, first.kit);
    }
  });
}

/** How often just one of two kits is right is bounded by how often each is. */
function checkDiscordant(
  { design, discordant, first, second }: PlanComparison,
  path: readonly (string | number)[],
  fault: Fault,
): void {
  if (discordant === undefined) return;
  if (design === "unpaired") {
    fault(path, "no such share: each person has only one of the kits", discordant);
    return;
  }
  const least = Math.abs(first.expected - second.expected);
  const right = first.expected + second.expected;
  const most = Math.min(right, 2 - right);
  if (discordant >= least - ROUNDING && discordant <= most + ROUNDING) return;
  fault(path, `${short(least)} to ${short(most)}, which the two expected values allow`, discordant);
}

const short = (share: number) => String(Number(share.toFixed(6)));
