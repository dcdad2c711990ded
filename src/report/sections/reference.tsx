import type { Evaluation } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { ReferenceTree } from "../figures/reference-tree.tsx";
import { Drawing } from "../parts/drawing.tsx";
import { AnalytePart } from "../parts/section.tsx";

type Analyte = Evaluation["study"]["analytes"][number];

/** How each analyte's status was reached, and what kind of reference that is. */
export function Reference({ report }: SectionProps) {
  return (
    <>
      {report.evaluation.study.analytes.map((analyte) => (
        <AnalytePart key={analyte.id} analyte={analyte.id}>
          <OneReference report={report} analyte={analyte} />
        </AnalytePart>
      ))}
    </>
  );
}

function OneReference({ report, analyte }: { report: Report; analyte: Analyte }) {
  const { study: words, codes } = report.words;
  const { reference } = analyte;
  return (
    <>
      <p>
        <b>{analyte.title}.</b> {words.reference(reference.title, codes.roles[reference.role])}{" "}
        {words.discrepancies(reference.discrepancies)}
      </p>
      {reference.algorithm === undefined ? (
        <p class="how">{words.noAlgorithm}</p>
      ) : (
        <Drawing label={words.algorithmCaption(analyte.title)}>
          <ReferenceTree analyte={analyte.title} algorithm={reference.algorithm} />
        </Drawing>
      )}
    </>
  );
}
