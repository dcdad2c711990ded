import type { Evaluation } from "../evaluation/document.ts";
import type { Report } from "./context.ts";
import type { Words } from "./words/en.ts";

type Analyte = Evaluation["study"]["analytes"][number];

/** One analyte, kit, specimen type and reader: what a table or figure is about. */
export interface Cell {
  readonly analyte: string;
  readonly kit: string;
  readonly specimen: string;
  readonly reader: string;
}

/** Whether the comparison method of an analyte is no reference standard: all words change then. */
export function isComparator(analyte: Analyte): boolean {
  return analyte.reference.role === "comparator";
}

function analyteOf(report: Report, id: string): Analyte | undefined {
  return report.evaluation.study.analytes.find((analyte) => analyte.id === id);
}

export function analyteTitle(report: Report, id: string): string {
  return analyteOf(report, id)?.title ?? id;
}

/** Whether the report may speak of an analyte in terms of agreement only. */
export function speaksOfAgreement(report: Report, id: string): boolean {
  const analyte = analyteOf(report, id);
  return analyte !== undefined && isComparator(analyte);
}

/** What the measures of an analyte are called. */
export function termsOf(report: Report, id: string): Words["terms"]["accuracy"] {
  return speaksOfAgreement(report, id) ? report.words.terms.agreement : report.words.terms.accuracy;
}

/** A specimen type in words, as it stands inside a sentence. */
export function specimenTitle(report: Report, type: string): string {
  const found = report.evaluation.study.specimens.find((specimen) => specimen.type === type);
  return found === undefined ? type : report.words.grammar.inline(found.title);
}

/** The specimen's title where the study has several types, else `null`: it need not be said. */
export function toldSpecimen(report: Report, type: string): string | null {
  return report.evaluation.study.specimens.length > 1 ? specimenTitle(report, type) : null;
}

/** A kit by the first words of its title, or by all of them where the first do not tell it apart. */
export function kitTitle(report: Report, id: string): string {
  const { kits } = report.evaluation;
  const title = kits.find((kit) => kit.id === id)?.title;
  if (title === undefined) return id;
  const short = (text: string) => text.split(/[,;(]/)[0]?.trim() ?? text;
  const alike = kits.filter((kit) => short(kit.title) === short(title));
  return alike.length === 1 && short(title) !== "" ? short(title) : title;
}

/** The kit's title where the study has several kits, else `null`: it need not be said. */
export function toldKit(report: Report, id: string): string | null {
  return report.evaluation.kits.length > 1 ? kitTitle(report, id) : null;
}

/** The reader where results of several readers stand side by side, else `null`. */
export function toldReader(report: Report, reader: string): string | null {
  const readers = new Set(report.evaluation.accuracy.map((accuracy) => accuracy.reader));
  return readers.size > 1 ? report.words.general.reader(reader) : null;
}

/** "HBsAg, venous whole blood"; with the kit where the study has several. */
export function cellTitle(report: Report, cell: Cell): string {
  return report.words.general.cell(
    analyteTitle(report, cell.analyte),
    toldKit(report, cell.kit),
    toldSpecimen(report, cell.specimen),
    toldReader(report, cell.reader),
  );
}

export function siteTitle(report: Report, id: string): string {
  return report.evaluation.study.sites.find((site) => site.id === id)?.title ?? id;
}

/** A code in words; one that has none is shown with spaces for its underscores. */
export function worded(table: Readonly<Record<string, string>>, code: string): string {
  return Object.hasOwn(table, code) ? (table[code] ?? code) : code.replaceAll("_", " ");
}

/** What a code of an alarm stands for: analyte, site, arm, way of selection, or itself. */
export function subjectTitle(report: Report, code: string): string {
  const { analytes, sites, arms } = report.evaluation.study;
  const titled = [...analytes, ...sites, ...arms].find(({ id }) => id === code)?.title;
  const { selections } = report.words.codes;
  return titled ?? (Object.hasOwn(selections, code) ? worded(selections, code) : code);
}

/** The first cell of an analyte: main kit, primary specimen, primary reader. */
export function mainCell<Item extends Cell>(items: readonly Item[], analyte: string): Item | undefined {
  return items.find((item) => item.analyte === analyte);
}

const CELL = ["analyte", "kit", "specimen", "reader"] as const;

export function sameCell(one: Cell, other: Cell): boolean {
  return CELL.every((part) => one[part] === other[part]);
}

/** A piece of an id or a file name: letters, digits and dashes only. */
export function slug(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
}
