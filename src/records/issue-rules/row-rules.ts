import { rule } from "./rule.ts";

/** Faults of one row: its shape, its identifiers, its codes and numbers. */
export const ROW_RULES = {
  ragged_row: rule(
    "error",
    "the row has more or fewer cells than the header",
    "look for a missing or a stray delimiter, or text with a delimiter that is not in quotes",
  ),
  malformed_row: rule(
    "error",
    "the quotes of the row do not close properly",
    "close each quoted cell; write a quote inside it twice",
  ),
  nul_character: rule(
    "error",
    "the row holds a NUL character",
    "export the table again; the file is damaged",
  ),
  blank_row: rule("note", "every cell of the row is empty", "take the row out"),
  long_cell: rule(
    "warning",
    "a cell is 1,000 characters long or longer",
    "check that no quote is left open and that the cell belongs here",
  ),
  blank_identifier: rule("error", "an identifier that is needed is empty", "fill in the identifier"),
  duplicate_participant: rule(
    "error",
    "the participant stands in the table twice; the first row counts",
    "take the second row out, or correct its identifier",
  ),
  enrolled_twice: rule(
    "warning",
    "two participants share one person key: the same person was enrolled twice; the first enrolment counts",
    "check the identities; accuracy counts each person once",
  ),
  not_consented: rule("note", "consent was not given; the person is not analysed", "nothing need be done"),
  not_eligible: rule("note", "the person is not eligible and is not analysed", "nothing need be done"),
  missing_exclusion_reason: rule(
    "warning",
    "a person who is not eligible has no reason of exclusion",
    "fill in the reason; reports of accuracy list exclusions by reason",
  ),
  duplicate_specimen: rule(
    "error",
    "the specimen stands in the table twice; the first row counts",
    "take the second row out, or correct its identifier",
  ),
  duplicate_device: rule(
    "error",
    "a device is used once, yet its identifier stands in the table twice",
    "find out which row is right; the same device cannot have been used on two specimens",
  ),
  device_for_two_people: rule(
    "error",
    "one device identifier stands for two people; none of its rows can be attributed",
    "find out whose device it was and correct the other identifier",
  ),
  duplicate_reading: rule(
    "error",
    "the same line, reader and reading stand in the table twice; the first row counts",
    "take the second row out, or number the readings",
  ),
  later_reading: rule(
    "note",
    "a later reading of the same device by the same reader; the first reading counts, and only the second is compared with it",
    "nothing need be done",
  ),
  duplicate_reference: rule(
    "warning",
    "the same specimen, analyte, assay, step and run stand in the table twice; the first row counts",
    "take the second row out, or number the runs",
  ),
  duplicate_study: rule(
    "error",
    "two studies bear the same name; the first row counts, as the same people may have been counted twice",
    "take the second row out, or give it a name of its own",
  ),
  duplicate_lot: rule(
    "warning",
    "the lot stands in the table twice; the first row counts",
    "take one row out",
  ),
  duplicate_operator: rule(
    "warning",
    "the operator stands in the table twice; the first row counts",
    "take one row out",
  ),
  duplicate_interpretation: rule(
    "warning",
    "the same device, reader and analyte were typed twice; the first row counts",
    "take the second row out",
  ),
  unknown_participant: rule(
    "error",
    "the participant is not in the participants table",
    "correct the identifier, or add the participant",
  ),
  unknown_specimen: rule(
    "error",
    "the specimen is not in the specimens table",
    "correct the identifier, or add the specimen",
  ),
  unknown_reference_id: rule(
    "error",
    "a reference result belongs to a specimen that is not in the specimens table",
    "correct the identifier, or add the specimen; until then the result cannot be used",
  ),
  unknown_device: rule(
    "error",
    "the device is not in the index tests table",
    "correct the identifier, or add the device",
  ),
  unknown_repeat: rule(
    "warning",
    "repeat_of names a device that is not in the index tests table",
    "correct the identifier of the first device",
  ),
  unknown_lot: rule("warning", "the lot is not in the lots table", "correct the lot, or add it to the table"),
  unknown_operator: rule(
    "warning",
    "the operator is not in the operators table",
    "correct the operator, or add the operator to the table",
  ),
  unknown_site: rule(
    "warning",
    "the site is not in the study file",
    "correct the site, or add it to the study file",
  ),
  unknown_arm: rule(
    "warning",
    "the arm is not in the study file",
    "correct the arm, or add it to the study file",
  ),
  unknown_kit: rule(
    "error",
    "the row belongs to a kit that the study file does not name",
    "correct the kit, or take the row out",
  ),
  unknown_line: rule("error", "the kit file has no such line", "correct the line, or add it to the kit file"),
  unknown_analyte: rule(
    "error",
    "the study file has no such analyte",
    "correct the analyte, or add it to the study file",
  ),
  unknown_specimen_type: rule(
    "note",
    "the study file does not analyse this specimen type",
    "add the type to the specimens of the study file if it should be analysed",
  ),
  assay_outside_algorithm: rule(
    "note",
    "the assay is no step of the reference algorithm; its result describes, and decides nothing",
    "nothing need be done, unless the algorithm in the study file is incomplete",
  ),
  unknown_code: rule(
    "error",
    "a code is none of those allowed",
    "use one of the codes listed, or add the code to the study file where codes are mapped",
  ),
  not_a_number: rule("error", "a number was expected", "write digits with a decimal point, and no unit"),
  not_a_date: rule(
    "error",
    "a date or time was expected",
    "write dates as 2026-04-01 and times as 2026-04-01T10:15",
  ),
  out_of_range: rule("error", "a number lies outside what is possible", "correct the number"),
  missing_value: rule("warning", "a value that is needed is empty", "fill in the value"),
  missing_line: rule(
    "error",
    "a reading lacks one of the kit's lines; without it there is no result",
    "add the row of that line",
  ),
  grade_disagrees: rule(
    "warning",
    "line_grade and line_seen do not agree; line_seen was used",
    "a line graded 0 is absent, and an absent line is graded 0",
  ),
  missing_reference: rule(
    "warning",
    "a person with a rapid result has no reference result for this analyte",
    "add the reference result; people without one cannot be counted for accuracy",
  ),
  reference_incomplete: rule(
    "warning",
    "the reference algorithm asks for a further assay that was not done",
    "add the result of that assay; until then the status is not known",
  ),
  reference_differs: rule(
    "warning",
    "two rows of one person give different reference results; the first counts",
    "correct the reference result, or give repeat visits an identifier of their own",
  ),
  reference_dead_end: rule(
    "warning",
    "the reference algorithm does not say what this result leads to; the status is indeterminate",
    "add the result to leads_to in the study file",
  ),
  pregnant_man: rule(
    "warning",
    "a male participant is entered as pregnant",
    "correct one of the two entries",
  ),
  reader_without_readings: rule(
    "warning",
    "a comparison or an instrument names a reader of whom there is no such reading",
    "correct the reader in the study file, or add the readings",
  ),
  second_result: rule(
    "warning",
    "a second result of the same person, although the first was valid; the first counts",
    "give repeat visits an identifier of their own, or take the row out",
  ),
  later_visit: rule(
    "note",
    "a later visit of the same person; the first visit counts",
    "nothing need be done",
  ),
  analyte_not_studied: rule(
    "note",
    "the row belongs to an analyte that the study file does not analyse",
    "add the analyte to the study file if it should be analysed",
  ),
  readers_disagree: rule(
    "note",
    "the readers disagree and the study file sets such people aside",
    "nothing need be done",
  ),
} as const;
