import type { Estimate } from "../../core/estimate.ts";
import { ALGORITHM_FIGURE_WORDS, type AlgorithmFigureWords } from "./algorithm-words.ts";
import {
  drawnLength,
  STRIP_HEIGHT,
  STRIP_MIDDLE,
  StripCriterion,
  StripInterval,
  StripMark,
} from "./strip.tsx";
import { STRIP_MARGIN, STRIP_WIDTH, type StripDomain, stripScale } from "./strip-scale.ts";

export interface PpvStripProps {
  /** With the dependence that is stated. */
  readonly ppv: Estimate;
  /** If the kits erred independently; `null` where that is the same or can't be said. */
  readonly independent: number | null;
  readonly target: number | null;
  readonly domain: StripDomain;
  readonly width?: number | undefined;
  readonly words?: AlgorithmFigureWords["ppvStrip"] | undefined;
}

const DOT = 3.2;

/** The strip of a predictive value: interval and dot as it is, a hollow dot where independence would put it. */
export function PpvStrip(props: PpvStripProps) {
  const { ppv, independent, target, domain, width = STRIP_WIDTH } = props;
  const x = stripScale(domain, width);
  const inside = (share: number) => share >= domain[0] && share <= domain[1];
  const verdict = verdictOf(ppv, target);
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width + 2 * STRIP_MARGIN}
      height={STRIP_HEIGHT}
      viewBox={`${-STRIP_MARGIN} 0 ${width + 2 * STRIP_MARGIN} ${STRIP_HEIGHT}`}
    >
      <title>{inWords(props)}</title>
      <path
        class={ppv.value === null ? "fig-axis fig-nothing" : "fig-axis"}
        d={`M0 ${STRIP_MIDDLE}H${width}`}
      />
      {ppv.value !== null && <StripInterval estimate={ppv} verdict={verdict} domain={domain} width={width} />}
      {target !== null && (
        <StripCriterion at={x(target)} direction="at_least" inside={inside(target)} width={width} />
      )}
      {independent !== null && inside(independent) && (
        <circle class="fig-ring fig-independent" cx={hundredths(x(independent))} cy={STRIP_MIDDLE} r={DOT} />
      )}
      {ppv.value !== null && inside(ppv.value) && (
        <StripMark at={x(ppv.value)} length={drawnLength(ppv, domain, width)} />
      )}
    </svg>
  );
}

/** The weight of the interval's bar: wholly at or above the target, wholly below, or on both sides. */
function verdictOf({ lower, upper }: Estimate, target: number | null): "met" | "not_met" | "undecided" {
  if (target === null || lower === null || upper === null) return "undecided";
  if (lower >= target) return "met";
  return upper < target ? "not_met" : "undecided";
}

function inWords({ ppv, independent, target, words = ALGORITHM_FIGURE_WORDS.ppvStrip }: PpvStripProps) {
  return [
    words.ppv(ppv),
    ...(independent === null ? [] : [words.independent(independent)]),
    ...(target === null ? [] : [words.target(target)]),
  ].join(", ");
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
