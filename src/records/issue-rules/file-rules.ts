import { rule } from "./rule.ts";

/** Faults of a whole file, of its header, or of the study and kit files. */
export const FILE_RULES = {
  missing_file: rule(
    "error",
    "a file that the study names is not in the study folder",
    "put the file into the folder, or correct its name in the study file",
  ),
  yaml_syntax: rule("error", "the file is not valid YAML", "correct the line named; mind indents and colons"),
  wrong_field: rule(
    "error",
    "a field of the study or kit file does not hold what it should",
    "write what is expected; put text that looks like a number in quotes",
  ),
  unknown_field: rule(
    "error",
    "the study or kit file has a field that does not exist",
    "correct the name, or take the field out",
  ),
  unknown_name: rule(
    "error",
    "a field names something that is defined nowhere",
    "use a name that the study or kit file defines, or define it",
  ),
  reference_loop: rule(
    "error",
    "the reference algorithm can go round without end",
    "let each assay lead to a later assay or to a final status",
  ),
  not_utf8: rule(
    "error",
    "the file is not text in UTF-8",
    "save the table as CSV with the encoding UTF-8; other encodings are not guessed",
  ),
  empty_file: rule("error", "the file is empty", "export the table again, with its header"),
  no_rows: rule(
    "warning",
    "the table has a header and no rows",
    "export the table again if rows were expected",
  ),
  byte_order_mark: rule(
    "note",
    "the file begins with a byte order mark, which was skipped",
    "nothing need be done",
  ),
  missing_column: rule(
    "error",
    "a column that is needed is not in the header",
    "add the column, or correct its name in the header or in the study file",
  ),
  duplicate_header: rule(
    "error",
    "two columns bear the same name; the first was used",
    "give each column a name of its own",
  ),
  empty_header: rule(
    "warning",
    "a column has no name and was not read",
    "name the column, or take it out of the table",
  ),
  decimal_comma: rule(
    "note",
    "numbers are written with a decimal comma and were understood as such",
    "nothing need be done; a decimal point travels better",
  ),
} as const;
