import { hasLines, type Kit } from "./kit.ts";
import { showsAnalyte } from "./kit-cells.ts";
import { named } from "./named.ts";
import type { Study } from "./study.ts";
import type { Fault } from "./yaml-file.ts";

type Path = readonly (string | number)[];
type Instrument = Study["instruments"][number];

/** Names in what a study file says of pooling, instruments and panels, and what its records can't give. */
export function checkMeasuring(study: Study, fault: Fault): void {
  checkPooling(study, fault);
  study.instruments.forEach((instrument, index) => {
    checkInstrument(study, instrument, index, fault);
  });
  checkValues(study, fault);
  checkPanels(study, fault);
}

function checkPooling({ pooling, strata }: Study, fault: Fault): void {
  if (pooling === undefined) return;
  const ids = strata.map((stratum) => stratum.id);
  named(["pooling", "by"], pooling.by, ids, "a stratum of this file", fault);
  if (pooling.covariate === undefined) return;
  const path = ["pooling", "covariate"];
  if (pooling.covariate === pooling.by) fault(path, "another stratum than by", pooling.covariate);
  else named(path, pooling.covariate, ids, "a stratum of this file", fault);
}

function checkInstrument(study: Study, instrument: Instrument, index: number, fault: Fault): void {
  const path = ["instruments", index];
  const { reader, kit } = instrument;
  const overlaps = (other: Instrument) =>
    other.reader === reader && (other.kit === kit || other.kit === undefined || kit === undefined);
  if (study.instruments.findIndex(overlaps) < index) {
    fault(path, "one instrument for each reader and kit", kit ?? "every kit");
  }
  const analytes = study.analytes.map(({ id }) => id);
  for (const analyte of Object.keys(instrument.cutoffs ?? {})) {
    named([...path, "cutoffs", analyte], analyte, analytes, "an analyte of this file", fault);
  }
  const { records } = study;
  if (records.shape === "counts") fault(path, "no instrument: counts hold no readings", reader ?? "one");
  else if (records.shape === "lines") checkOfLines(instrument, path, fault);
  else checkOfResults(records, instrument, path, fault);
}

/** Lines: an instrument is one of the readers, sees a line where the intensity is high, by the kit's cut-offs. */
function checkOfLines({ reader, direction, cutoffs }: Instrument, path: Path, fault: Fault): void {
  if (reader === undefined) fault(path, "the reader that is the instrument", undefined);
  if (direction === "lower") fault([...path, "direction"], "higher: a line has more intensity", direction);
  if (cutoffs !== undefined) {
    const expected = "no cutoffs: with line-level records the kit file states them, line by line";
    fault([...path, "cutoffs"], expected, Object.keys(cutoffs).join(", "));
  }
}

type ResultRecords = Extract<Study["records"], { shape: "results" }>;

function checkOfResults(
  { columns, analytes }: ResultRecords,
  { reader, kit }: Instrument,
  path: Path,
  fault: Fault,
): void {
  if (columns.reader === undefined && reader !== undefined) {
    fault([...path, "reader"], "no reader: these records name none", reader);
  }
  if (columns.reader !== undefined && reader === undefined) {
    fault(path, "the reader that is the instrument, as the records name readers", undefined);
  }
  const measured = analytes.filter(({ value }) => value !== undefined);
  const here = measured.filter((entry) => kit === undefined || entry.kit === kit || entry.kit === undefined);
  if (here.length > 0) return;
  fault(path, "a value column in records.analytes for what it measures", kit ?? "none");
}

/** Columns of numbers have an instrument that says what the numbers are. */
function checkValues({ records, instruments }: Study, fault: Fault): void {
  if (records.shape !== "results") return;
  records.analytes.forEach(({ value, probability }, index) => {
    const path = ["records", "analytes", index];
    if (value !== undefined && instruments.length === 0) {
      fault([...path, "value"], "instruments in this file, which say what the number is", value);
    }
    if (probability === true && instruments.some(({ direction }) => direction === "lower")) {
      fault([...path, "probability"], "no probability where lower readings speak for the condition", true);
    }
    if (value === undefined && probability !== undefined) {
      fault([...path, "probability"], "a value column beside it", probability);
    }
  });
}

function checkPanels({ analytes, panels }: Study, fault: Fault): void {
  const ids = analytes.map(({ id }) => id);
  panels.forEach(({ analyte, table }, index) => {
    named(["panels", index, "analyte"], analyte, ids, "an analyte of this file", fault);
    if (panels.findIndex((panel) => panel.table === table) < index) {
      fault(["panels", index, "table"], "a table of its own", table);
    }
  });
}

/** Faults between the kits and what the study file says of instruments and panels. */
export function checkMeasuringKits(study: Study, kits: readonly Kit[], fault: Fault): void {
  const ids = kits.map((kit) => kit.id);
  study.instruments.forEach(({ kit }, index) => {
    const path = ["instruments", index, ...(kit === undefined ? [] : ["kit"])];
    if (kit !== undefined) named(path, kit, ids, "a kit of this study", fault);
    if (study.records.shape !== "lines" || (kit !== undefined && !ids.includes(kit))) return;
    const meant = kits.filter((entry) => kit === undefined || entry.id === kit);
    if (meant.some((entry) => entry.instrument !== undefined)) return;
    fault(path, "a kit file with an instrument and its cutoffs", kit ?? ids.join(", "));
  });
  study.panels.forEach(({ kit, analyte }, index) => {
    const path = ["panels", index, ...(kit === undefined ? [] : ["kit"])];
    if (kit !== undefined) named(path, kit, ids, "a kit of this study", fault);
    const found = kits.find(({ id }) => id === (kit ?? ids[0]));
    if (found === undefined || showsAnalyte(study, kits, found, analyte) || !hasLines(found)) return;
    fault(path, `a kit that shows ${analyte}`, found.id);
  });
}
