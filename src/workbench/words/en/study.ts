import { count } from "../../../report/formats.ts";

/** Words of the part in which a study is opened and its files are seen. */
export const study = {
  title: "Study",
  begin: {
    over: "Fourfold workbench",
    heading: "Open a study, or type a fourfold table",
    sub: "The report appears beside your files and follows every change. Everything is read and computed in this page; it has no way to send anything anywhere.",
    files: "From files",
    filesText:
      "A study folder holds study.yaml, a kit file and its tables. Choose it, or single files, or a ZIP archive of it; or drop them anywhere on this page.",
    folder: "Choose a folder",
    loose: "Choose files",
    demo: "The demonstration study",
    demoText:
      "An invented cassette for two analytes, 1,720 invented people at five invented clinics, faults planted on purpose.",
    openDemo: "Open the demonstration",
  },
  typed: {
    heading: "From four counts",
    text: "People by the rapid result and by the reference result.",
    caption: "Fourfold table to fill in",
    reference: "Reference",
    rapid: "Rapid test",
    positive: "positive",
    negative: "negative",
    reactive: "reactive",
    nonreactive: "non-reactive",
    cells: {
      truePositives: "true positives",
      falsePositives: "false positives",
      falseNegatives: "false negatives",
      trueNegatives: "true negatives",
    },
    kit: "Kit",
    kitGiven: "Rapid test",
    condition: "Condition or analyte",
    conditionGiven: "Condition",
    specimen: "Specimen",
    specimenGiven: "Specimen",
    referenceTest: "Reference test",
    referenceGiven: "Reference test",
    role: "The reference is",
    selection: "People came in as",
    choose: "choose …",
    sensitivity: "Sensitivity at least, %",
    specificity: "Specificity at least, %",
    optional: "empty: no criterion",
    method: "Interval",
    level: "Level, %",
    evaluate: "Evaluate these counts",
    how: "Makes a study of three small files that you can see, change and save.",
  },
  open: {
    over: "The study's files",
    readable: (title: string) => title,
    notReadable: "This study can't be read yet",
    notReadableText:
      "The faults below stand in the way. Mend the files and add them again under the same names.",
    files: "Files",
    filesCaption: "Files of the study",
    file: "File",
    size: "Size",
    rows: "Rows",
    used: "Used",
    setAside: "Set aside",
    notNamed: "not named by the study file",
    missing: "missing",
    remove: "Remove",
    removeFile: (name: string) => `Remove ${name}`,
    add: "Add or replace files",
    close: "Put the study away",
    issues: "Faults found",
    noIssues: "No fault was found in these files.",
    issuesCaption: "Faults, gravest first",
    issue: "Fault",
    where: "Where",
    consequence: "What became of it",
    place: (file: string, row: number | null, column: string | null) =>
      [file, row === null ? null : `row ${count(row)}`, column].filter((part) => part !== null).join(", "),
    first: (place: string, more: number) => (more === 0 ? place : `${place} and ${count(more)} more`),
    expected: (expected: string, received: string) => `expected ${expected}, received ${received}`,
    severities: { error: "error", warning: "warning", note: "note" },
    consequences: { row_set_aside: "row set aside", value_ignored: "value ignored", kept: "kept" },
  },
  bytes: (bytes: number) =>
    bytes < 1024
      ? `${bytes} bytes`
      : bytes < 1024 ** 2
        ? `${(bytes / 1024).toFixed(0)} KB`
        : `${(bytes / 1024 ** 2).toFixed(1)} MB`,
};
