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
          perfect(shown.supposed.resolver) ? null : pair(shown.supposed.resolver),
          formats.percentSigned(shown.supposed.prevalence),
        )}
      />
      <p>{gainText(report, shown)}</p>
    </div>
  );
}

/** What is supposed of a test: as this study saw it, so rounded. */
const pair = ({ sensitivity, specificity }: Seen) =>
  `${[sensitivity, specificity]
    .map((share) => formats.stated(Number(((share ?? 0) * 100).toFixed(1))))
    .join(" / ")}${formats.THIN}%`;

const perfect = ({ sensitivity, specificity }: Seen) => sensitivity === 1 && specificity === 1;

function gainText(report: Report, { unresolved, resolved, supposed }: Discrepant["demonstration"]): string {
  const { reference: words, page } = report.words;
  const shares = (measure: "sensitivity" | "specificity") =>
    [unresolved[measure], resolved[measure], supposed.kit[measure]] as const;
  const text = (share: number | null, decimals: number) =>
    share === null ? page.notEstimable : formats.percent(share, decimals);
  const three = (measure: "sensitivity" | "specificity"): [string, string, string] => {
    const [before, after, truth] = shares(measure);
    const close = after !== null && Math.abs(after - truth) < 0.001;
    const decimals = close ? 2 : 1;
    return [text(before, decimals), text(after, decimals), text(truth, decimals)];
  };
  return words.discrepantGain(three("sensitivity"), three("specificity"));
}
