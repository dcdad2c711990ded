import type { AlgorithmSearch } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { OpenOrFolded } from "../../parts/open-or-folded.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { leadingLine, unitOf } from "../names.ts";
import { Share } from "../parts.tsx";
import { type Standing, searchedById, searchedName, standingsAt, withoutTwins } from "../search-names.ts";
import { groupHeading } from "./people.tsx";

type Search = NonNullable<AlgorithmSearch["search"]>;
interface Known {
  readonly report: AlgorithmReport;
  readonly found: AlgorithmSearch;
  readonly search: Search;
}

/** Cost against errors, channel by channel. */
export function Frontiers({ report, found, search }: Known) {
  const { search: words } = report.words.algorithm;
  const leading = leadingLine(report);
  return (
    <>
      {found.channels.map(({ channel, prevalence, best }, at) => {
        const standings = standingsAt(search, prevalence)?.notBeaten ?? [];
        if (standings.length === 0) return null;
        const heading = report.words.grammar.inline(groupHeading(report, channel, found.analyte));
        const title = words.frontierHeading(heading);
        const open =
          leading === undefined ? at === 0 : leading.channel === channel && leading.analyte === found.analyte;
        return (
          <OpenOrFolded
            key={channel}
            report={report}
            title={open ? report.words.grammar.sentence(title) : title}
            open={open}
          >
            <p>{words.frontierLead}</p>
            <Chart
              report={report}
              name={algorithmFigureName("frontier", at, `${found.analyte}-${channel}`)}
              label={words.frontierChart(heading)}
            >
              <StandingTable
                report={report}
                search={search}
                standings={withoutTwins(standings, best)}
                caption={words.frontierCaption(heading)}
              />
            </Chart>
          </OpenOrFolded>
        );
      })}
    </>
  );
}

function StandingTable(props: {
  report: AlgorithmReport;
  search: Search;
  standings: readonly Standing[];
  caption: string;
}) {
  const { report, search, standings, caption } = props;
  const { bestColumns: columns, keeps } = report.words.algorithm.search;
  const few = (head: string, of: (one: Standing) => number | null): Column<Standing> => ({
    head,
    kind: "number",
    cell: (one) => {
      const value = of(one);
      return value === null ? "" : formats.expectedFew(value);
    },
  });
  return (
    <DataTable
      report={report}
      caption={caption}
      columns={[
        {
          head: columns.algorithm,
          heading: true,
          cell: ({ algorithm }: Standing) => {
            const one = searchedById(search, algorithm);
            return one === undefined ? algorithm : searchedName(report, one);
          },
        },
        { head: columns.ppv, kind: "number", cell: ({ ppv }) => <Share report={report} of={ppv} /> },
        few(columns.falsePositives, (one) => one.falsePositives),
        few(columns.missed, (one) => one.missed),
        few(columns.inconclusive, (one) => one.inconclusive),
        {
          head: columns.cost(unitOf(report)),
          kind: "number",
          cell: ({ cost }) => (cost === null ? "" : formats.ratio(cost)),
        },
        { head: columns.keeps, cell: (one) => (one.keeps ? keeps.yes : keeps.no) },
      ]}
      groups={[{ rows: [...standings].sort((one, other) => (one.cost ?? 0) - (other.cost ?? 0)) }]}
      long
    />
  );
}
