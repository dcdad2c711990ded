import type { Limits } from "../formats.ts";
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

export interface BeforeAfterProps {
  /** Above the line, hollow; `null`: nothing is drawn. */
  readonly before: Limits | null;
  /** On the line, as in every strip. */
  readonly after: Limits;
  readonly domain: StripDomain;
  readonly criterion?: { readonly threshold: number; readonly direction: "at_least" | "at_most" } | undefined;
  readonly width?: number | undefined;
  readonly words?: FigureWords["beforeAfter"] | undefined;
}

/** Room above the strip for what was before. */
const ABOVE = 6;
const TOP = 1;
const THICK = 5;

/**
 * What became of a share: hollow, above the line, as it was observed or believed; full, on the line, as it is
 * once corrected or after the data.
 */
export function BeforeAfterStrip(props: BeforeAfterProps) {
  const { before, after, domain, criterion, width = STRIP_WIDTH } = props;
  const x = stripScale(domain, width);
  const inside = (share: number) => share >= domain[0] && share <= domain[1];
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width + 2 * STRIP_MARGIN}
      height={STRIP_HEIGHT + ABOVE}
      viewBox={`${-STRIP_MARGIN} ${-ABOVE} ${width + 2 * STRIP_MARGIN} ${STRIP_HEIGHT + ABOVE}`}
    >
      <title>{inWords(props)}</title>
      <path
        class={after.value === null ? "fig-axis fig-nothing" : "fig-axis"}
        d={`M0 ${STRIP_MIDDLE}H${width}`}
      />
      {before !== null && <Before of={before} domain={domain} width={width} />}
      {after.value !== null && (
        <StripInterval estimate={after} verdict={undefined} domain={domain} width={width} />
      )}
      {criterion !== undefined && (
        <StripCriterion
          at={x(criterion.threshold)}
          direction={criterion.direction}
          inside={inside(criterion.threshold)}
          width={width}
        />
      )}
      {after.value !== null && inside(after.value) && (
        <StripMark at={x(after.value)} length={drawnLength(after, domain, width)} />
      )}
    </svg>
  );
}

/** The hollow bar, with a tick at its value; an arrow where it runs out of the scale. */
function Before({ of, domain, width }: { of: Limits; domain: StripDomain; width: number }) {
  const x = stripScale(domain, width).clamp(true);
  if (of.value === null) return null;
  const left = x(of.lower ?? of.value);
  const right = Math.max(x(of.upper ?? of.value), left + 2);
  const inside = of.value >= domain[0] && of.value <= domain[1];
  return (
    <>
      <rect class="fig-hollow" x={r(left)} y={TOP - 1} width={r(right - left)} height={THICK} />
      {inside && <path class="fig-tick" d={`M${r(x(of.value))} ${TOP - 4}V${TOP + THICK + 1}`} />}
      {(of.lower ?? of.value) < domain[0] && <path class="fig-out" d={`M-2 ${TOP - 1}l-4 2.5l4 2.5`} />}
      {(of.upper ?? of.value) > domain[1] && (
        <path class="fig-out" d={`M${width + 2} ${TOP - 1}l4 2.5l-4 2.5`} />
      )}
    </>
  );
}

function inWords({ before, after, criterion, words = FIGURE_WORDS.beforeAfter }: BeforeAfterProps): string {
  const parts = before === null ? [] : [words.before(before)];
  parts.push(words.after(after));
  if (criterion !== undefined) {
    parts.push(FIGURE_WORDS.strip.criterion(criterion.threshold, criterion.direction));
  }
  return parts.join(", ");
}

/** A coordinate to a hundredth of a pixel. */
function r(value: number): number {
  return Math.round(value * 100) / 100;
}
