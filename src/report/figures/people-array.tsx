import { count, expectedFew } from "../formats.ts";
import { ALGORITHM_FIGURE_WORDS, type AlgorithmFigureWords } from "./algorithm-words.ts";
import { FATE_CLASS, FATES, type Fate, personMark } from "./person-marks.ts";
import { wholePeople } from "./whole-people.ts";

export interface PeopleArrayProps {
  /** What the array shows, for its accessible name. */
  readonly title: string;
  /** Expected people of each kind, in any scale. */
  readonly expected: Readonly<Record<Fate, number>>;
  readonly words?: AlgorithmFigureWords["people"] | undefined;
}

const PEOPLE = 10_000;
const ROWS = 50;
const PITCH = 4.5;
/** Between blocks of ten by ten, so that hundreds can be counted. */
const GAP = 3;
const COLUMNS = PEOPLE / ROWS;
const WIDTH = COLUMNS * PITCH + (COLUMNS / 10 - 1) * GAP;
const HEIGHT = ROWS * PITCH + (ROWS / 10 - 1) * GAP;
const SIZE = 1.7;
const KEY_COLUMNS = 3;
const KEY_ROW = 20;

/**
 * Ten thousand people as marks, column by column in blocks of a hundred: first those in truth positive (found,
 * inconclusive, missed), then those falsely called positive or left inconclusive, then everyone else. Marks
 * are whole people that add up to 10,000; the words below give the expected number.
 */
export function PeopleArray(props: PeopleArrayProps) {
  const words = props.words ?? ALGORITHM_FIGURE_WORDS.people;
  const sum = FATES.reduce((all, fate) => all + props.expected[fate], 0);
  const whole = wholePeople(
    FATES.map((fate) => props.expected[fate]),
    PEOPLE,
  );
  const shown = FATES.map((fate, at) => ({
    fate,
    from: whole.slice(0, at).reduce((all, people) => all + people, 0),
    people: whole[at] ?? 0,
    expected: sum > 0 ? (props.expected[fate] * PEOPLE) / sum : 0,
  }));
  const keyed = shown.filter(({ expected }) => expected > 0);
  const height = HEIGHT + 14 + Math.ceil(keyed.length / KEY_COLUMNS) * KEY_ROW + 18;
  return (
    <svg
      class="fig fig-drawn fig-wide fig-people"
      role="img"
      width={WIDTH}
      height={height}
      viewBox={`0 0 ${WIDTH} ${height}`}
    >
      <title>{props.title}</title>
      <desc>
        {words.text(
          count(PEOPLE),
          keyed.map(({ fate, expected }) => words.kinds[fate](expectedFew(expected))),
        )}
      </desc>
      {shown
        .filter(({ people }) => people > 0)
        .map(({ fate, from, people }) => (
          <Marks key={fate} fate={fate} from={from} people={people} />
        ))}
      {keyed.map(({ fate, expected }, at) => {
        const x = Math.floor(at % KEY_COLUMNS) * (WIDTH / KEY_COLUMNS);
        const y = HEIGHT + 22 + Math.floor(at / KEY_COLUMNS) * KEY_ROW;
        return (
          <g key={fate}>
            <path
              class={`fig-person fig-large ${FATE_CLASS[fate]}`}
              d={personMark(fate, x + 5, y - 4, 3.2)}
            />
            <text x={x + 16} y={y}>
              {words.kinds[fate](expectedFew(expected))}
            </text>
          </g>
        );
      })}
      <text class="fig-label" x={0} y={height - 4}>
        {words.scale(count(PEOPLE), count(100))}
      </text>
    </svg>
  );
}

/** The marks of one kind. Whole columns of points are dotted lines: ten thousand paths make a heavy page. */
function Marks({ fate, from, people }: { fate: Fate; from: number; people: number }) {
  const dotted = fate === "rest" ? Math.ceil(from / ROWS) * ROWS : from + people;
  const single = Math.min(people, dotted - from);
  const columns = Math.floor((from + people - dotted) / ROWS);
  const last = dotted + columns * ROWS;
  const kind = `fig-person ${FATE_CLASS[fate]}`;
  return (
    <>
      <path
        class={kind}
        d={[...marks(fate, from, single), ...marks(fate, last, from + people - last)].join("")}
      />
      {columns > 0 && <path class={kind} stroke-dasharray={DOTS} d={lines(dotted, columns)} />}
    </>
  );
}

/** Down a column: ten points, then the gap between blocks. */
const DOTS = `${`0 ${PITCH} `.repeat(9)}0 ${PITCH + GAP}`;

function lines(from: number, columns: number): string {
  return Array.from({ length: columns }, (_, column) => {
    const top = place(from + column * ROWS);
    const bottom = place(from + column * ROWS + ROWS - 1);
    return `M${hundredths(top.x)} ${hundredths(top.y)}V${hundredths(bottom.y + 0.1)}`;
  }).join("");
}

function marks(fate: Fate, from: number, people: number): string[] {
  return Array.from({ length: Math.max(0, people) }, (_, offset) => {
    const { x, y } = place(from + offset);
    return personMark(fate, x, y, SIZE);
  });
}

function hundredths(pixels: number): number {
  return Math.round(pixels * 100) / 100;
}

/** Centre of the n-th person's mark. */
function place(person: number): { x: number; y: number } {
  const column = Math.floor(person / ROWS);
  const row = person % ROWS;
  return {
    x: (column + 0.5) * PITCH + Math.floor(column / 10) * GAP,
    y: (row + 0.5) * PITCH + Math.floor(row / 10) * GAP,
  };
}
