import { describe, expect, it } from "vitest";
import { proportionInterval } from "../../src/methods/proportion/proportion-interval.ts";
import { tally } from "../../src/records/tallies.ts";
import { recordsOf } from "./folder.ts";

const { sets, study } = recordsOf("demo");

/** What the demo is for: it has to show each of the three verdicts, by its own criteria. */
describe("the demo study's criteria", () => {
  it("are met, not met and undecided as its description expects", () => {
    const verdicts = Object.fromEntries(
      study.criteria.map((criterion) => [criterion.id, verdictOf(criterion)]),
    );
    expect(verdicts).toEqual({
      "hbsag-se": "undecided",
      "hbsag-sp": "met",
      "hcv-se": "undecided",
      "hcv-sp": "met",
      "hcv-se-finger": "not met",
      "invalid-venous": "met",
      "invalid-finger": "met",
    });
  });

  it("were fixed two months before the first person was enrolled", () => {
    expect(new Set(study.criteria.map((criterion) => criterion.entered_on))).toEqual(new Set(["2026-02-01"]));
    expect(study.dates?.first).toBe("2026-04-01");
  });
});

function verdictOf(criterion: (typeof study.criteria)[number]): string {
  const set = sets.find((one) => one.analyte === criterion.analyte && one.specimen === criterion.specimen);
  if (set === undefined) throw new Error(`no set for ${criterion.id}`);
  const { counts } = tally(set, { invalid: "set_aside", outsideWindow: "keep" });
  const tested = set.pairs.filter((pair) => pair.rapid !== "not_done");
  const [count, total] = {
    sensitivity: [counts.truePositives, counts.truePositives + counts.falseNegatives] as const,
    specificity: [counts.trueNegatives, counts.trueNegatives + counts.falsePositives] as const,
    invalid_rate: [tested.filter((pair) => pair.firstRapid === "invalid").length, tested.length] as const,
  }[criterion.measure];
  const { lower, upper } = proportionInterval(count, total, {
    method: study.interval.method,
    level: study.interval.level,
    sides: "two",
    truncate: true,
  });
  const { at_least: least, at_most: most } = criterion;
  if (least !== undefined) return lower >= least ? "met" : upper < least ? "not met" : "undecided";
  return upper <= (most ?? 0) ? "met" : lower > (most ?? 0) ? "not met" : "undecided";
}
