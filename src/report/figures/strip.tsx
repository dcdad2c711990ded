import type { Estimate } from "../../core/estimate.ts";
import type { Answer } from "../../evaluation/document.ts";
import { statedPercent } from "../formats.ts";
import { STRIP_MARGIN, STRIP_WIDTH, type StripDomain, stripScale, stripTicks } from "./strip-scale.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

export interface StripProps {
  readonly estimate: Estimate;
  /** Shares at the two ends of the line. */
  readonly domain: StripDomain;
  readonly criterion?: number | undefined;
  readonly direction?: "at_least" | "at_most" | undefined;
  readonly verdict?: Answer["verdict"] | undefined;
  /** Length of the line, pixels; the drawing is wider by its margins. */
  readonly width?: number | undefined;
  readonly words?: FigureWords["strip"] | undefined;
}

export const STRIP_HEIGHT = 26;
export const STRIP_MIDDLE = 13;
const HEIGHT = STRIP_HEIGHT;
const MIDDLE = STRIP_MIDDLE;
/** Half the height of the interval's bar, beside a verdict and without one. */
const HALF = { verdict: 3, plain: 2 };
const DOT = 3.6;
/** An interval shorter than this, in pixels, would hide behind a dot: a thin tick takes its place. */
export const DOT_GIVES_WAY = 14;
/** From this length on the tick is set apart from its interval by a gap. */
const HALO_FROM = 6;

/** The sign of the house: an estimate, its interval and the criterion on one thin line. */
export function Strip(props: StripProps) {
  const { estimate, domain, criterion, verdict, width = STRIP_WIDTH } = props;
  const x = stripScale(domain, width);
  const inside = (share: number) => share >= domain[0] && share <= domain[1];
  const missing = estimate.value === null;
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width + 2 * STRIP_MARGIN}
      height={HEIGHT}
      viewBox={`${-STRIP_MARGIN} 0 ${width + 2 * STRIP_MARGIN} ${HEIGHT}`}
    >
      <title>{stripInWords(props)}</title>
      <path class={missing ? "fig-axis fig-nothing" : "fig-axis"} d={`M0 ${MIDDLE}H${width}`} />
      {!missing && <StripInterval estimate={estimate} verdict={verdict} domain={domain} width={width} />}
      {criterion !== undefined && (
        <StripCriterion
          at={x(criterion)}
          direction={props.direction}
          inside={inside(criterion)}
          width={width}
        />
      )}
      {estimate.value !== null && inside(estimate.value) && (
        <StripMark at={x(estimate.value)} length={drawnLength(estimate, domain, width)} />
      )}
    </svg>
  );
}

/** Length of the interval as drawn, pixels; `null` without limits on both sides. */
export function drawnLength({ lower, upper }: Estimate, domain: StripDomain, width: number): number | null {
  const x = stripScale(domain, width).clamp(true);
  return lower === null || upper === null ? null : x(upper) - x(lower);
}

export function StripMark({ at, length }: { at: number; length: number | null }) {
  if (length === null || length >= DOT_GIVES_WAY) {
    return <circle class="fig-estimate" cx={r(at)} cy={MIDDLE} r={DOT} />;
  }
  const tick = `M${r(at)} ${MIDDLE - 6}V${MIDDLE + 6}`;
  return (
    <>
      {length >= HALO_FROM && <path class="fig-halo" d={tick} />}
      <path class="fig-estimate-tick" d={tick} />
    </>
  );
}

interface IntervalProps {
  readonly estimate: Estimate;
  readonly verdict: StripProps["verdict"];
  readonly domain: StripDomain;
  readonly width: number;
}

/** The interval as a bar; an arrow where it, or the estimate, runs out of the scale or has no limit. */
export function StripInterval({ estimate, verdict, domain, width }: IntervalProps) {
  const x = stripScale(domain, width).clamp(true);
  const { lower, upper } = estimate;
  if (lower === null && upper === null) return null;
  const left = x(lower ?? domain[0]);
  const right = x(upper ?? domain[1]);
  const length = Math.max(right - left, 1);
  const half = verdict === undefined ? HALF.plain : HALF.verdict;
  const start = Math.min(left, width - length);
  return (
    <>
      <rect
        class={`fig-interval fig-${(verdict ?? "plain").replace("_", "-")}`}
        x={r(start)}
        y={MIDDLE - half}
        width={r(length)}
        height={2 * half}
      />
      {(lower === null || lower < domain[0]) && (
        <path class="fig-arrow" d={`M-2 ${MIDDLE - 4}L-7 ${MIDDLE}L-2 ${MIDDLE + 4}`} />
      )}
      {(upper === null || upper > domain[1]) && (
        <path class="fig-arrow" d={`M${width + 2} ${MIDDLE - 4}l5 4l-5 4`} />
      )}
    </>
  );
}

interface CriterionProps {
  readonly at: number;
  readonly direction: StripProps["direction"];
  readonly inside: boolean;
  readonly width: number;
}

/** The criterion: a tick whose flag points to the side that was asked for; a bare arrow outside the scale. */
export function StripCriterion({ at, direction, inside, width }: CriterionProps) {
  const foot = direction === undefined ? 0 : direction === "at_least" ? 4 : -4;
  if (inside) return <path class="fig-criterion" d={`M${r(at + foot)} 3H${r(at)}V${HEIGHT - 3}`} />;
  const [edge, tip] = at < 0 ? [-4, -9] : [width + 4, width + 9];
  return <path class="fig-criterion" d={`M${edge} 1L${tip} 4.5L${edge} 8`} />;
}

/** What a strip shows, for those who can't see it. */
function stripInWords({
  estimate,
  criterion,
  direction,
  verdict,
  words = FIGURE_WORDS.strip,
}: StripProps): string {
  const parts = [estimate.value === null ? words.notEstimable : words.estimate(estimate)];
  if (criterion !== undefined) parts.push(words.criterion(criterion, direction ?? "at_least"));
  if (verdict !== undefined && verdict !== "not_estimable") parts.push(words.verdict[verdict]);
  return parts.join(", ");
}

export interface StripScaleProps {
  readonly domain: StripDomain;
  readonly width?: number | undefined;
  /** A tick in words; absent: a percentage without its sign. */
  readonly label?: ((tick: number) => string) | undefined;
  readonly words?: Pick<FigureWords["strip"], "scale"> | undefined;
}

/** The labelled scale that stands above a column of strips. */
export function StripScale(props: StripScaleProps) {
  const { domain, width = STRIP_WIDTH, label = statedPercent, words = FIGURE_WORDS.strip } = props;
  const x = stripScale(domain, width);
  const ticks = stripTicks(domain, width);
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width + 2 * STRIP_MARGIN}
      height={22}
      viewBox={`${-STRIP_MARGIN} 0 ${width + 2 * STRIP_MARGIN} 22`}
    >
      <title>{words.scale(label(domain[0]), label(domain[1]))}</title>
      <path class="fig-scale" d={ticks.map((tick) => `M${r(x(tick))} 17V22`).join("")} />
      {ticks.map((tick) => (
        <text key={tick} class="fig-label" x={r(x(tick))} y={12} text-anchor="middle">
          {label(tick)}
        </text>
      ))}
    </svg>
  );
}

/** A coordinate to a hundredth of a pixel. */
function r(value: number): number {
  return Math.round(value * 100) / 100;
}
