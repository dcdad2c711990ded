import type { AnswerGroup, AnswerRow } from "../answer-rows.ts";
import type { Report } from "../context.ts";
import { Strip, StripScale } from "../figures/strip.tsx";
import { type StripDomain, stripDomain } from "../figures/strip-scale.ts";
import * as formats from "../formats.ts";
import { speaksOfAgreement } from "../names.ts";
import { Counts, PercentInterval } from "../parts/numbers.tsx";
import { Verdict } from "../parts/verdict.tsx";

interface TableProps {
  readonly report: Report;
  readonly groups: readonly AnswerGroup[];
}

type Domains = Readonly<Record<AnswerRow["scale"], StripDomain>>;

const STRIP = 190;

/** Each criterion with its estimate, its strip and its verdict, and the plain sentences beneath. */
export function AnswerTable({ report, groups }: TableProps) {
  const rows = groups.flatMap((group) => group.rows);
  const judged = rows.some((row) => row.answer !== null);
  const { answer: words, page } = report.words;
  const caption = judged ? words.caption : words.captionWithoutCriteria;
  const domains = domainsOf(rows);
  const headScale = rows.some((row) => row.scale === "high") ? "high" : "low";
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={page.region(caption)}>
      <table class="answers">
        <caption class="unseen">{caption}</caption>
        <Head report={report} groups={groups} judged={judged} domain={domains[headScale]} />
        {groups.map((group) => (
          <tbody key={group.analyte} data-analyte={group.analyte}>
            {group.rows.map((row, place) => (
              <Lines
                key={place}
                report={report}
                row={row}
                heading={place === 0 ? group : null}
                judged={judged}
                domain={domains[row.scale]}
                ownScale={row.scale !== headScale}
              />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

function domainsOf(rows: readonly AnswerRow[]): Domains {
  const of = (scale: AnswerRow["scale"]) => {
    const mine = rows.filter((row) => row.scale === scale);
    const criteria = mine.flatMap(({ answer }) => (answer === null ? [] : [answer.threshold]));
    const estimates = mine.map((row) => row.estimate);
    return stripDomain(estimates, criteria, scale === "high" ? "be_high" : "be_low");
  };
  return { high: of("high"), low: of("low") };
}

function Head(props: TableProps & { judged: boolean; domain: StripDomain }) {
  const { report, judged, groups } = props;
  const { columns } = report.words.answer;
  const { level, method } = report.evaluation.study.interval;
  const agreement = groups.every((group) => speaksOfAgreement(report, group.analyte));
  return (
    <thead>
      <tr>
        <th scope="col">{columns.analyte}</th>
        <th scope="col">{columns.measure}</th>
        <th scope="col" class="number">
          {agreement ? columns.countsAgreement : columns.counts}
        </th>
        <th scope="col" class="number">
          {columns.estimate}
          <span class="limits">{columns.interval(level, report.words.codes.intervalsShort[method])}</span>
        </th>
        {judged ? (
          <th scope="col" class="number">
            {columns.criterion}
          </th>
        ) : null}
        <th scope="col" class="figure">
          <StripScale domain={props.domain} width={STRIP} />
        </th>
        {judged ? <th scope="col">{columns.verdict}</th> : null}
        {judged ? (
          <th scope="col" class="number narrow">
            {columns.probability}
          </th>
        ) : null}
      </tr>
    </thead>
  );
}

interface LineProps {
  readonly report: Report;
  readonly row: AnswerRow;
  /** The analyte, on its first line. */
  readonly heading: AnswerGroup | null;
  readonly judged: boolean;
  readonly domain: StripDomain;
  readonly ownScale: boolean;
}

function Lines(props: LineProps) {
  const { report, row, heading, judged } = props;
  const labels = report.words.answer.columns;
  const lines = heading?.rows.reduce((all, one) => all + (one.sentences.length > 0 ? 2 : 1), 0);
  return (
    <>
      <tr class={heading === null ? "measured" : "measured first"}>
        {heading === null ? null : (
          <th scope="rowgroup" rowSpan={lines} class="analyte">
            {heading.title}
          </th>
        )}
        <th scope="row" class="measure">
          {row.measure}
          {row.place === null ? null : <span class="place">{row.place}</span>}
        </th>
        <td class="number counts" data-label={row.scale === "low" ? "" : labels.counts}>
          <Counts of={row.estimate} />
          {row.scale === "low" ? <span class="place">{labels.countsInvalid}</span> : null}
        </td>
        <td class="number estimate" data-label={labels.estimate}>
          <PercentInterval
            report={report}
            of={row.estimate}
            {...(row.answer === null ? {} : { threshold: row.answer.threshold })}
          />
        </td>
        {judged ? (
          <td class="number criterion" data-label={labels.criterion}>
            {criterionText(report, row)}
          </td>
        ) : null}
        <td class="figure">
          <div class={props.ownScale ? undefined : "card-scale"}>
            <StripScale domain={props.domain} width={STRIP} />
          </div>
          <Strip
            estimate={row.estimate}
            domain={props.domain}
            width={STRIP}
            criterion={row.answer?.threshold}
            direction={row.answer?.direction}
            verdict={row.answer?.verdict}
          />
        </td>
        {judged ? <Judgement report={report} row={row} /> : null}
      </tr>
      {row.sentences.length === 0 ? null : (
        <tr class="said">
          <td colSpan={judged ? 7 : 4}>{row.sentences.join(" ")}</td>
        </tr>
      )}
    </>
  );
}

function criterionText(report: Report, { answer }: AnswerRow): string {
  return answer === null ? "" : report.words.answer.criterion(answer.direction, answer.threshold);
}

function Judgement({ report, row: { answer } }: { report: Report; row: AnswerRow }) {
  if (answer === null) return null;
  const { page, codes } = report.words;
  return (
    <>
      <td class="judgement">
        <Verdict report={report} verdict={answer.verdict} />
        {answer.importance === "secondary" ? <span class="place">{codes.importance.secondary}</span> : null}
      </td>
      <td class="number probability" data-label={report.words.answer.columns.probabilityShort}>
        {answer.probability === null ? (
          <span class="absent">{page.notEstimable}</span>
        ) : (
          formats.probability(answer.probability)
        )}
      </td>
    </>
  );
}
