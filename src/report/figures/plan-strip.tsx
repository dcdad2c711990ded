import { STRIP_HEIGHT, STRIP_MIDDLE, StripCriterion } from "./strip.tsx";
import { STRIP_MARGIN, STRIP_WIDTH, type StripDomain, stripScale } from "./strip-scale.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

export interface PlanStripProps {
  /** What is expected of the kit, a share. */
  readonly expected: number;
  readonly criterion: number;
  readonly direction: "at_least" | "at_most";
  /** Shares that would meet the criterion in a study of the size planned; `null` where there is none. */
  readonly passing: { readonly from: number; readonly to: number } | null;
  readonly domain: StripDomain;
  readonly width?: number | undefined;
  readonly words?: FigureWords["planStrip"] | undefined;
}

const HALF = 3;
const DOT = 3.6;

/**
 * The strip of a plan: nothing is measured yet, so the dot of what is expected is hollow, and the bar shows
 * which results would meet the criterion.
 */
export function PlanStrip(props: PlanStripProps) {
  const { expected, criterion, direction, passing, domain, width = STRIP_WIDTH } = props;
  const x = stripScale(domain, width);
  const bounded = stripScale(domain, width).clamp(true);
  const inside = (share: number) => share >= domain[0] && share <= domain[1];
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width + 2 * STRIP_MARGIN}
      height={STRIP_HEIGHT}
      viewBox={`${-STRIP_MARGIN} 0 ${width + 2 * STRIP_MARGIN} ${STRIP_HEIGHT}`}
    >
      <title>{inWords(props)}</title>
      <path class="fig-axis" d={`M0 ${STRIP_MIDDLE}H${width}`} />
      {passing !== null && (
        <rect
          class="fig-interval fig-undecided"
          x={r(bounded(passing.from))}
          y={STRIP_MIDDLE - HALF}
          width={r(Math.max(1, bounded(passing.to) - bounded(passing.from)))}
          height={2 * HALF}
        />
      )}
      <StripCriterion at={x(criterion)} direction={direction} inside={inside(criterion)} width={width} />
      {inside(expected) && <circle class="fig-ring" cx={r(x(expected))} cy={STRIP_MIDDLE} r={DOT} />}
    </svg>
  );
}

/** What the strip shows, for those who can't see it. */
function inWords({
  expected,
  criterion,
  direction,
  passing,
  words = FIGURE_WORDS.planStrip,
}: PlanStripProps) {
  return [
    words.expected(expected),
    words.criterion(criterion, direction),
    passing === null
      ? words.noPassing
      : words.passing(direction === "at_least" ? passing.from : passing.to, direction),
  ].join(", ");
}

/** A coordinate to a hundredth of a pixel. */
function r(value: number): number {
  return Math.round(value * 100) / 100;
}
