import type { Estimate } from "../../core/estimate.ts";
import {
  drawnLength,
  STRIP_HEIGHT,
  STRIP_MIDDLE,
  StripCriterion,
  StripInterval,
  StripMark,
} from "./strip.tsx";
import { STRIP_MARGIN, STRIP_WIDTH, type StripDomain, stripScale } from "./strip-scale.ts";

export interface PlaceStripProps {
  /** The middle of the studies with its limits. */
  readonly summary: Estimate;
  /** Where the true value of a place not studied may lie. */
  readonly prediction: Estimate;
  readonly criterion?: number | undefined;
  readonly domain: StripDomain;
  /** What the strip shows, for those who can't see it. */
  readonly label: string;
  readonly width?: number | undefined;
}

/** The strip of a summary: its interval as a thick bar, and a thin one with ends as far as a new place may lie. */
export function PlaceStrip(props: PlaceStripProps) {
  const { summary, prediction, criterion, domain, label, width = STRIP_WIDTH } = props;
  const x = stripScale(domain, width);
  const inside = (share: number) => share >= domain[0] && share <= domain[1];
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width + 2 * STRIP_MARGIN}
      height={STRIP_HEIGHT}
      viewBox={`${-STRIP_MARGIN} 0 ${width + 2 * STRIP_MARGIN} ${STRIP_HEIGHT}`}
    >
      <title>{label}</title>
      <path
        class={summary.value === null ? "fig-axis fig-nothing" : "fig-axis"}
        d={`M0 ${STRIP_MIDDLE}H${width}`}
      />
      <Prediction prediction={prediction} domain={domain} width={width} />
      {summary.value !== null && (
        <StripInterval estimate={summary} verdict="met" domain={domain} width={width} />
      )}
      {criterion !== undefined && (
        <StripCriterion at={x(criterion)} direction="at_least" inside={inside(criterion)} width={width} />
      )}
      {summary.value !== null && inside(summary.value) && (
        <StripMark at={x(summary.value)} length={drawnLength(summary, domain, width)} />
      )}
    </svg>
  );
}

/** A thin bar with upright ends; an arrow where it runs out of the scale. */
function Prediction(props: { prediction: Estimate; domain: StripDomain; width: number }) {
  const { domain, width } = props;
  const { lower, upper } = props.prediction;
  if (lower === null || upper === null) return null;
  const x = stripScale(domain, width).clamp(true);
  const [from, to] = [hundredths(x(lower)), hundredths(x(upper))];
  const end = (at: number, shown: boolean) => (shown ? `M${at} ${STRIP_MIDDLE - 5}v10` : "");
  const arrow = `M-2 ${STRIP_MIDDLE - 4}L-7 ${STRIP_MIDDLE}L-2 ${STRIP_MIDDLE + 4}`;
  return (
    <>
      <path class="fig-place" d={`M${from} ${STRIP_MIDDLE}H${to}`} />
      <path class="fig-place" d={`${end(from, lower >= domain[0])}${end(to, upper <= domain[1])}`} />
      {lower < domain[0] && <path class="fig-arrow" d={arrow} />}
    </>
  );
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
