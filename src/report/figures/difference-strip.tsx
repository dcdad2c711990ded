import type { Estimate } from "../../core/estimate.ts";
import type { Answer } from "../../evaluation/document.ts";
import {
  drawnLength,
  STRIP_HEIGHT,
  STRIP_MIDDLE,
  StripCriterion,
  StripInterval,
  StripMark,
} from "./strip.tsx";
import { STRIP_MARGIN, STRIP_WIDTH, type StripDomain, stripScale } from "./strip-scale.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

export interface Margin {
  /** Largest tolerable difference, a share above 0. */
  readonly margin: number;
  readonly kind: "noninferiority" | "equivalence";
  readonly verdict: Answer["verdict"];
}

export interface DifferenceStripProps {
  /** A difference of two shares, first less second. */
  readonly difference: Estimate;
  readonly domain: StripDomain;
  readonly margin?: Margin | null | undefined;
  readonly width?: number | undefined;
  readonly words?: FigureWords["difference"] | undefined;
}

/** Where a margin stands on the scale: below zero, and for equivalence above it as well. */
export function marginMarks(margin: Pick<Margin, "margin" | "kind"> | null | undefined): readonly number[] {
  if (margin === null || margin === undefined) return [];
  return margin.kind === "equivalence" ? [-margin.margin, margin.margin] : [-margin.margin];
}

/** A difference with its interval on one line: a thin rule at zero, and the margin as what was asked. */
export function DifferenceStrip(props: DifferenceStripProps) {
  const { difference, domain, margin, width = STRIP_WIDTH, words = FIGURE_WORDS.difference } = props;
  const x = stripScale(domain, width);
  const inside = (share: number) => share >= domain[0] && share <= domain[1];
  const verdict = margin?.verdict;
  const missing = difference.value === null;
  const zero = Math.round(x(0) * 100) / 100;
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width + 2 * STRIP_MARGIN}
      height={STRIP_HEIGHT}
      viewBox={`${-STRIP_MARGIN} 0 ${width + 2 * STRIP_MARGIN} ${STRIP_HEIGHT}`}
    >
      <title>{inWords(props, words)}</title>
      <path class={missing ? "fig-axis fig-nothing" : "fig-axis"} d={`M0 ${STRIP_MIDDLE}H${width}`} />
      {inside(0) && <path class="fig-zero" d={`M${zero} 0V${STRIP_HEIGHT}`} />}
      {!missing && <StripInterval estimate={difference} verdict={verdict} domain={domain} width={width} />}
      {marginMarks(margin).map((mark) => (
        <StripCriterion
          key={mark}
          at={x(mark)}
          direction={mark < 0 ? "at_least" : "at_most"}
          inside={inside(mark)}
          width={width}
        />
      ))}
      {difference.value !== null && inside(difference.value) && (
        <StripMark at={x(difference.value)} length={drawnLength(difference, domain, width)} />
      )}
    </svg>
  );
}

/** What the strip shows, for those who can't see it. */
function inWords({ difference, margin }: DifferenceStripProps, words: FigureWords["difference"]): string {
  const parts = [difference.value === null ? words.notEstimable : words.estimate(difference)];
  parts.push(...marginMarks(margin).map((mark) => words.margin(mark)));
  if (margin !== null && margin !== undefined && margin.verdict !== "not_estimable") {
    parts.push(words.verdict[margin.verdict]);
  }
  return parts.join(", ");
}
