import type { Estimate } from "../../../core/estimate.ts";
import { PlaceStrip } from "../../figures/place-strip.tsx";
import { StripScale } from "../../figures/strip.tsx";
import { type StripDomain, stripDomain } from "../../figures/strip-scale.ts";
import * as formats from "../../formats.ts";
import { EstimateHead, PercentInterval, PercentLimits } from "../../parts/numbers.tsx";
import { Verdict } from "../../parts/verdict.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { MEASURES, measureName, spanOf, toldOf } from "../names.ts";

const STRIP = 230;
type Measure = (typeof MEASURES)[number];

/** One line of the answer: a measure over all studies, or over those of one kind. */
interface Line {
  readonly measure: Measure;
  readonly title: string;
  readonly summary: Estimate;
  readonly prediction: Estimate;
  /** No summary: all people together. */
  readonly together: boolean;
  /** Over all studies: the criterion, if any. */
  readonly judged: PoolReport["pooling"]["answer"]["criteria"][number] | undefined;
}

/** Both measures, over all studies and by kind: summary, new place and strip. */
export function AnswerTable({ report }: PoolSectionProps) {
  const { pool, page, grammar } = report.words;
  const { columns, caption } = pool.answer;
  const { criteria } = report.pooling.answer;
  const groups = MEASURES.map((measure) => ({ measure, lines: linesOf(report, measure) }));
  const domain = domainOf(
    report,
    groups.flatMap(({ lines }) => lines),
  );
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={page.region(caption)}>
      <table class="answers reckoned pooled">
        <caption class="unseen">{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{columns.measure}</th>
            <th scope="col">{columns.studies}</th>
            <th scope="col" class="number">
              <EstimateHead sign={columns.summary} limits={page.interval(report.pooling.file.level)} />
            </th>
            {hasPlaces(report) ? (
              <th scope="col" class="number">
                {columns.newPlace}
              </th>
            ) : null}
            <th scope="col" class="figure">
              <StripScale domain={domain} width={STRIP} />
            </th>
            {criteria.length === 0 ? null : <th scope="col">{columns.verdict}</th>}
          </tr>
        </thead>
        {groups.map(({ measure, lines }) => (
          <tbody key={measure}>
            {lines.map((line, place) => (
              <tr key={line.title} class={place === 0 ? "measured first" : "measured"}>
                {place === 0 ? (
                  <th scope="rowgroup" rowSpan={lines.length} class="analyte">
                    {grammar.sentence(measureName(report, measure))}
                  </th>
                ) : null}
                <Cells report={report} line={line} domain={domain} />
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

function Cells({ report, line, domain }: { report: PoolReport; line: Line; domain: StripDomain }) {
  const { columns } = report.words.pool.answer;
  const { summary, prediction, judged } = line;
  return (
    <>
      <th scope="row" class="measure">
        {line.title}
      </th>
      <td class="number estimate" data-label={columns.summary}>
        <PercentInterval
          report={report}
          of={summary}
          {...(judged === undefined ? {} : { threshold: judged.atLeast })}
        />
      </td>
      {hasPlaces(report) ? (
        <td class="number alone" data-label={columns.newPlace}>
          {prediction.lower === null ? "" : <PercentLimits report={report} of={prediction} />}
        </td>
      ) : null}
      <td class="figure">
        <div class="card-scale">
          <StripScale domain={domain} width={STRIP} />
        </div>
        <PlaceStrip
          summary={summary}
          prediction={prediction}
          criterion={judged?.atLeast}
          domain={domain}
          width={STRIP}
          label={inWords(report, line)}
        />
      </td>
      {report.pooling.answer.criteria.length === 0 ? null : (
        <td class="judgement">
          {judged === undefined ? "" : <Verdict report={report} verdict={judged.summary} />}
        </td>
      )}
    </>
  );
}

function linesOf(report: PoolReport, measure: Measure): Line[] {
  const { answer: words } = report.words.pool;
  const { answer, studies } = report.pooling;
  const judged = answer.criteria.find((criterion) => criterion.measure === measure);
  const { summary, prediction, together } = answer[measure];
  const none = { value: null, lower: null, upper: null };
  const all =
    summary.value === null
      ? { title: words.allPeople, summary: together, prediction: none, together: true }
      : { title: words.allStudies(studies.length), summary, prediction, together: false };
  return [
    { measure, ...all, judged },
    ...answer.levels.map((level) => ({
      measure,
      title: words.levelStudies(level.level, level.studies),
      ...level[measure],
      together: false,
      judged: undefined,
    })),
  ];
}

function domainOf({ pooling }: PoolReport, lines: readonly Line[]): StripDomain {
  const shown = lines.flatMap(({ summary, prediction }) => [summary, prediction]);
  return stripDomain(
    shown,
    pooling.answer.criteria.map(({ atLeast }) => atLeast),
  );
}

/** Whether anything is said of a place not studied. */
export function hasPlaces({ pooling }: PoolReport): boolean {
  return MEASURES.some((measure) => pooling.answer[measure].prediction.lower !== null);
}

function inWords(report: PoolReport, { summary, prediction, together, judged }: Line): string {
  const { strip } = report.words.pool.answer;
  if (summary.value === null) return strip.missing;
  const { value, span } = toldOf(report, summary);
  const place = spanOf(report, prediction);
  return [
    (together ? strip.together : strip.estimate)(span === null ? value : `${value} (${span})`),
    ...(place === null ? [] : [strip.prediction(place)]),
    ...(judged === undefined ? [] : [strip.criterion(formats.statedPercent(judged.atLeast))]),
  ].join(", ");
}
