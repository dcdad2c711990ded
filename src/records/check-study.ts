import { checkAlgorithm } from "./check-algorithm.ts";
import type { IssueLog } from "./issues.ts";
import { hasLines, type Kit } from "./kit.ts";
import { suggestion } from "./nearest.ts";
import type { Study } from "./study.ts";
import { type Fault, fieldPlace, type YamlFile } from "./yaml-file.ts";

type Path = readonly (string | number)[];

/** Faults between the fields of a study file: names that nothing defines, and names given twice. */
export function checkStudy(file: string, read: YamlFile<Study>, issues: IssueLog): void {
  const study = read.value;
  const fault: Fault = (path, expected, received) => {
    issues.add("unknown_name", fieldPlace(file, path, read.lineOf), expected, received, "value_ignored");
  };
  checkUnique(study, fault);
  checkCriteria(study, fault);
  checkPrevalences(study, fault);
  checkStrata(study, fault);
  checkRecords(study, fault);
  study.analytes.forEach((analyte, index) => {
    const path = ["analytes", index, "reference", "algorithm"];
    if (analyte.reference.algorithm === undefined) {
      if (study.records.shape === "lines") {
        fault(path.slice(0, -1), "an algorithm: line-level records need one for each analyte", undefined);
      }
      return;
    }
    checkAlgorithm(analyte.reference.algorithm, path, fault, (at, expected, received) => {
      issues.add("reference_loop", fieldPlace(file, at, read.lineOf), expected, received, "value_ignored");
    });
  });
}

/** Faults between study and kit: analytes, specimens. */
export function checkStudyAgainstKit(file: string, read: YamlFile<Study>, kit: Kit, issues: IssueLog): void {
  const fault: Fault = (path, expected, received) => {
    issues.add("unknown_name", fieldPlace(file, path, read.lineOf), expected, received, "value_ignored");
  };
  const study = read.value;
  const shown = kit.lines.flatMap((line) => (line.role === "test" ? [line.analyte] : []));
  if (hasLines(kit)) {
    study.analytes.forEach((analyte, index) => {
      named(["analytes", index, "id"], analyte.id, shown, "an analyte that a line of the kit shows", fault);
    });
  } else if (study.records.shape === "lines") {
    fault(["kit"], "a kit file with lines, since the records are lines", study.kit);
  }
  const types = kit.specimens.map((specimen) => specimen.type);
  study.specimens.forEach((specimen, index) => {
    named(["specimens", index, "type"], specimen.type, types, "a specimen type of the kit file", fault);
  });
  if (study.records.shape !== "lines" || study.records.wide_readings === undefined) return;
  const lines = kit.lines.map((line) => line.id);
  for (const line of Object.keys(study.records.wide_readings.lines)) {
    named(["records", "wide_readings", "lines", line], line, lines, "a line of the kit file", fault);
  }
  for (const line of lines) {
    if (Object.hasOwn(study.records.wide_readings.lines, line)) continue;
    fault(["records", "wide_readings", "lines"], `a column for the line ${line}`, undefined);
  }
}

function named(path: Path, name: string, known: readonly string[], what: string, fault: Fault): void {
  if (!known.includes(name)) fault(path, `${what}${suggestion(name, known)}`, name);
}

function checkUnique(study: Study, fault: Fault): void {
  const lists = {
    sites: study.sites.map((site) => site.id),
    arms: study.arms.map((arm) => arm.id),
    analytes: study.analytes.map((analyte) => analyte.id),
    specimens: study.specimens.map((specimen) => specimen.type),
    criteria: study.criteria.map((criterion) => criterion.id),
    prevalences: study.prevalences.map((programme) => programme.id),
    strata: study.strata.map((stratum) => stratum.id),
  };
  for (const [field, names] of Object.entries(lists)) {
    names.forEach((name, index) => {
      const key = field === "specimens" ? "type" : "id";
      if (names.indexOf(name) < index) fault([field, index, key], "each name once", name);
    });
  }
}

function checkCriteria(study: Study, fault: Fault): void {
  const analytes = study.analytes.map((analyte) => analyte.id);
  const specimens = study.specimens.map((specimen) => specimen.type);
  study.criteria.forEach((criterion, index) => {
    named(["criteria", index, "analyte"], criterion.analyte, analytes, "an analyte of this file", fault);
    if (criterion.specimen === undefined) return;
    const path = ["criteria", index, "specimen"];
    named(path, criterion.specimen, specimens, "a specimen type of this file", fault);
  });
}

function checkPrevalences(study: Study, fault: Fault): void {
  const analytes = study.analytes.map((analyte) => analyte.id);
  study.prevalences.forEach((programme, index) => {
    for (const analyte of Object.keys(programme.values)) {
      named(["prevalences", index, "values", analyte], analyte, analytes, "an analyte of this file", fault);
    }
  });
}

function checkStrata(study: Study, fault: Fault): void {
  study.strata.forEach((stratum, index) => {
    const lines = study.records.shape === "lines" ? study.records : null;
    if (lines === null) {
      if (stratum.table !== undefined) {
        fault(["strata", index, "table"], "no table: these records have only one", stratum.table);
      }
      return;
    }
    if (stratum.table === undefined) {
      fault(
        ["strata", index],
        "the table that holds the column (line-level records have several)",
        undefined,
      );
      return;
    }
    if (lines[stratum.table] === undefined) {
      fault(
        ["strata", index, "table"],
        `a table that records names (${stratum.table} is not)`,
        stratum.table,
      );
    }
  });
}

function checkRecords(study: Study, fault: Fault): void {
  const records = study.records;
  if (records.shape === "lines") {
    const both = records.line_readings !== undefined && records.wide_readings !== undefined;
    const neither = records.line_readings === undefined && records.wide_readings === undefined;
    if (both || neither) {
      fault(["records"], "either line_readings or wide_readings", both ? "both" : undefined);
    }
    return;
  }
  const analytes = study.analytes.map((analyte) => analyte.id);
  if (records.shape === "results") {
    records.analytes.forEach((mapped, index) => {
      named(
        ["records", "analytes", index, "analyte"],
        mapped.analyte,
        analytes,
        "an analyte of this file",
        fault,
      );
    });
    for (const analyte of analytes) {
      if (!records.analytes.some((mapped) => mapped.analyte === analyte)) {
        fault(["records", "analytes"], `the result columns of the analyte ${analyte}`, undefined);
      }
    }
    checkCodes(records.codes.rapid, ["records", "codes", "rapid"], fault);
    checkCodes(records.codes.reference, ["records", "codes", "reference"], fault);
    return;
  }
  if (records.columns.analyte === undefined && analytes.length > 1) {
    fault(["records", "columns"], "a column for the analyte, as the study has several", undefined);
  }
  if (records.columns.specimen === undefined && study.specimens.length > 1) {
    fault(["records", "columns"], "a column for the specimen type, as the study has several", undefined);
  }
}

/** One code cannot mean two results. */
function checkCodes(codes: Readonly<Record<string, readonly string[]>>, path: Path, fault: Fault): void {
  const seen = new Map<string, string>();
  for (const [result, list] of Object.entries(codes)) {
    list.forEach((code, index) => {
      const key = code.trim().toLowerCase();
      const other = seen.get(key);
      if (other !== undefined)
        fault([...path, result, index], `each code once (it also means ${other})`, code);
      seen.set(key, result);
    });
  }
}
