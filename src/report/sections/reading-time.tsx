import type { ReadingTime as ReadingTimeOf } from "../../evaluation/document.ts";
import type { Report, SectionProps } from "../context.ts";
import * as formats from "../formats.ts";
import { cellTitle, mainCell } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { Notes } from "../parts/notes.tsx";
import { proportionText } from "../parts/numbers.tsx";
import { OpenOrFolded } from "../parts/open-or-folded.tsx";
import { AnalytePart, Section } from "../parts/section.tsx";
import { DataTable } from "../parts/table.tsx";
import { Choice, TwoMeasures } from "../parts/two-measures.tsx";
import { figureName, type TimeGroup, timeGroups } from "../render-figures.ts";
import { ByMinutes } from "./by-minutes.tsx";
import { Rereadings } from "./rereadings.tsx";
import { TimeDifferences } from "./time-differences.tsx";

/** When results were read, and whether early and late ones fare differently. */
export function ReadingTime({ report }: SectionProps) {
  const { time: words } = report.words;
  return (
    <Section report={report} id="time">
      {timeGroups(report.evaluation.readingTime).map((group, place) => (
        <GroupPart key={place} report={report} group={group} />
      ))}
      {report.evaluation.readingTime.length === 0 ? null : <p class="how">{words.confounded}</p>}
      <Notes report={report} notes={report.evaluation.readingTime.flatMap((times) => times.notes)} />
      <Rereadings report={report} />
    </Section>
  );
}

interface GroupProps {
  readonly report: Report;
  readonly group: TimeGroup;
}

const titlesOf = (report: Report, group: TimeGroup) =>
  report.words.grammar.listed(group.map((times) => cellTitle(report, times)));

function GroupPart({ report, group }: GroupProps) {
  const { time: words } = report.words;
  const [first] = group;
  const all = Object.values(first.people).reduce((total, people) => total + people, 0);
  const window = formats.statedRange(first.window.from, first.window.to);
  const open = mainCell(report.evaluation.readingTime, first.analyte) === first;
  return (
    <div class="part">
      <OpenOrFolded report={report} title={titlesOf(report, group)} open={open}>
        <p class="lead">{words.lead(first.people.in, all, window)}</p>
        <Chart
          report={report}
          name={figureName("reading-time", first)}
          label={`${words.dataCaption}, ${titlesOf(report, group)}`}
        >
          <HistogramTable report={report} times={first} />
        </Chart>
        <ByWindow report={report} group={group} />
        {group.map((times) => (
          <AnalytePart key={times.analyte} analyte={times.analyte}>
            <TimeDifferences report={report} times={times} />
            <ByMinutes report={report} times={times} />
          </AnalytePart>
        ))}
        <Treatments report={report} group={group} />
        <p>{words.rounded(proportionText(report, first.roundedMinutes))}</p>
      </OpenOrFolded>
    </div>
  );
}

function ByWindow({ report, group }: GroupProps) {
  const { time: words, codes, grammar } = report.words;
  return (
    <TwoMeasures
      report={report}
      caption={words.caption(titlesOf(report, group))}
      lead={words.windowLead}
      head={words.columns.window}
      people={words.columns.people}
      groups={group.map((cell) => ({
        cell,
        lines: cell.byWindow.map(({ window, people, sensitivity, specificity }) => ({
          head: grammar.sentence(codes.windows[window]),
          people: formats.count(people),
          sensitivity,
          specificity,
        })),
      }))}
    />
  );
}

function Treatments({ report, group }: GroupProps) {
  const { time: words, codes } = report.words;
  const primary = report.evaluation.study.treatment.outside_window;
  return (
    <TwoMeasures
      report={report}
      caption={words.treatmentsCaption(titlesOf(report, group))}
      lead={words.treatmentsLead}
      head={words.treatment}
      groups={group.map((cell) => ({
        cell,
        lines: cell.treatments.map(({ treatment, sensitivity, specificity }) => ({
          head: (
            <Choice
              report={report}
              name={codes.windowTreatments[treatment]}
              primary={treatment === primary}
            />
          ),
          sensitivity,
          specificity,
        })),
      }))}
    />
  );
}

function HistogramTable({ report, times }: { report: Report; times: ReadingTimeOf }) {
  const { time: words } = report.words;
  return (
    <DataTable
      report={report}
      caption={`${words.dataCaption}, ${cellTitle(report, times)}`}
      columns={[
        {
          head: words.dataColumns.minutes,
          heading: true,
          kind: "number",
          cell: ({ from, to }) => formats.statedRange(from, to),
        },
        { head: words.dataColumns.people, kind: "number", cell: ({ people }) => formats.count(people) },
      ]}
      groups={[{ rows: times.histogram }]}
    />
  );
}
