import { checkMeasuringKits } from "./check-measuring.ts";
import { comparisonSide } from "./comparison-sides.ts";
import type { IssueLog } from "./issues.ts";
import { hasLines, type Kit } from "./kit.ts";
import { accepts, hasLineFor, showsAnalyte } from "./kit-cells.ts";
import { named } from "./named.ts";
import type { Study } from "./study.ts";
import { type Fault, fieldPlace, type YamlFile } from "./yaml-file.ts";

type Path = readonly (string | number)[];

/** Faults between a study and its kits, the main one first. */
export function checkStudyAgainstKits(
  file: string,
  read: YamlFile<Study>,
  kits: readonly Kit[],
  issues: IssueLog,
): void {
  const fault: Fault = (path, expected, received) => {
    issues.add("unknown_name", fieldPlace(file, path, read.lineOf), expected, received, "value_ignored");
  };
  const study = read.value;
  const ids = kits.map((kit) => kit.id);
  kits.forEach((kit, index) => {
    const path = study.kits === undefined ? ["kit"] : ["kits", index];
    if (ids.indexOf(kit.id) < index) fault(path, "a kit with an id of its own", kit.id);
    else if (study.records.shape === "lines" && !hasLines(kit)) {
      fault(path, "a kit file with lines, since the records are lines", study.kits?.[index] ?? study.kit);
    } else if (index === 0) checkMainKit(study, kit, fault);
    else checkFurtherKit({ study, kits }, kit, path, fault);
  });
  checkMappedKits(study, kits, fault);
  checkWideLines(study, kits, fault);
  checkCriteria(study, kits, fault);
  checkComparisons(study, kits, fault);
  checkLatentSides(study, kits, fault);
  checkMeasuringKits(study, kits, fault);
}

/** The main kit shows every analyte and accepts every specimen type of the study. */
function checkMainKit(study: Study, kit: Kit, fault: Fault): void {
  const shown = kit.lines.flatMap((line) => (line.role === "test" ? [line.analyte] : []));
  if (hasLines(kit)) {
    study.analytes.forEach(({ id }, index) => {
      named(["analytes", index, "id"], id, shown, "an analyte that a line of the kit shows", fault);
    });
  }
  const types = kit.specimens.map((specimen) => specimen.type);
  study.specimens.forEach(({ type }, index) => {
    named(["specimens", index, "type"], type, types, "a specimen type of the kit file", fault);
  });
}

interface Plan {
  readonly study: Study;
  readonly kits: readonly Kit[];
}

/** A further kit may show some of the analytes and accept some of the specimen types, not none. */
function checkFurtherKit({ study, kits }: Plan, kit: Kit, path: Path, fault: Fault): void {
  if (!study.analytes.some(({ id }) => showsAnalyte(study, kits, kit, id))) {
    const where = study.records.shape === "results" ? "with columns in records.analytes" : "with a line";
    fault(path, `a kit ${where} for an analyte of this file`, kit.id);
  }
  if (!study.specimens.some(({ type }) => accepts(kit, type))) {
    fault(path, "a kit that accepts a specimen type of this file", kit.id);
  }
}

/** Which kit the columns of result-level records and of counts belong to. */
function checkMappedKits(study: Study, kits: readonly Kit[], fault: Fault): void {
  const { records } = study;
  if (records.shape === "counts" && records.columns.kit === undefined && kits.length > 1) {
    fault(["records", "columns"], "a column for the kit, as the study has several", undefined);
  }
  if (records.shape !== "results") return;
  const ids = kits.map((kit) => kit.id);
  const keys = records.analytes.map(({ analyte, kit }) => `${kit ?? ids[0]} for ${analyte}`);
  records.analytes.forEach(({ analyte, kit = ids[0] ?? "" }, index) => {
    const path = ["records", "analytes", index];
    named([...path, "kit"], kit, ids, "a kit of this study", fault);
    if (keys.indexOf(keys[index] ?? "") < index) fault(path, "each analyte once for each kit", keys[index]);
    const found = kits.find(({ id }) => id === kit);
    if (found === undefined || !hasLines(found) || hasLineFor(found, analyte)) return;
    if (found !== kits[0]) fault([...path, "analyte"], `an analyte that a line of ${kit} shows`, analyte);
  });
  for (const { id } of study.analytes) {
    const mapped = records.analytes.some(({ analyte }) => analyte === id);
    if (!mapped || keys.includes(`${ids[0]} for ${id}`)) continue;
    fault(["records", "analytes"], `the result columns of the main kit, ${ids[0]}, for ${id}`, undefined);
  }
}

/** The wide form has a column for each line of each kit; kits share the column of a line named alike. */
function checkWideLines(study: Study, kits: readonly Kit[], fault: Fault): void {
  if (study.records.shape !== "lines" || study.records.wide_readings === undefined) return;
  const path = ["records", "wide_readings", "lines"];
  const columns = study.records.wide_readings.lines;
  const lines = [...new Set(kits.flatMap((kit) => kit.lines.map((line) => line.id)))];
  for (const line of Object.keys(columns))
    named([...path, line], line, lines, "a line of the kit file", fault);
  for (const line of lines) {
    if (!Object.hasOwn(columns, line)) fault(path, `a column for the line ${line}`, undefined);
  }
}

function checkCriteria(study: Study, kits: readonly Kit[], fault: Fault): void {
  study.criteria.forEach(({ analyte, kit, specimen }, index) => {
    if (kit === undefined) return;
    const side = { kit, specimen: specimen ?? study.specimens[0]?.type ?? "" };
    checkCell(side, analyte, ["criteria", index, "kit"], { study, kits }, fault);
  });
}

/** Each side names a kit that shows the analyte, and the two sides are not the same. */
function checkComparisons(study: Study, kits: readonly Kit[], fault: Fault): void {
  const [main] = kits;
  if (main === undefined) return;
  study.comparisons.forEach((comparison, index) => {
    const path = ["comparisons", index];
    const first = comparisonSide(comparison.first, study, main);
    const second = comparisonSide(comparison.second, study, main);
    for (const [name, side] of Object.entries({ first, second })) {
      checkCell(side, comparison.analyte, [...path, name, "kit"], { study, kits }, fault);
    }
    const { kit, specimen, reader } = second;
    if (first.kit !== kit || first.specimen !== specimen || first.reader !== reader) return;
    const same = `${kit}, ${specimen}${reader === null ? "" : `, ${reader}`}, as the first`;
    fault([...path, "second"], "a side that differs from the first", same);
  });
}

/** Each test of a latent class model names a kit that shows the analyte, and no two tests are the same. */
function checkLatentSides(study: Study, kits: readonly Kit[], fault: Fault): void {
  const [main] = kits;
  if (main === undefined) return;
  study.latent_class.forEach(({ analyte, tests }, index) => {
    const known = new Set<string>();
    tests.forEach((test, place) => {
      if (test.reference) return;
      const path = ["latent_class", index, "tests", place];
      const side = comparisonSide(test, study, main);
      checkCell(side, analyte, [...path, "kit"], { study, kits }, fault);
      const key = `${side.kit}, ${side.specimen}${side.reader === null ? "" : `, ${side.reader}`}`;
      if (known.has(key)) fault(path, "a test that differs from those before it", key);
      known.add(key);
    });
  });
}

/** The kit is known, shows the analyte and accepts the specimen type. */
function checkCell(
  { kit, specimen }: { readonly kit: string; readonly specimen: string },
  analyte: string,
  path: Path,
  { study, kits }: Plan,
  fault: Fault,
): void {
  named(
    path,
    kit,
    kits.map(({ id }) => id),
    "a kit of this study",
    fault,
  );
  const found = kits.find(({ id }) => id === kit);
  if (found === undefined) return;
  if (!showsAnalyte(study, kits, found, analyte)) fault(path, `a kit that shows ${analyte}`, kit);
  if (!accepts(found, specimen)) fault(path, `a kit that accepts ${specimen}`, kit);
}
