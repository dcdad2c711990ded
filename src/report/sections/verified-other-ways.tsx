import type { Verification } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { cellTitle } from "../names.ts";
import { PercentInterval } from "../parts/numbers.tsx";
import { DataTable } from "../parts/table.tsx";

const MEASURES = ["sensitivity", "specificity", "prevalence", "ppv", "npv"] as const;
type Measure = (typeof MEASURES)[number];

/** The corrected measures beside two other ways of correcting. */
export function VerifiedOtherWays({ report, partly }: { report: Report; partly: Verification }) {
  const { reference: words, grammar, page } = report.words;
  const { otherColumns: columns } = words;
  const estimate = (head: string, of: (measure: Measure) => formats.Limits) => ({
    head,
    kind: "number" as const,
    cell: (measure: Measure) => <PercentInterval report={report} of={of(measure)} />,
  });
  return (
    <DataTable
      report={report}
      caption={words.otherCaption(cellTitle(report, partly))}
      columns={[
        {
          head: columns.measure,
          heading: true,
          cell: (measure) => grammar.sentence(words.measures[measure]),
        },
        estimate(columns.corrected, (measure) => partly.corrected[measure]),
        estimate(columns.weighted, (measure) => partly.weighted[measure]),
        estimate(columns.imputed, (measure) => partly.imputed[measure]),
        {
          head: columns.missing,
          kind: "number",
          cell: (measure) => {
            const { missingShare } = partly.imputed[measure];
            return missingShare === null ? page.notEstimable : formats.percentSigned(missingShare, 0);
          },
        },
      ]}
      groups={[{ rows: MEASURES }]}
      note={words.otherHow}
    />
  );
}
