import type { Intensity } from "../../evaluation/document.ts";
import * as formats from "../formats.ts";
import { instrumentTitle } from "../instrument-names.ts";
import { termsOf } from "../names.ts";
import { IndexInterval, PercentInterval, PointsInterval } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import type { InstrumentProps } from "./instrument-readings.tsx";

type Eye = Intensity["eyes"][number];

/** What the instrument has at the eye's own specificity, and at its sensitivity; the area by line strength seen. */
export function InstrumentEyes({ report, measured, explained }: InstrumentProps) {
  const { instrument: words } = report.words;
  const eyes = measured.eyes.filter(({ against, ordinal }) => against !== null || ordinal !== null);
  if (eyes.length === 0) return null;
  const terms = termsOf(report, measured.analyte);
  const heads = words.eyesColumns;
  const pair = (at: "atEyeSpecificity" | "atEyeSensitivity"): Column<Eye>[] => {
    const shown = (against: NonNullable<Eye["against"]>) =>
      at === "atEyeSpecificity" ? against[at].sensitivity : against.atEyeSensitivity.specificity;
    return [
      {
        head:
          at === "atEyeSpecificity"
            ? heads.atSpecificity(terms.sensitivity)
            : heads.atSensitivity(terms.specificity),
        kind: "number",
        cell: ({ against }) =>
          against === null ? "" : <PercentInterval report={report} of={shown(against)} />,
      },
      {
        head: heads.difference,
        kind: "number",
        cell: ({ against }) =>
          against === null ? "" : <PointsInterval report={report} of={against[at].difference} />,
      },
    ];
  };
  const columns: Column<Eye>[] = [
    { head: heads.reader, heading: true, cell: ({ reader }) => reader },
    {
      head: heads.people,
      kind: "number",
      cell: ({ people }) => formats.count(people.positives + people.negatives),
    },
    ...pair("atEyeSpecificity"),
    ...pair("atEyeSensitivity"),
    ...(eyes.some(({ ordinal }) => ordinal !== null)
      ? [
          {
            head: heads.lines,
            kind: "number" as const,
            cell: ({ ordinal }: Eye) =>
              ordinal === null ? "" : <IndexInterval report={report} of={ordinal.area.logit} />,
          },
        ]
      : []),
  ];
  return (
    <details class="printed">
      <summary>{words.eyesTitle}</summary>
      <DataTable
        report={report}
        caption={words.eyesCaption(instrumentTitle(report, measured))}
        columns={columns}
        groups={[{ rows: eyes }]}
        {...(explained ? { note: words.eyesHow } : {})}
      />
    </details>
  );
}
