import { stringify } from "yaml";
import { demand } from "../../../core/check.ts";
import type { InputFile } from "../../../records/model.ts";
import type { StudyInput } from "../../../records/study.ts";
import { textFile } from "../folder.ts";
import { type About, AboutSchema, columnsOf, type Mapping, type Meaning } from "./mapping.ts";
import type { TablePreview } from "./table-preview.ts";

const HEAD =
  "# Made from a table whose columns were pointed out. A draft: change what it says to say more of the study.\n";

/**
 * Study file and kit file for a table, as drafts. The table itself is left as it is.
 * Throws an `InputError` where what must be said of the table was not: see `lacking`.
 */
export function mappedStudy(mapping: Mapping, preview: TablePreview): InputFile[] {
  const about = demand(AboutSchema, mapping.about, "about");
  const specimens = namesIn(mapping, preview, "specimen") ?? [{ id: "specimen", title: about.specimen }];
  return [
    textFile("study.yaml", HEAD + stringify(studyOf(mapping, preview, about, specimens))),
    textFile("kit.yaml", HEAD + stringify(kitOf(about, specimens))),
  ];
}

interface Named {
  readonly id: string;
  readonly title: string;
}

const ANALYTE = "condition";

function studyOf(
  mapping: Mapping,
  preview: TablePreview,
  about: About,
  specimens: readonly Named[],
): StudyInput {
  const analytes = namesIn(mapping, preview, "analyte") ?? [{ id: ANALYTE, title: about.condition }];
  const reader = columnsOf(mapping, "reader")[0];
  return {
    format: "fourfold-study/1",
    id: "mapped",
    title: `${about.kit} against ${about.reference}`,
    status: "draft",
    kit: "kit.yaml",
    arms: [{ id: "all", title: "Everyone in the table", selection: about.selection }],
    analytes: analytes.map((analyte) => ({
      ...analyte,
      reference: { title: about.reference, role: about.role, discrepancies: about.discrepancies },
    })),
    specimens: specimens.map(({ id, title }) => ({ type: id, title })),
    readers: reader === undefined ? { use: "primary", primary: "recorded" } : { use: "each" },
    strata: strataOf(mapping),
    treatment: { invalid: about.invalid, outside_window: about.outside_window, repeat: about.repeat },
    interval: about.interval,
    seed: 1,
    records: mapping.shape === "results" ? resultsOf(mapping) : countsOf(mapping),
  };
}

function strataOf(mapping: Mapping): NonNullable<StudyInput["strata"]> {
  const columns = [...columnsOf(mapping, "site"), ...columnsOf(mapping, "group")];
  return columns.map((column, place) => ({
    id: `group-${place + 1}`,
    title: column,
    column,
    planned: false,
  }));
}

function resultsOf(mapping: Mapping): StudyInput["records"] {
  const column = (meaning: Meaning) => columnsOf(mapping, meaning)[0] ?? "";
  const codes = <Code extends string>(of: Readonly<Record<string, Code | "">>, code: Code) =>
    Object.keys(of).filter((text) => of[text] === code);
  const { rapid, reference } = mapping;
  return {
    shape: "results",
    table: mapping.table,
    columns: present(mapping, ["person", "device", "specimen", "reader", "site", "selection", "minutes"]),
    analytes: [{ analyte: ANALYTE, rapid: column("rapid"), reference: column("reference") }],
    codes: {
      rapid: {
        reactive: codes(rapid, "reactive"),
        nonreactive: codes(rapid, "nonreactive"),
        invalid: codes(rapid, "invalid"),
        not_done: codes(rapid, "not_done"),
      },
      reference: {
        positive: codes(reference, "positive"),
        negative: codes(reference, "negative"),
        indeterminate: codes(reference, "indeterminate"),
        not_done: codes(reference, "not_done"),
      },
    },
  };
}

function countsOf(mapping: Mapping): StudyInput["records"] {
  const column = (meaning: Meaning) => columnsOf(mapping, meaning)[0] ?? "";
  return {
    shape: "counts",
    table: mapping.table,
    columns: {
      ...present(mapping, ["analyte", "specimen"]),
      true_positives: column("true_positives"),
      false_positives: column("false_positives"),
      false_negatives: column("false_negatives"),
      true_negatives: column("true_negatives"),
      ...present(mapping, ["invalid_positives", "invalid_negatives"]),
    },
  };
}

function present<Name extends Meaning>(
  mapping: Mapping,
  names: readonly Name[],
): Partial<Record<Name, string>> {
  const found = names.flatMap((name) => columnsOf(mapping, name).map((column) => [name, column]));
  return Object.fromEntries(found) as Partial<Record<Name, string>>;
}

function kitOf(about: About, specimens: readonly Named[]) {
  return {
    format: "fourfold-kit/1",
    id: "kit",
    title: about.kit,
    specimens: specimens.map(({ id }) => ({ type: id })),
    ...(about.reading_window === undefined ? {} : { reading_window: about.reading_window }),
    repeat: { max_attempts: about.max_attempts },
    source: { title: "said beside the table; no instructions for use were given" },
  };
}

/** The names in a column that is mapped to a meaning; `null` where none is. */
function namesIn(mapping: Mapping, preview: TablePreview, meaning: "specimen" | "analyte"): Named[] | null {
  const [column] = columnsOf(mapping, meaning);
  const found = preview.columns.find(({ name }) => name === column);
  if (column === undefined || found === undefined) return null;
  return found.values.map(({ text }) => ({ id: text, title: text }));
}
