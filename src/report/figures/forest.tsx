import type { ComponentChildren } from "preact";
import type { ProportionEstimate } from "../../core/estimate.ts";
import { countOf, percent, percentDecimals, percentRange } from "../formats.ts";
import { Strip, StripScale } from "./strip.tsx";
import { STRIP_MARGIN, type StripDomain, stripDomain, stripScale } from "./strip-scale.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

export interface ForestRow {
  readonly label: string;
  readonly estimate: ProportionEstimate;
}

export interface ForestStratum {
  readonly title: string;
  /** Named before the data were seen; `null` where the question does not arise. */
  readonly planned: boolean | null;
  readonly groups: readonly ForestRow[];
  /** A few words beside the title, such as a test of homogeneity. */
  readonly note?: string | undefined;
}

export interface ForestProps {
  /** What the table is, for its caption. */
  readonly caption: string;
  /** Heading of the column of strips: the measure with its unit. */
  readonly axis: string;
  readonly overall: ForestRow;
  readonly strata: readonly ForestStratum[];
  readonly criterion?: number | undefined;
  readonly direction?: "at_least" | "at_most" | undefined;
  readonly domain?: StripDomain | undefined;
  readonly width?: number | undefined;
  readonly words?: FigureWords | undefined;
}

/**
 * Subgroups as a table of strips on one labelled scale: right / all, percentage, interval, strip.
 * The dotted rule through all rows is the overall estimate, the solid one the criterion. Groups that
 * were not planned are marked in words, and their rows are set in italics.
 */
export function Forest(props: ForestProps) {
  const { overall, strata, criterion, width = 230, words = FIGURE_WORDS } = props;
  const estimates = [overall, ...strata.flatMap((stratum) => stratum.groups)].map((row) => row.estimate);
  const domain =
    props.domain ??
    stripDomain(
      estimates,
      criterion === undefined ? [] : [criterion],
      props.direction === "at_most" ? "be_low" : "be_high",
    );
  const lines = (
    <Lines overall={overall.estimate.value} criterion={criterion} domain={domain} width={width} />
  );
  const shared = { lines, criterion, domain, width, words };
  return (
    <table class="fig-forest">
      <caption>{props.caption}</caption>
      <thead>
        <tr>
          <th scope="col">{words.forest.group}</th>
          <th scope="col" class="fig-number">
            {words.forest.counts}
          </th>
          <th scope="col" class="fig-number">
            {words.forest.percent}
          </th>
          <th scope="col">{words.forest.interval}</th>
          <th scope="col" class="fig-strips">
            <span>{props.axis}</span>
            <StripScale domain={domain} width={width} words={words.strip} />
          </th>
        </tr>
      </thead>
      <tbody>
        <Row {...shared} row={overall} kind="overall" />
      </tbody>
      {strata.map((stratum) => (
        <Stratum key={stratum.title} {...shared} stratum={stratum} />
      ))}
      <tfoot>
        <tr>
          <td colSpan={5}>{words.forest.howToRead(overall.label, criterion)}</td>
        </tr>
      </tfoot>
    </table>
  );
}

interface Shared {
  readonly lines: ComponentChildren;
  readonly criterion: number | undefined;
  readonly domain: StripDomain;
  readonly width: number;
  readonly words: FigureWords;
}

function Stratum({ stratum, ...shared }: Shared & { stratum: ForestStratum }) {
  const { words } = shared;
  return (
    <tbody class={stratum.planned === false ? "fig-exploratory" : undefined}>
      <tr class="fig-stratum">
        <th scope="rowgroup" colSpan={4}>
          {stratum.title}
          {stratum.planned !== null && (
            <span class="fig-plan">{stratum.planned ? words.forest.planned : words.forest.exploratory}</span>
          )}
          {stratum.note !== undefined && <span class="fig-plan">{stratum.note}</span>}
        </th>
        <td class="fig-strips">{shared.lines}</td>
      </tr>
      {stratum.groups.map((row) => (
        <Row key={row.label} {...shared} row={row} kind="group" />
      ))}
    </tbody>
  );
}

function Row({
  row,
  kind,
  lines,
  criterion,
  domain,
  width,
  words,
}: Shared & { row: ForestRow; kind: "overall" | "group" }) {
  const { estimate } = row;
  const decimals = percentDecimals(estimate, criterion);
  return (
    <tr class={`fig-${kind}`}>
      <th scope="row">{row.label}</th>
      <td class="fig-number">{countOf(estimate.count, estimate.total)}</td>
      <td class="fig-number fig-value">
        {estimate.value === null ? words.forest.nothing : percent(estimate.value, decimals)}
      </td>
      <td class="fig-limits">{percentRange(estimate, decimals) ?? ""}</td>
      <td class="fig-strips">
        {lines}
        <Strip estimate={estimate} domain={domain} width={width} words={words.strip} />
      </td>
    </tr>
  );
}

interface LinesProps {
  readonly overall: number | null;
  readonly criterion: number | undefined;
  readonly domain: StripDomain;
  readonly width: number;
}

/** Overall estimate and criterion as rules through a whole cell, however high it grows. */
export function Lines({ overall, criterion, domain, width }: LinesProps) {
  const x = stripScale(domain, width);
  const at = (share: number) => Math.round((x(share) + STRIP_MARGIN) * 100) / 100;
  const inside = (share: number | null | undefined): share is number =>
    typeof share === "number" && share >= domain[0] && share <= domain[1];
  const whole = width + 2 * STRIP_MARGIN;
  return (
    <svg
      class="fig-drawn fig-lines"
      aria-hidden="true"
      width={whole}
      height="100%"
      viewBox={`0 0 ${whole} 1`}
      preserveAspectRatio="none"
    >
      {inside(overall) && <path class="fig-overall-line" d={`M${at(overall)} 0V1`} />}
      {inside(criterion) && <path class="fig-criterion-line" d={`M${at(criterion)} 0V1`} />}
    </svg>
  );
}
