import type { Row, TableName } from "./tables.ts";
import type { Reading } from "./world.ts";

export type FaultKind =
  | "duplicate_cassette"
  | "read_before_applied"
  | "fahrenheit"
  | "expired_lot"
  | "person_enrolled_twice"
  | "second_reader_copied"
  | "drops_out_of_range"
  | "repeat_without_invalid"
  | "line_without_control"
  | "reference_without_specimen"
  | "date_outside_study"
  | "triggered_by_index";

/** How many of each are planted. The lot used at one site only is planted by the sites' lots. */
export const PLANTED: Readonly<Record<FaultKind, number>> = {
  duplicate_cassette: 4,
  read_before_applied: 6,
  fahrenheit: 5,
  expired_lot: 3,
  person_enrolled_twice: 2,
  second_reader_copied: 7,
  drops_out_of_range: 8,
  repeat_without_invalid: 3,
  line_without_control: 5,
  reference_without_specimen: 2,
  date_outside_study: 4,
  triggered_by_index: 9,
};

/** One planted fault: the rows that show it, and the column to look at. */
export interface Fault {
  readonly kind: FaultKind;
  readonly table: TableName;
  readonly column: string;
  readonly rows: readonly Row[];
  /** Study code of what it concerns. */
  readonly id: string;
  /** Set where the fault makes the minutes to a reading unknown. */
  readonly reading?: Reading;
}
