import type { Answer, Decision as DecisionOf } from "../../evaluation/document.ts";
import { nameOf } from "../answer-facts.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { Notes } from "../parts/notes.tsx";
import { pText } from "../parts/numbers.tsx";
import { Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { Verdict } from "../parts/verdict.tsx";
import { Assurances } from "./assurances.tsx";
import { jointText, Together } from "./together.tsx";

/** The primary criteria as a family, and what more people would settle. */
export function Decision({ report }: SectionProps) {
  const { decision } = report.evaluation;
  return (
    <Section report={report} id="decision">
      {decision === null ? null : <Family report={report} decision={decision} />}
      <Assurances report={report} />
    </Section>
  );
}

type Line = DecisionOf["criteria"][number];

function Family({ report, decision }: { report: Report; decision: DecisionOf }) {
  const { decision: words } = report.words;
  return (
    <>
      <p>
        <Together report={report} withJoint={false} /> {words.lead[decision.control]}
      </p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report, decision)}
        groups={[{ rows: decision.criteria }]}
        note={words.howToRead}
      />
      {decision.criteria.length < 2 ? null : <p>{jointText(report, decision)}</p>}
      <Notes report={report} notes={decision.notes} />
    </>
  );
}

function columnsOf(report: Report, { control }: DecisionOf): Column<Line>[] {
  const { decision: words, grammar } = report.words;
  const { columns } = words;
  const answerOf = (line: Line): Answer | undefined =>
    report.evaluation.answers.find(({ criterion }) => criterion === line.criterion);
  const together: Column<Line>[] = [
    { head: columns.adjusted, kind: "number", cell: (line) => pText(line.adjustedPValue) },
    { head: columns.together, cell: (line) => <Verdict report={report} verdict={line.verdict} /> },
  ];
  const shared = control === "holm" || control === "fixed_sequence";
  return [
    {
      head: columns.criterion,
      heading: true,
      cell: (line) => {
        const answer = answerOf(line);
        if (answer === undefined) return line.criterion;
        const asked = report.words.answer.criterion(answer.direction, answer.threshold);
        return `${grammar.sentence(nameOf(report, answer))} ${asked}${formats.THIN}%`;
      },
    },
    { head: columns.pValue, kind: "number", cell: (line) => pText(line.pValue) },
    {
      head: columns.alone,
      cell: (line) => {
        const answer = answerOf(line);
        return answer === undefined ? "" : <Verdict report={report} verdict={answer.verdict} />;
      },
    },
    ...(shared ? together : []),
  ];
}
