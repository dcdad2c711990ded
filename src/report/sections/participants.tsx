import type { Evaluation } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { analyteTitle, siteTitle, termsOf, worded } from "../names.ts";
import { PercentInterval } from "../parts/numbers.tsx";
import { Section } from "../parts/section.tsx";
import { type Column, DataTable } from "../parts/table.tsx";

type Positive = Evaluation["participants"]["bySite"][number]["referencePositive"];
interface Group {
  readonly title: string;
  readonly people: number;
  readonly referencePositive: Positive;
}

/** Who took part, where, how they were found, and how many were reference positive. */
export function Participants({ report }: SectionProps) {
  const { participants: words, codes } = report.words;
  const { participants, study } = report.evaluation;
  const sites = participants.bySite.map((group) => ({ ...group, title: siteTitle(report, group.site) }));
  const selections = participants.bySelection.map((group) => ({
    ...group,
    title: report.words.grammar.sentence(worded(codes.selections, group.selection)),
  }));
  return (
    <Section report={report} id="participants">
      <p>{words.lead(participants.enrolled, participants.bySite.length)}</p>
      <p>{factsText(report)}</p>
      <Groups
        report={report}
        caption={words.siteCaption}
        head={words.columns.site}
        groups={sites}
        explained={selections.length === 0}
      />
      <Groups
        report={report}
        caption={words.selectionCaption}
        head={words.columns.selection}
        groups={selections}
        explained
      />
      {study.arms.length > 1 ? (
        <p class="how">
          {study.arms
            .map((arm) => words.arm(arm.id, arm.title, worded(codes.selections, arm.selection)))
            .join(" ")}
        </p>
      ) : null}
    </Section>
  );
}

function factsText(report: Report): string {
  const { participants: words, general, page } = report.words;
  const { devices, readings, operators, repeats, lineWithoutControl, firstResultOn, lastResultOn } =
    report.evaluation.participants;
  const sentences = [
    devices > 0
      ? words.facts(
          general.devices(devices),
          general.readings(readings),
          operators > 0 ? general.operators(operators) : null,
        )
      : null,
    repeats > 0 ? words.repeats(general.devices(repeats)) : null,
    lineWithoutControl > 0 ? words.lineWithoutControl(general.devices(lineWithoutControl)) : null,
    firstResultOn !== null && lastResultOn !== null
      ? words.resultDates(page.date(firstResultOn), page.date(lastResultOn))
      : null,
  ];
  return sentences.filter((sentence) => sentence !== null).join(" ");
}

function Groups(props: {
  report: Report;
  caption: string;
  head: string;
  groups: readonly Group[];
  explained: boolean;
}) {
  const { report, groups } = props;
  if (groups.length === 0) return null;
  const { participants: words } = report.words;
  const analytes = [...new Set(groups.flatMap((group) => group.referencePositive.map((one) => one.analyte)))];
  const all = groups.reduce((total, group) => total + group.people, 0);
  return (
    <DataTable
      report={report}
      caption={props.caption}
      columns={[
        { head: props.head, heading: true, cell: (group) => group.title },
        { head: words.columns.people, kind: "number", cell: (group) => formats.count(group.people) },
        {
          head: words.columns.share,
          kind: "number",
          cell: (group) => (all === 0 ? "" : formats.percent(group.people / all)),
        },
        ...analytes.map((analyte) => positiveColumn(report, analyte)),
      ]}
      groups={[{ rows: groups }]}
      {...(props.explained ? { note: words.howToRead } : {})}
    />
  );
}

/** Counts always; percentage and interval only where the people stand for a population. */
function positiveColumn(report: Report, analyte: string): Column<Group> {
  const { participants: words } = report.words;
  return {
    head: words.columns.positive(analyteTitle(report, analyte), termsOf(report, analyte).positive),
    kind: "number",
    cell: ({ referencePositive }) => {
      const found = referencePositive.find((one) => one.analyte === analyte)?.proportion;
      if (found === undefined) return "";
      return (
        <>
          <span class="counts">{formats.countOf(found.count, found.total)}</span>
          {found.value === null ? null : <PercentInterval report={report} of={found} />}
        </>
      );
    },
  };
}
