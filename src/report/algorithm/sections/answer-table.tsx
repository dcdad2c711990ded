import type { AlgorithmLine } from "../../../evaluation/algorithm/document.ts";
import { PpvStrip } from "../../figures/ppv-strip.tsx";
import { StripScale } from "../../figures/strip.tsx";
import { type StripDomain, stripDomain } from "../../figures/strip-scale.ts";
import * as formats from "../../formats.ts";
import { EstimateHead, PercentInterval } from "../../parts/numbers.tsx";
import type { AlgorithmReport, AlgorithmSectionProps } from "../context.ts";
import {
  algorithmTitle,
  channelTitle,
  leadingLine,
  sameIfIndependent,
  severalAnalytes,
  testedTitle,
} from "../names.ts";
import { Share } from "../parts.tsx";

const STRIP = 170;

export interface LineGroup {
  readonly key: string;
  readonly channel: string;
  readonly analyte: string;
  readonly prevalence: number;
  readonly lines: readonly AlgorithmLine[];
}

/** The lines of the answer by channel and analyte, in the order of the file. */
export function lineGroups({ algorithms }: AlgorithmReport): LineGroup[] {
  const { lines } = algorithms.answer;
  const keys = [...new Set(lines.map(({ channel, analyte }) => `${channel} ${analyte}`))];
  return keys.flatMap((key) => {
    const mine = lines.filter(({ channel, analyte }) => `${channel} ${analyte}` === key);
    const [first] = mine;
    if (first === undefined) return [];
    const { channel, analyte, prevalence } = first;
    return [{ key, channel, analyte, prevalence, lines: mine }];
  });
}

/** Channel, and where there are several analytes which one; with the prevalence. */
export function GroupName({ report, group }: { report: AlgorithmReport; group: LineGroup }) {
  const prevalence = formats.significantPercent(group.prevalence);
  const analyte = severalAnalytes(report) ? testedTitle(report, group.analyte) : null;
  return (
    <>
      {channelTitle(report, group.channel)}
      <span class="place">{report.words.algorithm.answer.prevalence(analyte, prevalence)}</span>
    </>
  );
}

/** Each algorithm in each channel: the net accuracy, and the PPV beside what independence would make of it. */
export function AnswerTable({ report }: AlgorithmSectionProps) {
  const { algorithm, page } = report.words;
  const groups = lineGroups(report);
  const domain = domainOf(report);
  if (groups.length === 0) return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={page.region(algorithm.answer.caption)}>
      <table class="answers reckoned">
        <caption class="unseen">{algorithm.answer.caption}</caption>
        <Head report={report} domain={domain} />
        {groups.map((group) => (
          <tbody key={group.key}>
            {group.lines.map((line, place) => (
              <Line
                key={line.algorithm}
                report={report}
                line={line}
                group={place === 0 ? group : null}
                domain={domain}
              />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}

/** For algorithms of several kits: a single kit may be so poor that it runs out of the scale with an arrow. */
function domainOf({ algorithms }: AlgorithmReport): StripDomain {
  const { target } = algorithms.answer;
  const several = algorithms.answer.lines.filter(({ kits }) => kits.length > 1);
  const lines = several.length > 0 ? several : algorithms.answer.lines;
  const shares = lines
    .flatMap(({ ppv, independent }) => [ppv.value, independent.ppv])
    .filter((share) => share !== null);
  const estimates = shares.map((value) => ({ value, lower: null, upper: null }));
  const limits = lines.map(({ ppv }) => ({ value: ppv.lower, lower: null, upper: null }));
  return stripDomain([...estimates, ...limits], target === null ? [] : [target]);
}

/** Whether independence would make another answer of any line: else it need not stand beside. */
export function independenceMatters({ algorithms }: AlgorithmReport): boolean {
  return algorithms.answer.lines.some((line) => !sameIfIndependent(line));
}

function Head({ report, domain }: { report: AlgorithmReport; domain: StripDomain }) {
  const { columns } = report.words.algorithm.answer;
  const { page } = report.words;
  const target = targetText(report);
  return (
    <thead>
      <tr>
        <th scope="col">{columns.channel}</th>
        <th scope="col">{columns.algorithm}</th>
        <th scope="col" class="number narrow">
          {columns.sensitivity}
        </th>
        <th scope="col" class="number narrow">
          {columns.specificity}
        </th>
        <th scope="col" class="number">
          <EstimateHead sign={columns.ppv} limits={page.interval(report.algorithms.file.level)} />
        </th>
        {independenceMatters(report) ? (
          <th scope="col" class="number narrow">
            {columns.independent}
          </th>
        ) : null}
        <th scope="col" class="figure">
          <StripScale domain={domain} width={STRIP} />
        </th>
        {target === null ? null : (
          <th scope="col" class="number narrow">
            {columns.chance(target)}
          </th>
        )}
      </tr>
    </thead>
  );
}

function targetText({ algorithms }: AlgorithmReport): string | null {
  const { target } = algorithms.answer;
  return target === null ? null : formats.statedPercent(target);
}

interface LineProps {
  readonly report: AlgorithmReport;
  readonly line: AlgorithmLine;
  /** The channel, on its first line. */
  readonly group: LineGroup | null;
  readonly domain: StripDomain;
}

function Line({ report, line, group, domain }: LineProps) {
  const { columns } = report.words.algorithm.answer;
  const { target } = report.algorithms.answer;
  const leads = leadingLine(report) === line;
  const title = algorithmTitle(report, line.algorithm);
  return (
    <tr class={group === null ? "measured" : "measured first"}>
      {group === null ? null : (
        <th scope="rowgroup" rowSpan={group.lines.length} class="analyte">
          <GroupName report={report} group={group} />
        </th>
      )}
      <th scope="row" class="measure">
        {leads ? <b>{title}</b> : title}
      </th>
      <td class="number net" data-label={columns.sensitivity}>
        <Share report={report} of={line.sensitivity.value} />
      </td>
      <td class="number net second" data-label={columns.specificity}>
        <Share report={report} of={line.specificity.value} />
      </td>
      <td class="number estimate" data-label={columns.ppvShort}>
        <PercentInterval report={report} of={line.ppv} {...(target === null ? {} : { threshold: target })} />
      </td>
      {independenceMatters(report) ? <Alone report={report} line={line} /> : null}
      <td class="figure">
        <div class="card-scale">
          <StripScale domain={domain} width={STRIP} />
        </div>
        <PpvStrip
          ppv={line.ppv}
          independent={sameIfIndependent(line) ? null : line.independent.ppv}
          target={target}
          domain={domain}
          width={STRIP}
        />
      </td>
      {target === null ? null : (
        <td class="number judgement" data-label={columns.chance(targetText(report))}>
          {line.chance.ppv === null ? "" : formats.probability(line.chance.ppv)}
        </td>
      )}
    </tr>
  );
}

/** The PPV if the kits erred independently, as exact as the PPV beside it; nothing for a single kit. */
function Alone({ report, line }: Pick<LineProps, "report" | "line">) {
  const { columns } = report.words.algorithm.answer;
  const { ppv, independent } = line;
  if (independent.ppv === null || sameIfIndependent(line)) return <td class="number alone" />;
  const own = { value: independent.ppv, lower: null, upper: null };
  const decimals = Math.max(formats.percentDecimals(ppv), formats.percentDecimals(own));
  return (
    <td class="number alone" data-label={columns.independent}>
      {formats.percent(independent.ppv, decimals)}
    </td>
  );
}
