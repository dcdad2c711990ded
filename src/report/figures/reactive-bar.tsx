import { expectedPeople } from "../formats.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

export interface ReactiveBarProps {
  /** Expected people per 10,000 tested; `null` where they can't be had. */
  readonly truePositives: number | null;
  readonly falsePositives: number | null;
  /** People at the right end of the scale: the same for all bars of a table. */
  readonly most: number;
  readonly width?: number | undefined;
  readonly words?: FigureWords["reactiveBar"] | undefined;
}

const HEIGHT = 16;
const GAP = 1;

/** Reactive results on a shared scale: the true ones, then, after a gap, the false ones. */
export function ReactiveBar(props: ReactiveBarProps) {
  const { truePositives, falsePositives, most, width = 300, words = FIGURE_WORDS.reactiveBar } = props;
  const known = truePositives !== null && falsePositives !== null;
  const scale = (people: number) => Math.round(((width - GAP) * people * 100) / Math.max(most, 1e-9)) / 100;
  const text = known
    ? words.text(
        expectedPeople(truePositives),
        expectedPeople(falsePositives),
        expectedPeople(truePositives + falsePositives),
      )
    : words.nothing;
  return (
    <svg
      class="fig fig-drawn fig-strip"
      role="img"
      width={width}
      height={HEIGHT}
      viewBox={`0 0 ${width} ${HEIGHT}`}
    >
      <title>{text}</title>
      <path class="fig-axis" d={`M.5 1V${HEIGHT - 1}`} />
      {known && (
        <>
          <rect class="fig-true" x={0} y={3} width={scale(truePositives)} height={10} />
          <rect
            class="fig-false"
            x={scale(truePositives) + GAP}
            y={3}
            width={scale(falsePositives)}
            height={10}
          />
        </>
      )}
    </svg>
  );
}

/** The shared end of the scale: the most reactive results of any row. */
export function mostReactive(
  rows: readonly { readonly truePositives: number | null; readonly falsePositives: number | null }[],
): number {
  return Math.max(1, ...rows.map((row) => (row.truePositives ?? 0) + (row.falsePositives ?? 0)));
}
