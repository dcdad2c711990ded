import type { Flow } from "../../evaluation/document.ts";
import { count } from "../formats.ts";
import { FLOW, type FlowBox, type FlowList, type FlowWords, layOutFlow } from "./flow-layout.ts";
import { FIGURE_WORDS } from "./words.ts";

export interface FlowDiagramProps {
  readonly flow: Flow;
  readonly words?: FlowWords | undefined;
}

/**
 * People from enrolment to the fourfold table, in the sense of STARD 2015 (item 19): one way down,
 * those who leave it to the right with their reasons, the rapid results side by side, each with its
 * reference results. All numbers are people, and each split adds up.
 */
export function FlowDiagram({ flow, words = FIGURE_WORDS.flow }: FlowDiagramProps) {
  const layout = layOutFlow(flow, words);
  return (
    <svg
      class="fig fig-drawn fig-wide"
      role="img"
      width={layout.width}
      height={layout.height}
      viewBox={`-1 -1 ${layout.width + 2} ${layout.height + 2}`}
    >
      <title>{words.title(flow.enrolled, flow.analysed)}</title>
      <desc>{flowInWords(flow, words)}</desc>
      <path class="fig-line" d={layout.paths.join("")} />
      {layout.boxes.map((box) => (
        <Box key={`${box.x} ${box.y}`} box={box} />
      ))}
      {layout.lists.map((list) => (
        <List key={`${list.x} ${list.y}`} list={list} />
      ))}
    </svg>
  );
}

function Box({ box }: { box: FlowBox }) {
  let y = box.y + 22;
  return (
    <>
      <rect
        class={box.empty ? "fig-box fig-box-empty" : "fig-box"}
        x={box.x}
        y={box.y}
        width={box.width}
        height={box.height}
      />
      {box.rows.map((row, index) => {
        const top = y;
        y += row.lines.length * FLOW.line;
        const look = row.rank === "note" ? "fig-second" : undefined;
        return (
          <g key={index}>
            <Lines lines={row.lines} x={box.x + FLOW.padding} y={top} look={look} />
            <text
              class={row.rank === "main" ? "fig-strong" : "fig-second"}
              x={box.x + box.width - FLOW.padding}
              y={top}
              text-anchor="end"
            >
              {count(row.people)}
            </text>
          </g>
        );
      })}
    </>
  );
}

function List({ list }: { list: FlowList }) {
  let y = list.y;
  return (
    <>
      {list.rows.map((row, index) => {
        const top = y;
        y += row.lines.length * FLOW.line;
        const look = row.rank === "main" ? "fig-strong" : undefined;
        return (
          <g key={index}>
            <text class={look} x={list.x} y={top} text-anchor="end">
              {count(row.people)}
            </text>
            <Lines lines={row.lines} x={list.x + FLOW.beside} y={top} look={look} />
          </g>
        );
      })}
    </>
  );
}

interface LinesProps {
  readonly lines: readonly string[];
  readonly x: number;
  readonly y: number;
  readonly look: string | undefined;
}

function Lines({ lines, x, y, look }: LinesProps) {
  return (
    <text class={look} x={x} y={y}>
      {lines.length === 1
        ? lines[0]
        : lines.map((line, index) => (
            <tspan key={index} x={x} dy={index === 0 ? 0 : FLOW.line}>
              {line}
            </tspan>
          ))}
    </text>
  );
}

/** The diagram in sentences, in the order of the way. */
export function flowInWords(flow: Flow, words: FlowWords = FIGURE_WORDS.flow): string {
  const say = (label: string, people: number) => words.step(label, people);
  const branches = flow.branches.map(({ rapid, people, reference }) => {
    const parts = (["positive", "negative", "indeterminate", "not_done"] as const)
      .filter((status) => reference[status] > 0)
      .map((status) => say(words.reference[status], reference[status]));
    return `${say(words.rapid[rapid], people)}${parts.length > 0 ? ` (${parts.join(", ")})` : ""}`;
  });
  const sentences = [
    say(words.enrolled, flow.enrolled),
    ...flow.before.map(({ reason, people }) => say(words.reason(reason), people)),
    say(words.eligible, flow.eligible),
    say(words.rapidNotDone, flow.rapidNotDone),
    say(words.tested, flow.tested),
    say(words.firstInvalid, flow.firstInvalid),
    ...branches,
    ...flow.setAside.map(({ reason, people }) => say(`${words.setAside}, ${words.reason(reason)}`, people)),
    say(words.analysed, flow.analysed),
  ];
  return `${sentences.join("; ")}.`;
}
