import { wrapText } from "../../figures/measure-text.ts";
import { count, expectedPeople } from "../formats.ts";
import { wholePeople } from "./whole-people.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

export interface NaturalFrequenciesProps {
  /** What the array shows, for its accessible name. */
  readonly title: string;
  /** Expected people, in any scale: per 10,000, or shares. */
  readonly truePositives: number;
  readonly falseNegatives: number;
  readonly falsePositives: number;
  readonly trueNegatives: number;
  readonly words?: FigureWords["naturalFrequencies"] | undefined;
}

const KINDS = ["truePositives", "falseNegatives", "falsePositives", "trueNegatives"] as const;
type Kind = (typeof KINDS)[number];

const PEOPLE = 1000;
const ROWS = 20;
const PITCH = 8.6;
/** Between blocks of ten by ten, so that hundreds can be counted. */
const BLOCK_GAP = 6;
const ARRAY_WIDTH = 50 * PITCH + 4 * BLOCK_GAP;
const ARRAY_HEIGHT = ROWS * PITCH + BLOCK_GAP;
const KEY = ARRAY_WIDTH + 26;
const WIDTH = 720;

/**
 * A thousand people as marks: found (filled dots), missed (rings), false alarms (diamonds), and
 * everyone else (points). Column by column, in blocks of a hundred. Marks are whole people that add
 * up to 1,000; the words beside them give the expected number.
 */
export function NaturalFrequencies(props: NaturalFrequenciesProps) {
  const words = props.words ?? FIGURE_WORDS.naturalFrequencies;
  const expected = KINDS.map((kind) => props[kind]);
  const sum = expected.reduce((total, value) => total + value, 0);
  const whole = wholePeople(expected, PEOPLE);
  const starts = whole.map((_, index) => whole.slice(0, index).reduce((total, value) => total + value, 0));
  const shown = KINDS.map((kind, index) => ({
    kind,
    from: starts[index] ?? 0,
    people: whole[index] ?? 0,
    words: words.kinds[kind](expectedPeople(sum > 0 ? ((expected[index] ?? 0) * PEOPLE) / sum : 0)),
  }));
  const note = wrapText(words.scale(count(PEOPLE), count(100)), WIDTH - KEY, 10.5);
  return (
    <svg
      class="fig fig-drawn fig-wide"
      role="img"
      width={WIDTH}
      height={ARRAY_HEIGHT}
      viewBox={`0 0 ${WIDTH} ${ARRAY_HEIGHT}`}
    >
      <title>{props.title}</title>
      <desc>{words.text(shown.map((one) => one.words))}</desc>
      {shown
        .filter(({ people }) => people > 0)
        .map(({ kind, from, people }) => (
          <path key={kind} class={`fig-person fig-${KEBAB[kind]}`} d={marks(kind, from, people)} />
        ))}
      {shown.map(({ kind, words: line }, index) => (
        <g key={kind}>
          <path class={`fig-person fig-${KEBAB[kind]}`} d={mark(kind, KEY, 14 + index * 24)} />
          <text x={KEY + 14} y={18 + index * 24}>
            {line}
          </text>
        </g>
      ))}
      {note.map((line, index) => (
        <text key={line} class="fig-label" x={KEY - 4} y={ARRAY_HEIGHT - 6 - (note.length - 1 - index) * 14}>
          {line}
        </text>
      ))}
    </svg>
  );
}

const KEBAB: Record<Kind, string> = {
  truePositives: "found",
  falseNegatives: "missed",
  falsePositives: "false-alarm",
  trueNegatives: "rest",
};

function marks(kind: Kind, from: number, people: number): string {
  return Array.from({ length: people }, (_, offset) => {
    const { x, y } = place(from + offset);
    return mark(kind, x, y);
  }).join("");
}

/** Centre of the n-th person's mark. */
export function place(person: number): { x: number; y: number } {
  const column = Math.floor(person / ROWS);
  const row = person % ROWS;
  const x = (column + 0.5) * PITCH + Math.floor(column / 10) * BLOCK_GAP;
  const y = (row + 0.5) * PITCH + Math.floor(row / 10) * BLOCK_GAP;
  return { x: hundredths(x), y: hundredths(y) };
}

function mark(kind: Kind, x: number, y: number): string {
  switch (kind) {
    case "falseNegatives":
      return `M${hundredths(x - 2.6)} ${y}a2.6 2.6 0 1 1 5.2 0a2.6 2.6 0 1 1 -5.2 0`;
    case "falsePositives":
      return `M${x} ${hundredths(y - 3.4)}l3.4 3.4l-3.4 3.4l-3.4 -3.4z`;
    default:
      return `M${x} ${y}h0`;
  }
}

function hundredths(pixels: number): number {
  return Math.round(pixels * 100) / 100;
}
