import type { AlgorithmOutcome, FollowedAlgorithm } from "../../../evaluation/algorithm/document.ts";
import { AlgorithmTree } from "../../figures/algorithm-tree.tsx";
import * as formats from "../../formats.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { OpenOrFolded } from "../../parts/open-or-folded.tsx";
import { Section } from "../../parts/section.tsx";
import { DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmOf, channelTitle, kitName, leadingLine } from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";

/** Each algorithm step by step, with the people expected on every branch in the channel that leads. */
export function Tree({ report }: AlgorithmSectionProps) {
  const { tree: words } = report.words.algorithm;
  const leading = leadingLine(report);
  const { algorithms, outcomes } = report.algorithms;
  const ordered = [...algorithms].sort(
    (one, other) =>
      Number(other.algorithm === leading?.algorithm) - Number(one.algorithm === leading?.algorithm),
  );
  return (
    <Section report={report} id="tree">
      <p>{words.lead}</p>
      {ordered.map((followed) => {
        const mine = outcomes.filter(({ algorithm }) => algorithm === followed.algorithm);
        const outcome = mine.find(({ channel }) => channel === leading?.channel) ?? mine[0];
        if (outcome === undefined) return null;
        return (
          <OpenOrFolded
            key={followed.algorithm}
            report={report}
            title={algorithmOf(report, followed.algorithm)}
            open={followed.algorithm === leading?.algorithm}
          >
            <OneTree report={report} followed={followed} outcome={outcome} />
          </OpenOrFolded>
        );
      })}
    </Section>
  );
}

interface Props {
  readonly report: AlgorithmReport;
  readonly followed: FollowedAlgorithm;
  readonly outcome: AlgorithmOutcome;
}

function OneTree({ report, followed, outcome }: Props) {
  const { tree: words } = report.words.algorithm;
  const { flow } = outcome;
  const channel = report.words.grammar.inline(channelTitle(report, outcome.channel));
  const title = words.title(algorithmOf(report, followed.algorithm), channel);
  const all = flow.steps[0] ?? { diseased: flow.diseased, nondiseased: flow.nondiseased };
  return (
    <>
      <figure class="chart">
        <figcaption class="lead">
          {words.caption(formats.count(flow.people), channel)} {returning(report, outcome, followed)}
        </figcaption>
        <Drawing label={title}>
          <AlgorithmTree
            title={title}
            steps={followed.steps.map((step) => ({ ...step, kit: kitName(report, step.kit) }))}
            leads={flow.steps.flatMap(({ step, leads }) => leads.map((lead) => ({ ...lead, step })))}
            all={{ diseased: all.diseased, nondiseased: all.nondiseased }}
            people={flow.people}
          />
        </Drawing>
        <details class="aside">
          <summary>{report.words.page.data}</summary>
          <FlowTable report={report} followed={followed} outcome={outcome} />
        </details>
      </figure>
      <AlgorithmNotes report={report} notes={outcome.outcome.notes} />
    </>
  );
}

/** What becomes of the inconclusive after the first pass. */
function returning(
  report: AlgorithmReport,
  { flow }: AlgorithmOutcome,
  { retested }: FollowedAlgorithm,
): string {
  const { tree: words } = report.words.algorithm;
  const left = flow.firstEnds.find(({ status }) => status === "inconclusive");
  if (left === undefined || left.diseased + left.nondiseased === 0) return "";
  if (flow.returning === null || retested === null) return words.nobodyReturns;
  const back = flow.returning.diseased + flow.returning.nondiseased;
  return words.returning(
    formats.expectedFew(left.diseased + left.nondiseased),
    formats.expectedFew(back),
    formats.count(retested),
  );
}

function FlowTable({ report, followed, outcome }: Props) {
  const { columns, flowCaption, results, statuses, goesOn } = report.words.algorithm.tree;
  const rows = outcome.flow.steps.flatMap(({ step, kit, leads }) =>
    leads.map((lead) => ({ step, kit, ...lead })),
  );
  const next = (id: string) => {
    if (id === "positive" || id === "negative" || id === "inconclusive") return statuses[id];
    const step = followed.steps.find((one) => one.id === id);
    return goesOn(step === undefined ? id : kitName(report, step.kit), id);
  };
  return (
    <DataTable
      report={report}
      caption={flowCaption(algorithmOf(report, followed.algorithm))}
      columns={[
        { head: columns.step, heading: true, cell: ({ step }) => step },
        { head: columns.kit, cell: ({ kit }) => kitName(report, kit) },
        { head: columns.result, cell: ({ result }) => results[result] },
        { head: columns.next, cell: (row) => next(row.next) },
        { head: columns.diseased, kind: "number", cell: ({ diseased }) => formats.expectedFew(diseased) },
        {
          head: columns.nondiseased,
          kind: "number",
          cell: ({ nondiseased }) => formats.expectedFew(nondiseased),
        },
      ]}
      groups={[{ rows }]}
    />
  );
}
