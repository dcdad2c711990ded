import { describe, expect, it } from "vitest";
import { tally } from "../../src/records/tallies.ts";
import { committedTruth, recordsOf, rowsOf } from "./folder.ts";
import { recount } from "./recount.ts";

const truth = committedTruth();
const records = recordsOf("demo");
const AS_PLANNED = { invalid: "set_aside", outsideWindow: "keep" } as const;

describe("the realised truth of the demo study", () => {
  it("has a cell for each analyte and specimen type, as the records have", () => {
    const names = (cells: readonly { analyte: string; specimen: string; reader: string }[]) =>
      cells.map(({ analyte, specimen, reader }) => `${analyte}, ${specimen}, ${reader}`).sort();
    const byEye = records.sets.filter(({ method }) => method !== "optical");
    expect(names(byEye)).toEqual(names(truth.cells));
    expect(records.totals.enrolled).toBe(truth.enrolled);
  });

  for (const cell of truth.cells) {
    const set = records.sets.find((one) => one.analyte === cell.analyte && one.specimen === cell.specimen);
    if (set === undefined) throw new Error(`no set of ${cell.analyte}, ${cell.specimen}`);

    it(`is recovered exactly by the tally: ${cell.analyte}, ${cell.specimen}`, () => {
      const counted = tally(set, AS_PLANNED);
      expect(counted.counts).toEqual(cell.againstReference);
      expect(counted.people).toBe(cell.people);
      expect(counted.crossTabulation).toEqual(cell.crossTabulation);
      const inWindow = tally(set, { invalid: "set_aside", outsideWindow: "set_aside" });
      expect(inWindow.counts).toEqual(cell.againstReferenceInWindow);
      const tested = set.pairs.filter((pair) => pair.rapid !== "not_done");
      expect(tested.length).toBe(cell.tested);
      expect(tested.filter((pair) => pair.firstRapid === "invalid").length).toBe(cell.firstInvalid);
      for (const window of ["early", "in", "late", "unknown"] as const) {
        expect(tested.filter((pair) => pair.window === window).length, window).toBe(cell.window[window]);
      }
    });

    // Brute force on the tables as text, with an outside parser and none of the program's own code.
    it(`is what counting the tables by hand gives: ${cell.analyte}, ${cell.specimen}`, () => {
      const line = cell.analyte === "hbsag" ? "T1" : "T2";
      expect(recount((name) => rowsOf("demo", name), cell.analyte, line, cell.specimen)).toEqual(
        cell.crossTabulation,
      );
    });
  }

  it.each(truth.comparisons)("is recovered side by side: $analyte, $first against $second", (known) => {
    const [first, second] = [known.first, known.second].map((specimen) =>
      records.sets.find((set) => set.analyte === known.analyte && set.specimen === specimen),
    );
    const other = new Map(second?.pairs.map((pair) => [pair.person, pair.rapid]));
    const counts = (status: string, right: string) => {
      const valid = (rapid: string | undefined) => rapid === "reactive" || rapid === "nonreactive";
      const people = (first?.pairs ?? []).filter(
        (pair) => pair.reference === status && valid(pair.rapid) && valid(other.get(pair.person)),
      );
      const count = (one: boolean, two: boolean) =>
        people.filter((pair) => (pair.rapid === right) === one && (other.get(pair.person) === right) === two)
          .length;
      return {
        both: count(true, true),
        firstOnly: count(true, false),
        secondOnly: count(false, true),
        neither: count(false, false),
      };
    };
    expect(counts("positive", "reactive")).toEqual(known.positives);
    expect(counts("negative", "nonreactive")).toEqual(known.negatives);
  });

  it("lines without a control line are seen by every reader of those devices", () => {
    const devices = new Set(
      records.results.filter((one) => one.lineWithoutControl).map(({ device }) => device),
    );
    expect(devices.size).toBe(truth.lineWithoutControl);
    expect(records.totals.repeats).toBe(truth.repeats - 3 - laterRepeats());
  });
});

/** Repeats at second visits and of second enrolments, which do not count. */
function laterRepeats(): number {
  const again = new Set(
    truth.faults.filter(({ kind }) => kind === "person_enrolled_twice").map(({ id }) => id),
  );
  return rowsOf("demo", "index_tests.csv").filter(({ attempt_no, specimen_id = "" }) => {
    const [site, number, visit] = specimen_id.split("-");
    return attempt_no === "2" && (visit?.startsWith("2") || again.has(`${site}-${number}`));
  }).length;
}
