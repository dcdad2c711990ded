import type { Agreement } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { count } from "../formats.ts";
import { DataTable } from "../parts/table.tsx";
import { pairCell, pairTitle } from "../reader-names.ts";

interface Line {
  readonly level: string;
  readonly counts: readonly number[];
}

/** How strongly both eye readers saw the line, crossed: rows the first reader, columns the second. */
export function LineStrength({ report, pair }: { report: Report; pair: Agreement }) {
  const { readers: words, general } = report.words;
  if (pair.lineStrength === null) return null;
  const { strength } = words;
  const rows: Line[] = pair.lineStrength.table.map((counts, place) => ({
    level: strength.levels[place] ?? "",
    counts,
  }));
  return (
    <>
      <p class="lead">{strength.lead}</p>
      <DataTable
        report={report}
        caption={strength.caption(pairTitle(report, pair), pairCell(report, pair))}
        columns={[
          {
            head: `${general.reader(pair.first)} \\ ${general.reader(pair.second)}`,
            heading: true,
            cell: ({ level }: Line) => level,
          },
          ...strength.levels.map((level, place) => ({
            head: level,
            kind: "number" as const,
            cell: ({ counts }: Line) => count(counts[place] ?? 0),
          })),
          {
            head: strength.all,
            kind: "number",
            cell: ({ counts }: Line) => count(counts.reduce((total, devices) => total + devices, 0)),
          },
        ]}
        groups={[{ rows }]}
      />
    </>
  );
}
