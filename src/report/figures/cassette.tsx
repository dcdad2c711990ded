import { textWidth } from "../../figures/measure-text.ts";
import type { LineKit } from "../../records/kit.ts";
import { FIGURE_WORDS, type FigureWords } from "./words.ts";

type Line = LineKit["lines"][number];

export interface CassetteProps {
  readonly kit: Pick<LineKit, "title" | "lines" | "faint_line">;
  /** Names of analytes by id; an absent one is shown by its id. */
  readonly analytes?: Readonly<Record<string, string>> | undefined;
  readonly words?: FigureWords["cassette"] | undefined;
}

interface Pattern {
  readonly seen: ReadonlySet<string>;
  readonly words: string;
}

const PITCH = 30;
const ROW = 30;
const LEGEND = { pitch: 15, height: 18 };

/** A schematic of the kit's lines as the kit file names them, and what patterns of lines mean. */
export function Cassette({ kit, analytes = {}, words = FIGURE_WORDS.cassette }: CassetteProps) {
  const name = (id: string) => analytes[id] ?? id;
  const patterns = patternsOf(kit, name, words);
  const window = kit.lines.length * PITCH + 20;
  const body = Math.max(window + 130, Math.ceil(textWidth(words.faint[kit.faint_line], 10.5)));
  const legend = body + 36;
  const mini = kit.lines.length * LEGEND.pitch + 10;
  const widest = Math.max(...patterns.map((pattern) => textWidth(pattern.words, 12)));
  const width = Math.ceil(legend + mini + 14 + widest);
  const height = Math.max(112, patterns.length * ROW);
  const top = Math.round((height - 112) / 2);
  return (
    <svg
      class="fig fig-drawn fig-wide"
      role="img"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
    >
      <title>{words.title(kit.title)}</title>
      <desc>{patterns.map((pattern) => pattern.words).join("; ")}.</desc>
      <rect class="fig-box" x={0.5} y={top + 0.5} width={body - 1} height={83} rx={13} />
      <rect class="fig-window" x={18.5} y={top + 28.5} width={window} height={34} rx={4} />
      {kit.lines.map((line, index) => (
        <g key={line.id}>
          <text class="fig-strong" x={18.5 + centre(index)} y={top + 21} text-anchor="middle">
            {line.id}
          </text>
          <path class={lineClass(line)} d={`M${18.5 + centre(index)} ${top + 32}v27`} />
        </g>
      ))}
      <circle class="fig-window" cx={body - 46} cy={top + 45.5} r={15} />
      <text class="fig-label" x={body - 46} y={top + 21} text-anchor="middle">
        {words.well}
      </text>
      <text class="fig-label" x={0} y={top + 106}>
        {words.faint[kit.faint_line]}
      </text>
      {patterns.map((pattern, index) => (
        <Legend
          key={pattern.words}
          pattern={pattern}
          lines={kit.lines}
          x={legend}
          y={middleOf(index, patterns.length, height)}
          width={mini}
        />
      ))}
    </svg>
  );
}

function centre(index: number): number {
  return 10 + (index + 0.5) * PITCH;
}

function middleOf(index: number, rows: number, height: number): number {
  return (height - rows * ROW) / 2 + (index + 0.5) * ROW;
}

function lineClass(line: Line): string {
  return line.role === "control" ? "fig-control-line" : "fig-test-line";
}

interface LegendProps {
  readonly pattern: Pattern;
  readonly lines: readonly Line[];
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

function Legend({ pattern, lines, x, y, width }: LegendProps) {
  const top = y - LEGEND.height / 2;
  return (
    <g>
      <rect class="fig-window" x={x} y={top} width={width} height={LEGEND.height} rx={3} />
      {lines.map((line, index) => (
        <path
          key={line.id}
          class={pattern.seen.has(line.id) ? lineClass(line) : "fig-absent-line"}
          d={`M${x + 5 + (index + 0.5) * LEGEND.pitch} ${top + 3}v${LEGEND.height - 6}`}
        />
      ))}
      <text x={x + width + 10} y={y + 4}>
        {pattern.words}
      </text>
    </g>
  );
}

/** Control line alone; with each test line; with all of them; and without the control line. */
function patternsOf(
  kit: CassetteProps["kit"],
  name: (id: string) => string,
  words: FigureWords["cassette"],
): Pattern[] {
  const control = kit.lines.filter((line) => line.role === "control").map((line) => line.id);
  const tests = kit.lines.filter((line) => line.role === "test");
  const seen = (...ids: readonly string[]) => new Set(ids);
  const each = tests.map((line) => ({
    seen: seen(...control, line.id),
    words: words.reactive([name(line.analyte)]),
  }));
  const all = {
    seen: seen(...control, ...tests.map((line) => line.id)),
    words: words.reactive([...new Set(tests.map((line) => name(line.analyte)))]),
  };
  return [
    { seen: seen(...control), words: words.nonreactive },
    ...each,
    ...(tests.length > 1 ? [all] : []),
    { seen: seen(...tests.map((line) => line.id)), words: words.invalid },
  ];
}
