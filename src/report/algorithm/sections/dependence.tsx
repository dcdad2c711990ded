import type { ComponentChildren } from "preact";
import type { DependentPair, TwoWayMap } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Chart } from "../../parts/chart.tsx";
import { OpenOrFolded } from "../../parts/open-or-folded.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmFigureName } from "../figure-names.ts";
import { algorithmOf, pairTitle, severalAnalytes, testedTitle } from "../names.ts";
import { AlgorithmNotes, Share } from "../parts.tsx";
import { sweepGroups, sweepTitle } from "../sweeps.ts";
import { OneSweep } from "./one-sweep.tsx";

/** Each pair's error correlation with where it comes from and its bounds, and how much hangs on it. */
export function DependencePart({ report }: AlgorithmSectionProps) {
  const { dependence: words } = report.words.algorithm;
  const { kind, pairs, twoWay } = report.algorithms.dependence;
  const groups = sweepGroups(report);
  return (
    <Section report={report} id="dependence">
      <p>{words.lead}</p>
      <p>{words.kinds[kind]}</p>
      {pairs.length === 0 ? null : (
        <DataTable
          report={report}
          caption={words.caption}
          columns={pairColumns(report)}
          groups={[{ rows: pairs }]}
          note={words.note}
        />
      )}
      <AlgorithmNotes
        report={report}
        notes={pairs.flatMap(({ notes, estimated }) => [...notes, ...(estimated?.notes ?? [])])}
      />
      {groups.length === 0 ? null : <h3>{words.sweepsHeading}</h3>}
      {groups.map((group, place) => (
        <FirstOpen
          key={place}
          report={report}
          title={words.inAlgorithm(sweepTitle(report, group), algorithmOf(report, group.algorithm))}
          place={place}
        >
          <OneSweep report={report} group={group} place={place} />
        </FirstOpen>
      ))}
      {twoWay.length === 0 ? null : (
        <>
          <h3>{words.mapsHeading}</h3>
          <p>{words.mapLead}</p>
        </>
      )}
      {twoWay.map((map, place) => (
        <FirstOpen
          key={place}
          report={report}
          title={words.inAlgorithm(
            pairTitle(report, map.first, map.second),
            algorithmOf(report, map.algorithm),
          )}
          place={place}
        >
          <OneMap report={report} map={map} place={place} />
        </FirstOpen>
      ))}
    </Section>
  );
}

/** The first open under its name, the others folded. */
function FirstOpen(props: {
  report: AlgorithmReport;
  title: string;
  place: number;
  children: ComponentChildren;
}) {
  const { report, title, place, children } = props;
  if (place > 0) {
    return (
      <OpenOrFolded report={report} title={title} open={false}>
        {children}
      </OpenOrFolded>
    );
  }
  return (
    <>
      <p class="lead">
        <b>{report.words.grammar.closed(report.words.grammar.sentence(title))}</b>
      </p>
      {children}
    </>
  );
}

type Truth = "diseased" | "nondiseased";

function pairColumns(report: AlgorithmReport): Column<DependentPair>[] {
  const { columns, sources } = report.words.algorithm.dependence;
  const phi = (head: string, truth: Truth): Column<DependentPair> => ({
    head,
    kind: "number",
    cell: (pair) => (
      <>
        <b>{formats.correlation(pair[truth])}</b>
        <span class="limits">{limitsOf(pair, truth)}</span>
      </>
    ),
  });
  const allowed = (head: string, truth: Truth): Column<DependentPair> => ({
    head,
    kind: "number",
    cell: (pair) => boundsText(pair, truth),
  });
  return [
    {
      head: columns.pair,
      heading: true,
      cell: (pair) => (
        <>
          {pairTitle(report, pair.first, pair.second)}
          {severalAnalytes(report) ? <span class="place">{testedTitle(report, pair.analyte)}</span> : null}
        </>
      ),
    },
    { head: columns.source, cell: ({ source }) => sources[source] },
    phi(columns.nondiseased, "nondiseased"),
    allowed(columns.allowed, "nondiseased"),
    phi(columns.diseased, "diseased"),
    allowed(columns.allowed, "diseased"),
  ];
}

/** Limits of an estimate; nothing where the correlation was stated. */
function limitsOf({ estimated }: DependentPair, truth: Truth): string {
  const phi = estimated?.values[truth].phi;
  if (phi === undefined || phi.lower === null || phi.upper === null) return "";
  return formats.range(formats.correlation(phi.lower), formats.correlation(phi.upper));
}

function boundsText({ table }: DependentPair, truth: Truth): string {
  const { lowestPhi, highestPhi } = table.values[truth];
  if (lowestPhi === null || highestPhi === null) return "";
  return formats.range(formats.index(lowestPhi), formats.index(highestPhi));
}

function OneMap({ report, map, place }: { report: AlgorithmReport; map: TwoWayMap; place: number }) {
  const { dependence: words } = report.words.algorithm;
  const pair = pairTitle(report, map.first, map.second);
  const title = algorithmOf(report, map.algorithm);
  const prevalences = [...new Set(map.cells.map(({ prevalence }) => prevalence))];
  const phis = [...new Set(map.cells.map(({ phi }) => phi))];
  const columns: Column<number>[] = [
    { head: words.mapPhi, heading: true, kind: "number", cell: (phi) => formats.correlation(phi) },
    ...prevalences.map(
      (prevalence): Column<number> => ({
        head: words.mapPrevalence(formats.significantPercent(prevalence)),
        kind: "number",
        cell: (phi) => (
          <Share
            report={report}
            of={map.cells.find((cell) => cell.phi === phi && cell.prevalence === prevalence)?.ppv ?? null}
          />
        ),
      }),
    ),
  ];
  return (
    <Chart
      report={report}
      name={algorithmFigureName("map", place, map.algorithm)}
      label={words.mapChart(title, pair)}
    >
      <DataTable
        report={report}
        caption={words.mapCaption(title, pair)}
        columns={columns}
        groups={[{ rows: phis }]}
      />
    </Chart>
  );
}
