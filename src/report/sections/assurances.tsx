import type { Assurance } from "../../evaluation/document.ts";
import { nameOf } from "../answer-facts.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { Notes } from "../parts/notes.tsx";
import { DataTable } from "../parts/table.tsx";

/** For each undecided criterion: the chance of each verdict after more people. */
export function Assurances({ report }: SectionProps) {
  const { decision: words, grammar } = report.words;
  const { assurance } = report.evaluation;
  if (assurance.length === 0) return null;
  const { assuranceColumns: columns } = words;
  const chance = (value: number | null) => (value === null ? "" : formats.chance(value));
  return (
    <>
      <h3>{words.assuranceHeading}</h3>
      <DataTable
        report={report}
        caption={words.assuranceCaption}
        lead={words.assuranceLead}
        columns={[
          { head: columns.assumption, heading: true, cell: (line) => line.title },
          { head: columns.met, kind: "number", cell: (line) => chance(line.met) },
          { head: columns.notMet, kind: "number", cell: (line) => chance(line.notMet) },
          { head: columns.undecided, kind: "number", cell: (line) => chance(line.undecided) },
        ]}
        groups={assurance.map((one) => ({
          heading: words.group(grammar.sentence(titleOf(report, one)), formats.count(one.further)),
          rows: [
            { title: columns.holds, ...one.ifEstimateHolds },
            { title: columns.predicted, ...one.predicted },
          ],
        }))}
      />
      <ul>
        {assurance.flatMap((one) =>
          one.needed.map(({ chance: wanted, further }) => (
            <li key={`${one.criterion} ${wanted}`}>{words.needed(wanted, further, titleOf(report, one))}</li>
          )),
        )}
      </ul>
      <Notes report={report} notes={assurance.flatMap(({ notes }) => notes)} />
    </>
  );
}

function titleOf(report: Report, { criterion }: Assurance): string {
  const answer = report.evaluation.answers.find((one) => one.criterion === criterion);
  return answer === undefined ? criterion : nameOf(report, answer);
}
