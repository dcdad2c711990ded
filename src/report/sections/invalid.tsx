import type { Invalid as InvalidOf } from "../../evaluation/document.ts";
import { flipsOf, nameOf } from "../answer-facts.ts";
import type { Report, SectionProps } from "../context.ts";
import { cellTitle, worded } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { CountsAndPercent, proportionText } from "../parts/numbers.tsx";
import { Section } from "../parts/section.tsx";
import { DataTable } from "../parts/table.tsx";
import { Choice, TwoMeasures } from "../parts/two-measures.tsx";

/** How often results were invalid, and what each way of counting them would give. */
export function Invalid({ report }: SectionProps) {
  const { invalid: words } = report.words;
  const cells = report.evaluation.invalid;
  const [main] = cells;
  return (
    <Section report={report} id="invalid">
      {main === undefined ? null : (
        <p>
          {words.lead(
            cellTitle(report, main),
            proportionText(report, main.firstAttempt),
            proportionText(report, main.final),
          )}
        </p>
      )}
      <Rates report={report} cells={cells} />
      <Treatments report={report} cells={cells} />
      <Flips report={report} />
      <Notes report={report} notes={cells.flatMap((cell) => cell.notes)} />
    </Section>
  );
}

function Rates({ report, cells }: { report: Report; cells: readonly InvalidOf[] }) {
  const { invalid: words, reasons } = report.words;
  return (
    <DataTable
      report={report}
      caption={words.ratesCaption}
      columns={[
        { head: words.columns.analyte, heading: true, cell: (cell) => cellTitle(report, cell) },
        {
          head: words.columns.first,
          kind: "number",
          cell: (cell) => <CountsAndPercent report={report} of={cell.firstAttempt} />,
        },
        {
          head: words.columns.final,
          kind: "number",
          cell: (cell) => <CountsAndPercent report={report} of={cell.final} />,
        },
        {
          head: words.columns.reasons,
          cell: (cell) =>
            cell.reasons
              .map(({ reason, people }) => words.reason(worded(reasons, reason), people))
              .join(", "),
        },
      ]}
      groups={[{ rows: cells }]}
    />
  );
}

function Treatments({ report, cells }: { report: Report; cells: readonly InvalidOf[] }) {
  const { invalid: words, codes } = report.words;
  const primary = report.evaluation.study.treatment.invalid;
  return (
    <TwoMeasures
      report={report}
      caption={words.treatmentsCaption}
      lead={words.treatmentsLead}
      note={words.howToRead}
      head={words.columns.treatment}
      groups={cells.map((cell) => ({
        cell,
        lines: cell.treatments.map(({ treatment, sensitivity, specificity }) => ({
          head: (
            <Choice
              report={report}
              name={codes.invalidTreatments[treatment]}
              primary={treatment === primary}
            />
          ),
          sensitivity,
          specificity,
        })),
      }))}
    />
  );
}

/** The verdicts that hang on the treatment of invalid results. */
function Flips({ report }: SectionProps) {
  const { invalid: words, answer: answerWords, codes } = report.words;
  const { answers } = report.evaluation;
  if (answers.length === 0) return null;
  const lines = answers.flatMap((answer) =>
    flipsOf(report, { ...answer, byWindowTreatment: [] }).map(({ verdict, invalid }) =>
      words.flip(
        nameOf(report, answer),
        codes.verdicts[answer.verdict],
        answerWords.flip(verdict, invalid, []),
      ),
    ),
  );
  if (lines.length === 0) return <p>{words.noFlip}</p>;
  return (
    <>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </>
  );
}
