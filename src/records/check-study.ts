import { checkAlgorithm } from "./check-algorithm.ts";
import { checkMeasuring } from "./check-measuring.ts";
import { checkReference } from "./check-reference.ts";
import { readersKnown } from "./comparison-sides.ts";
import type { IssueLog } from "./issues.ts";
import { named } from "./named.ts";
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
  checkComparisons(study, fault);
  checkStrata(study, fault);
  checkCluster(study, fault);
  checkDecision(study, fault);
  checkReference(study, fault);
  checkMeasuring(study, fault);
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

function checkUnique(study: Study, fault: Fault): void {
  const lists = {
    sites: study.sites.map((site) => site.id),
    arms: study.arms.map((arm) => arm.id),
    analytes: study.analytes.map((analyte) => analyte.id),
    specimens: study.specimens.map((specimen) => specimen.type),
    criteria: study.criteria.map((criterion) => criterion.id),
    prevalences: study.prevalences.map((programme) => programme.id),
    strata: study.strata.map((stratum) => stratum.id),
    comparisons: study.comparisons.map((comparison) => comparison.id),
    latent_class: study.latent_class.map((model) => model.id),
    panels: study.panels.map((panel) => panel.id),
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
    for (const field of ["values", "observed"] as const) {
      for (const analyte of Object.keys(programme[field] ?? {})) {
        named(["prevalences", index, field, analyte], analyte, analytes, "an analyte of this file", fault);
      }
    }
  });
}

/** Names of this file in the comparisons; kits, and whether the sides differ, need the kit files. */
function checkComparisons(study: Study, fault: Fault): void {
  const analytes = study.analytes.map((analyte) => analyte.id);
  const specimens = study.specimens.map((specimen) => specimen.type);
  const readers = readersKnown(study);
  study.comparisons.forEach((comparison, index) => {
    const path = ["comparisons", index];
    named([...path, "analyte"], comparison.analyte, analytes, "an analyte of this file", fault);
    for (const side of ["first", "second"] as const) {
      const { specimen, reader } = comparison[side];
      if (specimen !== undefined) {
        named([...path, side, "specimen"], specimen, specimens, "a specimen type of this file", fault);
      }
      checkReader([...path, side, "reader"], reader, readers, fault);
    }
  });
  study.latent_class.forEach(({ tests }, index) => {
    tests.forEach(({ reader }, place) => {
      checkReader(["latent_class", index, "tests", place, "reader"], reader, readers, fault);
    });
  });
}

function checkReader(
  path: Path,
  reader: string | undefined,
  known: readonly string[] | null,
  fault: Fault,
): void {
  if (reader === undefined || known === null || known.includes(reader)) return;
  fault(path, "no reader: these records name none", reader);
}

/** People of one group are alike: the groups are a stratum's, or each person is one. */
function checkCluster(study: Study, fault: Fault): void {
  const strata = study.strata.map((stratum) => stratum.id);
  study.strata.forEach(({ id }, index) => {
    if (id === PERSON) fault(["strata", index, "id"], "another name: person stands for people", id);
  });
  if (study.cluster === undefined) return;
  named(["cluster"], study.cluster, [...strata, PERSON], `a stratum of this file, or ${PERSON}`, fault);
}

const PERSON = "person";

/** The order of judging names each criterion once at most. */
function checkDecision(study: Study, fault: Fault): void {
  const criteria = study.criteria.map((criterion) => criterion.id);
  const order = study.decision.order ?? [];
  order.forEach((name, index) => {
    const path = ["decision", "order", index];
    named(path, name, criteria, "a criterion of this file", fault);
    if (order.indexOf(name) < index) fault(path, "each criterion once", name);
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
    checkMapped(records.analytes, analytes, fault);
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

type Mapped = Extract<Study["records"], { shape: "results" }>["analytes"];

/** Every analyte has its columns; kits share the reference column of an analyte, as people have one status. */
function checkMapped(mapped: Mapped, analytes: readonly string[], fault: Fault): void {
  mapped.forEach(({ analyte, rapid, reference }, index) => {
    const path = ["records", "analytes", index];
    named([...path, "analyte"], analyte, analytes, "an analyte of this file", fault);
    const taken = mapped.findIndex((entry) => entry.rapid === rapid);
    if (taken < index) fault([...path, "rapid"], "a result column of its own", rapid);
    const known = mapped.find((entry) => entry.analyte === analyte)?.reference;
    if (known === reference) return;
    fault([...path, "reference"], `one reference column for ${analyte}, ${known} as above`, reference);
  });
  for (const analyte of analytes) {
    if (mapped.some((entry) => entry.analyte === analyte)) continue;
    fault(["records", "analytes"], `the result columns of the analyte ${analyte}`, undefined);
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
