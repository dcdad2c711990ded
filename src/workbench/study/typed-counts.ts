import { stringify } from "yaml";
import type { InputFile } from "../../records/model.ts";
import type { Selection, Study, StudyInput } from "../../records/study.ts";
import { textFile } from "./folder.ts";

/** What the table typed by hand asks for: the four counts, what they are counts of, and the choices. */
export interface TypedCounts {
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
  readonly trueNegatives: number;
  readonly kit: string;
  readonly condition: string;
  readonly specimen: string;
  readonly reference: string;
  readonly role: "reference_standard" | "comparator" | "imperfect";
  readonly selection: Selection;
  /** Smallest acceptable proportions; `null` where none was stated. */
  readonly sensitivityAtLeast: number | null;
  readonly specificityAtLeast: number | null;
  readonly interval: Study["interval"];
}

const HEAD = "# Made from a fourfold table typed by hand. Change what it says to say more of the study.\n";

/** A study folder of one fourfold table: study file, kit file and a table of one row. */
export function typedStudy(typed: TypedCounts): InputFile[] {
  return [
    textFile("study.yaml", HEAD + stringify(studyOf(typed))),
    textFile("kit.yaml", HEAD + stringify(kitOf(typed))),
    textFile("counts.csv", countsOf(typed)),
  ];
}

const ANALYTE = "condition";
const SPECIMEN = "specimen";

function studyOf(typed: TypedCounts): StudyInput {
  return {
    format: "fourfold-study/1",
    id: "typed-counts",
    title: `${typed.kit}: a fourfold table`,
    status: "draft",
    kit: "kit.yaml",
    arms: [{ id: "all", title: "Everyone counted", selection: typed.selection }],
    analytes: [
      {
        id: ANALYTE,
        title: typed.condition,
        reference: { title: typed.reference, role: typed.role, discrepancies: "not stated" },
      },
    ],
    specimens: [{ type: SPECIMEN, title: typed.specimen }],
    readers: { use: "primary", primary: "recorded" },
    criteria: criteriaOf(typed),
    treatment: { invalid: "set_aside", outside_window: "keep", repeat: "first" },
    interval: { ...typed.interval },
    seed: 1,
    records: {
      shape: "counts",
      table: "counts.csv",
      columns: {
        true_positives: "true_positives",
        false_positives: "false_positives",
        false_negatives: "false_negatives",
        true_negatives: "true_negatives",
      },
    },
  };
}

function criteriaOf({ sensitivityAtLeast, specificityAtLeast }: TypedCounts): StudyInput["criteria"] {
  const asked = [
    { id: "sensitivity", measure: "sensitivity" as const, at_least: sensitivityAtLeast },
    { id: "specificity", measure: "specificity" as const, at_least: specificityAtLeast },
  ];
  return asked.flatMap(({ at_least, ...criterion }) =>
    at_least === null ? [] : [{ ...criterion, analyte: ANALYTE, at_least, source: "typed beside the table" }],
  );
}

function kitOf({ kit }: TypedCounts) {
  return {
    format: "fourfold-kit/1",
    id: "kit",
    title: kit,
    specimens: [{ type: SPECIMEN }],
    repeat: { max_attempts: 1 },
    source: { title: "typed by hand; no instructions for use were given" },
  };
}

function countsOf(typed: TypedCounts): string {
  const row = [typed.truePositives, typed.falsePositives, typed.falseNegatives, typed.trueNegatives];
  return `true_positives,false_positives,false_negatives,true_negatives\n${row.join(",")}\n`;
}
