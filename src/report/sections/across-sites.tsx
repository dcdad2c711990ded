import type { Pooled } from "../../evaluation/document.ts";
import { MEASURES } from "../../evaluation/measures.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { cellTitle, termsOf } from "../names.ts";
import { MainOrFolded } from "../parts/main-or-folded.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { Verdict } from "../parts/verdict.tsx";
import { middleFacts, nounOf, pInWords, spanOf } from "../pooled-names.ts";
import { askedName } from "../reference-names.ts";
import { PooledDetails } from "./pooled-details.tsx";
import { PooledForest } from "./pooled-forest.tsx";

/** The groups of a stratum, mostly sites, taken as a sample of such groups: their middle, and what another may see. */
export function AcrossSites({ report }: SectionProps) {
  const { sites: words } = report.words;
  const { pooled: cells } = report.evaluation;
  const [first] = cells;
  if (first === undefined) return null;
  return (
    <Section report={report} id="sites">
      <p>{words.lead(nounOf(report, first.by.stratum))}</p>
      {cells.map((pooled, place) => (
        <AnalytePart key={place} analyte={pooled.analyte}>
          <MainOrFolded report={report} cell={pooled} cells={cells} title={words.heading}>
            <PooledPart report={report} pooled={pooled} explained={place === 0} />
          </MainOrFolded>
        </AnalytePart>
      ))}
    </Section>
  );
}

export interface PooledProps {
  readonly report: Report;
  readonly pooled: Pooled;
  /** Whether to say how tables are read: once on the page is enough. */
  readonly explained: boolean;
}

function PooledPart(props: PooledProps) {
  const { report, pooled } = props;
  const { sites: words } = report.words;
  const noun = nounOf(report, pooled.by.stratum);
  const facts = middleFacts(report, pooled);
  return (
    <>
      <p class="lead">
        {facts.length === 0
          ? words.none(noun)
          : `${words.middle(pooled.groups.length, noun, facts)} ${words.elsewhere(noun, facts)}`}{" "}
        {words.differ(noun, differFacts(report, pooled))}
      </p>
      {pooled.criteria.length === 0 ? null : <VerdictsTable {...props} />}
      <PooledForest {...props} />
      <PooledDetails {...props} />
    </>
  );
}

function differFacts(report: Report, { univariate, analyte }: Pooled) {
  const error = 1 - report.evaluation.study.interval.level;
  return MEASURES.flatMap((measure) => {
    const p = univariate?.[measure].equality.p ?? null;
    if (p === null) return [];
    return [{ name: termsOf(report, analyte)[measure], p: pInWords(p), differs: p < error }];
  });
}

/** Each verdict for all people together, for the middle of the groups, and for another group. */
function VerdictsTable({ report, pooled, explained }: PooledProps) {
  const { sites: words, grammar } = report.words;
  const noun = nounOf(report, pooled.by.stratum);
  const heads = words.verdictColumns(noun);
  type Row = Pooled["criteria"][number];
  const columns: Column<Row>[] = [
    { head: heads.criterion, heading: true, cell: (one) => grammar.sentence(askedName(report, one)) },
    { head: heads.naive, cell: ({ naive }) => <Verdict report={report} verdict={naive} /> },
    { head: heads.summary, cell: ({ summary }) => <Verdict report={report} verdict={summary} /> },
    {
      head: heads.elsewhere,
      cell: ({ newGroup }) => (
        <>
          <Verdict report={report} verdict={newGroup.verdict} />
          <span class="limits">{elsewhereText(report, newGroup.prediction)}</span>
        </>
      ),
    },
    {
      head: heads.chance,
      kind: "number",
      cell: ({ newGroup: { chance } }) => (chance === null ? "" : formats.chance(chance)),
    },
  ];
  return (
    <DataTable
      report={report}
      caption={words.verdictsCaption(cellTitle(report, pooled))}
      columns={columns}
      groups={[{ rows: pooled.criteria }]}
      {...(explained ? { note: words.verdictsHow(noun) } : {})}
    />
  );
}

function elsewhereText(report: Report, prediction: formats.Limits): string {
  const span = spanOf(report, prediction);
  return span === null ? "" : `${span}${formats.THIN}%`;
}
