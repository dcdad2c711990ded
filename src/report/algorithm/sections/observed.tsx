import type { ObservedDiscordance } from "../../../evaluation/algorithm/document.ts";
import * as formats from "../../formats.ts";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import { algorithmTitle, channelTitle, kitName } from "../names.ts";
import { AlgorithmNotes } from "../parts.tsx";

/** Whether the second kit overturned more first results than the kits' own errors explain. */
export function Observed({ report }: AlgorithmSectionProps) {
  const { observed: words } = report.words.algorithm;
  const { observed } = report.algorithms;
  return (
    <Section report={report} id="observed">
      <p>{words.lead}</p>
      <DataTable
        report={report}
        caption={words.caption}
        columns={columnsOf(report)}
        groups={[{ rows: observed }]}
        note={words.note(report.algorithms.file.level)}
      />
      {observed.map((line) => (
        <p key={`${line.channel} ${line.algorithm}`}>{sentenceOf(report, line)}</p>
      ))}
      <AlgorithmNotes report={report} notes={observed.flatMap(({ discordance }) => discordance.notes)} />
    </Section>
  );
}

function columnsOf(report: AlgorithmReport): Column<ObservedDiscordance>[] {
  const { columns } = report.words.algorithm.observed;
  return [
    {
      head: columns.channel,
      heading: true,
      cell: ({ channel, algorithm }) => (
        <>
          {channelTitle(report, channel)}
          <span class="place">{algorithmTitle(report, algorithm)}</span>
        </>
      ),
    },
    {
      head: columns.seen,
      kind: "number",
      cell: ({ discordance }) => {
        const seen = discordance.input.observed;
        return seen === null ? "" : formats.countOf(seen.secondNonreactive, seen.firstReactive);
      },
    },
    {
      head: columns.share,
      kind: "number",
      cell: ({ discordance }) => {
        const share = discordance.values.discordance?.share;
        return share === undefined || share.value === null ? "" : formats.percentWithRange(share);
      },
    },
    {
      head: columns.expected,
      kind: "number",
      cell: ({ discordance }) => formats.percentWithRange(discordance.values.discordant) ?? "",
    },
    {
      head: columns.independent,
      kind: "number",
      cell: ({ discordance }) => {
        const { ifIndependent } = discordance.values;
        return ifIndependent === null ? "" : formats.percentSigned(ifIndependent);
      },
    },
    {
      head: columns.counts,
      kind: "number",
      cell: ({ discordance }) => {
        const { lower = null, upper = null } = discordance.values.discordance ?? {};
        return lower === null || upper === null
          ? ""
          : formats.range(formats.count(lower), formats.count(upper));
      },
    },
    {
      head: columns.p,
      kind: "number",
      cell: ({ discordance }) => {
        const p = discordance.values.discordance?.twoSided ?? null;
        return p === null ? "" : formats.pValue(p);
      },
    },
  ];
}

/** More, fewer or as many as the kits explain, in plain words. */
function sentenceOf(
  report: AlgorithmReport,
  { channel, first, second, discordance }: ObservedDiscordance,
): string {
  const { observed: words } = report.words.algorithm;
  const seen = discordance.input.observed;
  const { discordance: judged, discordant, diseasedAmongDiscordant } = discordance.values;
  if (seen === null || judged === null || judged.lower === null || judged.upper === null)
    return words.notJudged;
  const verdict =
    seen.secondNonreactive > judged.upper
      ? "more"
      : seen.secondNonreactive < judged.lower
        ? "fewer"
        : "alike";
  return words.sentence({
    channel: report.words.grammar.inline(channelTitle(report, channel)),
    first: kitName(report, first),
    second: kitName(report, second),
    seen: formats.count(seen.secondNonreactive),
    all: formats.count(seen.firstReactive),
    expected: discordant.value === null ? null : formats.expectedFew(discordant.value * seen.firstReactive),
    verdict,
    diseased: diseasedAmongDiscordant === null ? null : formats.percentSigned(diseasedAmongDiscordant),
  });
}
