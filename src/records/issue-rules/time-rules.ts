import { rule } from "./rule.ts";

/** Faults of dates and clock times. */
export const TIME_RULES = {
  negative_minutes: rule(
    "error",
    "the minutes to the reading are negative; the value was ignored",
    "correct the minutes",
  ),
  absurd_minutes: rule(
    "error",
    "more than 24 hours lie between the timed step and the reading; the value was ignored",
    "correct the times; readings after a day are not results",
  ),
  over_midnight: rule(
    "note",
    "the clock time of the reading is earlier than that of the timed step: taken as after midnight",
    "write times with their dates",
  ),
  result_before_application: rule(
    "error",
    "the result was read before the timed step; the minutes were ignored",
    "correct one of the two times",
  ),
  entered_before_applied: rule(
    "warning",
    "the reading was entered before the specimen was applied",
    "correct one of the two times",
  ),
  steps_out_of_order: rule(
    "warning",
    "the steps are not in order: pouch opened, specimen applied, buffer applied",
    "correct the times",
  ),
  used_too_late: rule(
    "note",
    "the device was used later after opening its pouch than the kit file allows",
    "check the times; if right, it is a deviation from the instructions",
  ),
  missing_time: rule(
    "note",
    "a time is missing, so that the minutes to the reading are not known",
    "fill in the time; readings of unknown minutes are kept and counted",
  ),
  offset_on_one_side: rule(
    "note",
    "of two times only one states its offset from UTC; both were taken as the same local time",
    "write both times in the same way",
  ),
  date_outside_study: rule(
    "warning",
    "a date lies outside the first and last day of the study",
    "correct the date, or the dates in the study file",
  ),
  second_reader_copied: rule(
    "warning",
    "the second reader's entry bears the same time as the first reader's, or is earlier with equal seconds",
    "find out whether the second reading was made independently",
  ),
} as const;
