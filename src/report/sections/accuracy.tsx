import type { Accuracy as AccuracyOf } from "../../evaluation/document.ts";
import { placeOf, type Report, type SectionProps } from "../context.ts";
import { cellTitle, isComparator, mainCell, speaksOfAgreement, termsOf } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { spanText } from "../parts/numbers.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { Clustered } from "./clustered.tsx";
import { CrossTable } from "./cross-table.tsx";
import { Measures, Ratios } from "./measures.tsx";

/** How often the kit is right, by analyte: the table of counts, the measures, the ratios. */
export function Accuracy({ report }: SectionProps) {
  const { accuracy: words } = report.words;
  const cells = report.evaluation.accuracy;
  return (
    <Section report={report} id="accuracy">
      <p>{cells.length === 0 ? words.none : leadOf(report)}</p>
      {cells.map((cell, place) => (
        <AnalytePart key={place} analyte={cell.analyte}>
          <CellPart report={report} cell={cell} first={place === 0} />
        </AnalytePart>
      ))}
    </Section>
  );
}

function leadOf(report: Report): string {
  const { accuracy: words } = report.words;
  const { analytes } = report.evaluation.study;
  const comparators = analytes.filter(isComparator).length;
  if (comparators === 0) return words.leadAccuracy;
  return comparators === analytes.length ? words.leadAgreement : words.leadMixed;
}

function CellPart({ report, cell, first }: { report: Report; cell: AccuracyOf; first: boolean }) {
  const { codes } = report.words;
  const title = cellTitle(report, cell);
  const agreement = speaksOfAgreement(report, cell.analyte);
  const main = mainCell(report.evaluation.accuracy, cell.analyte) === cell;
  const analyte = report.evaluation.study.analytes.find(({ id }) => id === cell.analyte);
  return (
    <>
      <h3>{title}</h3>
      <CrossTable report={report} cell={cell} explained={first} />
      <Measures report={report} cell={cell} explained={first} />
      {agreement ? null : <Ratios report={report} cell={cell} explained={first} />}
      <p>{regionText(report, cell)}</p>
      {main && cell.refused !== null ? <p>{codes.refused[cell.refused]}</p> : null}
      {analyte?.reference.role === "imperfect" ? <p>{imperfectText(report, cell.analyte)}</p> : null}
      <Notes report={report} notes={notesShown(cell, agreement)} />
      <Clustered report={report} cell={cell} explained={first} />
    </>
  );
}

/** That the reference errs, and where its errors are corrected. */
function imperfectText(report: Report, analyte: string): string {
  const { accuracy: words, page } = report.words;
  const place = placeOf(report, "reference");
  const corrected = report.evaluation.referenceErrors.some((errors) => errors.analyte === analyte);
  if (place === null || !corrected) return words.imperfect;
  return words.imperfectCorrected(page.seeSection(String(place.number), place.title));
}

const RATIOS = /^(?:positiveLikelihoodRatio|negativeLikelihoodRatio|diagnosticOddsRatio|youden)\b/;

/** Notes on what is on the page; what was refused is said in the report's own words. */
function notesShown({ notes, refused }: AccuracyOf, agreement: boolean): AccuracyOf["notes"] {
  return notes.filter(
    ({ code, path }) => code !== refused && code !== "half_added" && !(agreement && RATIOS.test(path)),
  );
}

/** The two measures together at the study's level. */
function regionText(report: Report, { analyte, jointRegion }: AccuracyOf): string {
  const { accuracy: words } = report.words;
  const limits = (side: { lower: number | null; upper: number | null }) =>
    spanText(report, { value: null, ...side });
  const [sensitivity, specificity] = [limits(jointRegion.sensitivity), limits(jointRegion.specificity)];
  if (sensitivity === null || specificity === null) return words.noRegion;
  return words.region(termsOf(report, analyte), jointRegion.level, sensitivity, specificity);
}
