import type { Evaluation } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import { analyteTitle, specimenTitle, termsOf, toldKit } from "../names.ts";
import { type Column, DataTable } from "../parts/table.tsx";

type Criterion = Evaluation["study"]["criteria"][number];

/** The criteria with their sources and dates, so that a reader sees whether they came before the data. */
export function Criteria({ report }: SectionProps) {
  const { study: words, page } = report.words;
  const { study, participants } = report.evaluation;
  if (study.criteria.length === 0) return <p>{words.noCriteria}</p>;
  return (
    <DataTable
      report={report}
      caption={words.criteriaCaption}
      lead={words.criteriaLead}
      columns={columnsOf(report)}
      groups={study.analytes.map((analyte) => ({
        analyte: analyte.id,
        rows: study.criteria.filter((criterion) => criterion.analyte === analyte.id),
      }))}
      note={
        participants.firstResultOn === null
          ? undefined
          : words.firstResult(page.date(participants.firstResultOn))
      }
    />
  );
}

function columnsOf(report: Report): Column<Criterion>[] {
  const { study: words, answer, codes, grammar, page } = report.words;
  const columns = words.criteriaColumns;
  const measure = (criterion: Criterion) =>
    criterion.measure === "invalid_rate"
      ? answer.invalidRate
      : termsOf(report, criterion.analyte)[criterion.measure];
  const specimen = ({ specimen: type }: Criterion) =>
    specimenTitle(report, type ?? report.evaluation.study.specimens[0]?.type ?? "");
  const place = (criterion: Criterion) => {
    const kit = toldKit(report, criterion.kit ?? report.evaluation.kits[0]?.id ?? "");
    return [...(kit === null ? [] : [kit]), specimen(criterion)];
  };
  return [
    { head: columns.analyte, heading: true, cell: (one) => analyteTitle(report, one.analyte) },
    { head: columns.criterion, cell: (one) => [grammar.sentence(measure(one)), ...place(one)].join(", ") },
    {
      head: columns.threshold,
      kind: "number",
      cell: (one) => (
        <>
          {one.at_least === undefined
            ? answer.criterion("at_most", one.at_most ?? 0)
            : answer.criterion("at_least", one.at_least)}
          {words.rules[one.rule] === null ? null : <span class="place">{words.rules[one.rule]}</span>}
        </>
      ),
    },
    { head: columns.importance, cell: (one) => codes.importance[one.importance] },
    { head: columns.source, kind: "wide", cell: (one) => one.source },
    {
      head: columns.entered,
      cell: (one) => (one.entered_on === undefined ? words.undated : page.date(one.entered_on)),
    },
  ];
}
