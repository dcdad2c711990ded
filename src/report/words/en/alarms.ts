import type { Alarm } from "../../../records/model.ts";
import { count, countOf } from "../../formats.ts";
import { counted, listed, people } from "./plural.ts";

export interface AlarmFacts {
  readonly count: number;
  readonly total: number | null;
  /** Titles of what the alarm is about, where they are known; else their codes. */
  readonly subjects: readonly string[];
  /** What the primary analysis does with readings outside the window, in words. */
  readonly windowTreatment: string;
}

export interface AlarmWords {
  /** A word or two that says what is touched. */
  readonly label: string;
  readonly text: (facts: AlarmFacts) => string;
}

const named = ({ subjects }: AlarmFacts) => (subjects.length === 0 ? "" : ` (${listed(subjects)})`);
const of = ({ count: part, total }: AlarmFacts, one: string, many: string) =>
  total === null ? counted(part, one, many) : `${count(part)} of ${counted(total, one, many)}`;
const share = ({ count: part, total }: AlarmFacts) => (total === null ? count(part) : countOf(part, total));

/**
 * What the records themselves show to be a threat to the figures, gravest first. The order of this
 * table is the order of the report.
 */
export const alarms: Readonly<Record<Alarm["code"], AlarmWords>> = {
  reference_triggered_by_index: {
    label: "Reference",
    text: (facts) =>
      `${of(facts, "reference test was", "reference tests were")} ordered because of the rapid result${named(facts)}. That favours the kit.`,
  },
  discrepant_only_retested: {
    label: "Reference",
    text: (facts) =>
      `Only people whose results differed were tested again${named(facts)}: ${share(facts)}. That favours the kit.`,
  },
  comparator_not_reference: {
    label: "Comparison",
    text: (facts) =>
      `The comparison test${named(facts)} is not a reference standard. The figures say how far the two tests agree, not which of them is right.`,
  },
  partial_verification: {
    label: "Reference",
    text: (facts) =>
      `${of(facts, "person", "people")} with a rapid result ${facts.count === 1 ? "has" : "have"} no reference result${named(facts)}. If they differ from the others, the figures are off.`,
  },
  criterion_after_first_result: {
    label: "Criteria",
    text: (facts) =>
      `${of(facts, "criterion was", "criteria were")} entered after the first result was known${named(facts)}. A criterion chosen with the data in view is no test.`,
  },
  criterion_undated: {
    label: "Criteria",
    text: (facts) =>
      `${of(facts, "criterion bears", "criteria bear")} no date${named(facts)}, so nobody can tell whether it was fixed before the data.`,
  },
  reading_not_blinded: {
    label: "Blinding",
    text: (facts) =>
      `${of(facts, "reading was", "readings were")} made by someone who knew another result of the same person${named(facts)}.`,
  },
  reference_not_blinded: {
    label: "Blinding",
    text: (facts) =>
      `${of(facts, "reference result was", "reference results were")} obtained by someone who knew the rapid result${named(facts)}.`,
  },
  second_reader_copied: {
    label: "Readers",
    text: (facts) =>
      `${of(facts, "entry", "entries")} of the second reader ${facts.count === 1 ? "bears" : "bear"} the first reader's time${named(facts)}; the second reading may not be independent.`,
  },
  enriched_sample: {
    label: "Sample",
    text: (facts) =>
      `${of(facts, "person", "people")} were chosen for being likely to be positive or negative${named(facts)}. In routine use the kit may do less well, and the study's share of positives is no programme's.`,
  },
  lot_confounded_with_site: {
    label: "Lots",
    text: (facts) => `Lot and site can't be told apart${named(facts)}: an effect of one may be the other's.`,
  },
  single_lot: {
    label: "Lots",
    text: (facts) => `All devices came from one lot${named(facts)}; other lots may behave differently.`,
  },
  outside_window: {
    label: "Reading time",
    text: (facts) =>
      `${of(facts, "result was", "results were")} read outside the kit's window; in the primary analysis they are ${facts.windowTreatment}.`,
  },
  wrong_typed_results: {
    label: "Typed results",
    text: (facts) =>
      `${of(facts, "typed result is", "typed results are")} not what the reader's own lines give; this report goes by the lines.`,
  },
  rows_set_aside: {
    label: "Data",
    text: (facts) =>
      `${of(facts, "row", "rows")} of the tables ${facts.count === 1 ? "has a fault and is" : "have a fault and are"} not used; each is accounted for.`,
  },
};

export const care = {
  heading: "Read with care",
  none: "The records show none of the threats to validity that this program looks for. That does not prove that there are none.",
  unknown: (code: string, facts: AlarmFacts) => `${code}: ${share(facts)}${named(facts)}`,
  people,
};
