import { wrapText } from "../../figures/measure-text.ts";
import {
  ALGORITHM,
  type AlgorithmLayout,
  type Flow,
  layOutAlgorithm,
  type PlacedEdge,
  type PlacedEnd,
  type PlacedStep,
  type TreeLead,
  type TreeStep,
} from "./algorithm-layout.ts";
import { ALGORITHM_FIGURE_WORDS, type AlgorithmFigureWords } from "./algorithm-words.ts";
import { FATE_CLASS, type Fate, personMark } from "./person-marks.ts";

export interface AlgorithmTreeProps {
  /** What the tree shows, for its accessible name. */
  readonly title: string;
  readonly steps: readonly TreeStep[];
  /** People expected with each result at each step, of `people` tested. */
  readonly leads: readonly TreeLead[];
  /** Those of them in truth positive and negative. */
  readonly all: Flow;
  readonly people: number;
  readonly words?: AlgorithmFigureWords["tree"] | undefined;
}

type Words = AlgorithmFigureWords["tree"];
const TOP = 22;
const KEY = 44;
const KINDS = ["diseased", "nondiseased"] as const;

/**
 * The algorithm as a tree from top to bottom, with the people expected on every branch. Those in truth
 * positive are a full line, those in truth negative a hollow one; ends bear the marks of the array of people.
 */
export function AlgorithmTree(props: AlgorithmTreeProps) {
  const words = props.words ?? ALGORITHM_FIGURE_WORDS.tree;
  const layout = layOutAlgorithm(props.steps, props.leads, props.all);
  const width = Math.max(layout.width, 344);
  const height = layout.height + TOP + KEY;
  return (
    <svg
      class="fig fig-drawn fig-wide"
      role="img"
      width={width + 2}
      height={height}
      viewBox={`-1 ${-TOP} ${width + 2} ${height}`}
    >
      <title>{props.title}</title>
      <desc>{inWords(props, layout, words)}</desc>
      {layout.edges.map((edge) => (
        <Edge key={`${edge.from} ${edge.to}`} edge={edge} words={words} />
      ))}
      <text class="fig-strong" x={0} y={-8}>
        {words.start(props.people)}
      </text>
      {layout.steps.map((placed) => (
        <Box key={placed.step.id} placed={placed} words={words} />
      ))}
      {layout.ends.map((end) => (
        <End key={`${end.x} ${end.y}`} end={end} words={words} />
      ))}
      <Key y={layout.height + 14} words={words} />
    </svg>
  );
}

function Box({ placed, words }: { placed: PlacedStep; words: Words }) {
  const { x, y, height, title, step } = placed;
  const left = x + ALGORITHM.padding;
  const notes = [words.step(step.id), ...(step.again > 0 ? [words.again(step.again)] : [])];
  return (
    <>
      <rect class="fig-box" x={x} y={y} width={ALGORITHM.box} height={height} />
      {title.map((line, at) => (
        <text key={line} class="fig-strong" x={left} y={y + 18 + at * ALGORITHM.line}>
          {line}
        </text>
      ))}
      {notes.map((line, at) => (
        <text key={line} class="fig-label" x={left} y={y + 18 + (title.length + at) * ALGORITHM.line}>
          {line}
        </text>
      ))}
    </>
  );
}

function Edge({ edge, words }: { edge: PlacedEdge; words: Words }) {
  const { from, to, flow, result } = edge;
  const down = from[0] === to[0];
  const label = result === null ? null : words.results[result];
  const above = flow.diseased > 0 ? widthOf(flow.diseased) + 5 : 5;
  const x = down ? from[0] + 16 : from[0] + 9;
  const y = down ? from[1] + 15 : from[1] - above;
  const counts = result === null ? words.truth(flow) : null;
  return (
    <>
      {KINDS.map((kind) => (
        <Ribbon key={kind} edge={edge} kind={kind} />
      ))}
      {label === null ? null : (
        <text class="fig-label" x={x} y={y}>
          {label}
        </text>
      )}
      {edge.counted
        ? KINDS.map((kind, at) => (
            <Counted
              key={kind}
              kind={kind}
              text={counts?.[kind] ?? words.people(flow[kind])}
              x={down ? x : x + 96}
              y={
                down
                  ? from[1] + 15 + (at + (label === null ? 0 : 1)) * 14
                  : from[1] + (at === 0 ? -above : 20)
              }
            />
          ))
        : null}
    </>
  );
}

/** A number with the line of its kind before it. */
function Counted({ kind, text, x, y }: { kind: keyof Flow; text: string; x: number; y: number }) {
  return (
    <>
      <Stroke kind={kind} width={5} d={`M${x} ${y - 4}h14`} />
      <text x={x + 20} y={y}>
        {text}
      </text>
    </>
  );
}

function Ribbon({ edge, kind }: { edge: PlacedEdge; kind: keyof Flow }) {
  const { from, to, flow } = edge;
  if (flow[kind] <= 0) return null;
  const width = widthOf(flow[kind]);
  const shift = (kind === "diseased" ? -1 : 1) * (width / 2 + 1);
  const d =
    from[0] === to[0] ? `M${from[0] + shift} ${from[1]}V${to[1]}` : `M${from[0]} ${from[1] + shift}H${to[0]}`;
  return <Stroke kind={kind} width={width} d={d} />;
}

/** Full for those in truth positive; for the others hollow, or dashed where it is too thin for that. */
function Stroke({ kind, width, d }: { kind: keyof Flow; width: number; d: string }) {
  if (kind === "diseased") return <path class="fig-flow-full" d={d} stroke-width={width} />;
  if (width < 3) return <path class="fig-flow-hollow fig-flow-dashed" d={d} stroke-width={width} />;
  return (
    <>
      <path class="fig-flow-hollow" d={d} stroke-width={width} />
      <path class="fig-flow-inside" d={d} stroke-width={width - 2} />
    </>
  );
}

/** The width of a line, by powers of ten of the people on it. */
function widthOf(people: number): number {
  if (people < 1) return 1.2;
  if (people < 10) return 2;
  if (people < 100) return 3.5;
  return people < 1000 ? 5.5 : 8;
}

const FATES: Record<"positive" | "negative" | "inconclusive", Record<keyof Flow, Fate>> = {
  positive: { diseased: "found", nondiseased: "falseAlarm" },
  negative: { diseased: "missed", nondiseased: "rest" },
  inconclusive: { diseased: "unclearPositive", nondiseased: "unclearNegative" },
};

function End({ end, words }: { end: PlacedEnd; words: Words }) {
  const { status, flow } = end;
  const x = end.below ? end.x - ALGORITHM.box / 2 + 10 : end.x;
  const title = status === null ? words.elsewhere(end.elsewhere ?? "") : words.statuses[status];
  const lines = twoLines(wrapText(title, ALGORITHM.end, ALGORITHM.text, "bold"));
  const y = end.below ? end.y + 6 : end.y - 9;
  return (
    <>
      {lines.map((line, at) => (
        <text key={line} class="fig-strong" x={x} y={y - (lines.length - 1 - at) * 14}>
          {line}
        </text>
      ))}
      {KINDS.map((kind, at) =>
        status === null ? (
          <Counted key={kind} kind={kind} text={words.people(flow[kind])} x={x} y={y + 15 + at * 14} />
        ) : (
          <Fated
            key={kind}
            fate={FATES[status][kind]}
            text={`${words.people(flow[kind])} ${words.ends[status][kind]}`}
            x={x}
            y={y + 15 + at * 14}
          />
        ),
      )}
    </>
  );
}

/** No more room is between one end and the next. */
function twoLines([first, second, ...more]: readonly string[]): string[] {
  if (first === undefined) return [];
  if (second === undefined) return [first];
  return [first, more.length > 0 ? `${second}…` : second];
}

function Fated({ fate, text, x, y }: { fate: Fate; text: string; x: number; y: number }) {
  return (
    <>
      <path class={`fig-person ${FATE_CLASS[fate]}`} d={personMark(fate, x + 4, y - 4, 3)} />
      <text x={x + 14} y={y}>
        {text}
      </text>
    </>
  );
}

function Key({ y, words }: { y: number; words: Words }) {
  return (
    <>
      {KINDS.map((kind, at) => (
        <g key={kind}>
          <Stroke kind={kind} width={5} d={`M${at * 112} ${y - 4}h14`} />
          <text class="fig-label" x={at * 112 + 20} y={y}>
            {words.key[kind]}
          </text>
        </g>
      ))}
      <text class="fig-label" x={0} y={y + 16}>
        {words.key.width}
      </text>
    </>
  );
}

/** Every exit in a sentence. */
function inWords({ people }: AlgorithmTreeProps, layout: AlgorithmLayout, words: Words): string {
  const start = layout.edges.find(({ result }) => result === null)?.flow;
  const begin = start === undefined ? null : words.truth(start);
  const steps = layout.steps.toSorted((one, other) => one.y - other.y || one.x - other.x);
  const exits = steps.flatMap(({ step, x, y, height }) =>
    layout.edges
      .filter(
        ({ from, result }) =>
          result !== null &&
          from[0] >= x &&
          from[0] <= x + ALGORITHM.box &&
          from[1] >= y &&
          from[1] <= y + height,
      )
      .map(({ result, flow }) => {
        const next = result === null ? "" : step[result];
        const kit = layout.steps.find((one) => one.step.id === next)?.step.kit;
        const end =
          kit === undefined
            ? words.statuses[next as keyof Words["statuses"]].toLowerCase()
            : words.elsewhere(kit);
        return words.exit(step.kit, result === null ? "" : words.results[result], end, flow);
      }),
  );
  const opening =
    begin === null ? words.start(people) : `${words.start(people)}: ${begin.diseased}, ${begin.nondiseased}`;
  return `${opening}. ${exits.join(" ")}`;
}
