import type { Discrepant } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { DataTable } from "../parts/table.tsx";

type Seen = Discrepant["demonstration"]["resolved"];

/** What retesting only those who disagree does, on invented people: a warning, never an analysis. */
export function DiscrepantWarning({ report, discrepant }: { report: Report; discrepant: Discrepant }) {
  const { reference: words, page } = report.words;
  const { demonstration: shown } = discrepant;
  const rows = [
    { name: words.discrepantRows.truth, ...shown.supposed.kit },
    { name: words.discrepantRows.unresolved, ...shown.unresolved },
    { name: words.discrepantRows.resolved, ...shown.resolved },
    { name: words.discrepantRows.everybody, ...shown.everybody },
  ];
  const share = (value: number | null) =>
    value === null ? page.notEstimable : formats.percent(value, value > 0.99 ? 2 : 1);
  return (
    <div class="part">
      <h3>{words.discrepantHeading}</h3>
      <DataTable
        report={report}
        caption={words.discrepantCaption}
        lead={words.discrepantLead(
          shown.retested === null ? page.notEstimable : formats.percentSigned(shown.retested),
        )}
        columns={[
          {
            head: words.discrepantColumns.held,
            heading: true,
            cell: ({ name }) => report.words.grammar.sentence(name),
          },
          {
            head: words.discrepantColumns.sensitivity,
            kind: "number",
            cell: ({ sensitivity }) => share(sensitivity),
          },
          {
            head: words.discrepantColumns.specificity,
            kind: "number",
            cell: ({ specificity }) => share(specificity),
          },
        ]}
        groups={[{ rows }]}
        note={words.discrepantHow(
          pair(shown.supposed.kit),
          pair(shown.supposed.comparator),
          pair(shown.supposed.resolver),
          `${formats.statedPercent(shown.supposed.prevalence)}${formats.THIN}%`,
        )}
      />
      <p>{gainText(report, shown.gain)}</p>
    </div>
  );
}

const pair = ({ sensitivity, specificity }: Seen) =>
  `${formats.statedPercent(sensitivity ?? 0)} / ${formats.statedPercent(specificity ?? 0)}${formats.THIN}%`;

function gainText(report: Report, { sensitivity, specificity }: Seen): string | null {
  if (sensitivity === null || specificity === null) return null;
  return report.words.reference.discrepantGain(
    formats.points(sensitivity, formats.pointsDecimals({ value: sensitivity, lower: null, upper: null })),
    formats.points(specificity, formats.pointsDecimals({ value: specificity, lower: null, upper: null })),
  );
}
