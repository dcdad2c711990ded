import type { IntensityComparison } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { analyteTitle, kitTitle, toldSpecimen } from "../names.ts";
import { Notes } from "../parts/notes.tsx";
import { IndexInterval, NumberInterval, pText } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

/** Two kits or two instruments on the same people: the areas under their curves, and the difference. */
export function InstrumentComparisons(props: {
  report: Report;
  comparisons: readonly IntensityComparison[];
}) {
  const { report, comparisons } = props;
  const { instrument: words, general } = report.words;
  if (comparisons.length === 0) return null;
  const side = ({ kit, reader }: IntensityComparison["first"]) => words.side(kitTitle(report, kit), reader);
  const heads = words.comparisonColumns;
  const columns: Column<IntensityComparison>[] = [
    {
      head: heads.what,
      heading: true,
      cell: ({ analyte, specimen }) =>
        general.cell(analyteTitle(report, analyte), null, toldSpecimen(report, specimen), null),
    },
    ...(["first", "second"] as const).map(
      (which): Column<IntensityComparison> => ({
        head: heads[which],
        kind: "number",
        cell: (one) => (
          <>
            {one.values === null ? "" : <IndexInterval report={report} of={one.values[which].area} />}
            <span class="place">{side(one[which])}</span>
          </>
        ),
      }),
    ),
    {
      head: heads.people,
      kind: "number",
      cell: ({ people }) => formats.count(people.positives + people.negatives),
    },
    {
      head: heads.difference,
      kind: "number",
      cell: ({ values }) =>
        values === null ? (
          <i>{words.nobodyBoth}</i>
        ) : (
          <NumberInterval
            report={report}
            of={values.difference}
            format={(value) => formats.fixed(value, 3)}
          />
        ),
    },
    { head: heads.p, kind: "number", cell: ({ values }) => pText(values?.p ?? null) },
  ];
  return (
    <div class="part">
      <h3>{words.comparisonsHeading}</h3>
      <DataTable
        report={report}
        caption={words.comparisonsCaption}
        columns={columns}
        groups={[{ rows: comparisons }]}
      />
      <Notes report={report} notes={comparisons.flatMap(({ notes }) => notes)} />
    </div>
  );
}
