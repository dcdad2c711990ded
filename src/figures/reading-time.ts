import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { people as peopleWords, statedRange } from "./numbers.ts";
import { type ReadingPiece, type ReadingTimes, readingPieces } from "./reading-bars.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";
import { CHART_WORDS, type ChartWords } from "./words.ts";

export interface ReadingTimeData extends ReadingTimes {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The analyte as a reader knows it. */
  readonly analyte: string;
  readonly words?: ChartWords;
}

const WIDTH = 640;
const HEIGHT = 190;
const TITLE_LEFT = -34;
const { ink, muted, paper, wash, deep, pale } = LIGHT_INKS;

/**
 * When results were read: people by minutes from the timed step, the reading window shaded, people
 * outside it paler. Bars beyond the last drawn minute (an hour, or three windows) are not drawn but
 * counted in words, as are people without a recorded time.
 */
export function readingTimeHistogram(data: ReadingTimeData): Specification {
  const words = data.words ?? CHART_WORDS;
  const last = lastMinute(data);
  const pieces = readingPieces(data).filter((piece) => piece.to <= last);
  const beyond = data.histogram.filter((bar) => bar.to > last).reduce((total, bar) => total + bar.people, 0);
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 56, right: 30, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.timeTitle(data.analyte),
    description: inWords(data, beyond, last, words),
  };
  return layered(wording, frame, [
    windowShade(data, last),
    bars(pieces, last, words),
    ...windowEdges(data),
    ...labels(data, last, beyond, words),
  ]);
}

/** The end of the time axis, minutes. */
function lastMinute(times: ReadingTimes): number {
  const longest = Math.max(
    times.window.to,
    ...times.histogram.filter((bar) => bar.people > 0).map((bar) => bar.to),
  );
  const most = Math.max(60, 3 * times.window.to);
  return Math.max(1, 1.6 * times.window.to, Math.min(longest, most));
}

function xChannel(field: string, last: number, words: ChartWords) {
  return {
    field,
    type: "quantitative" as const,
    scale: { domain: [0, last], nice: false },
    axis: {
      title: words.minutes,
      titleAnchor: "start" as const,
      titlePadding: 10,
      tickCount: 12,
      tickMinStep: 1,
      tickRound: false,
    },
  };
}

function windowShade(data: ReadingTimeData, last: number): Layer {
  const { from, to } = data.window;
  return {
    data: { values: [{ from, to: Math.min(to, last) }] },
    mark: { type: "rect", color: wash },
    encoding: {
      x: { field: "from", type: "quantitative" },
      x2: { field: "to" },
      y: { value: -30 },
      y2: { value: HEIGHT },
    },
  };
}

function windowEdges(data: ReadingTimeData): Layer[] {
  return [data.window.from, data.window.to].map((edge) => ({
    data: { values: [{ edge }] },
    mark: { type: "rule", color: muted, strokeWidth: 1, strokeDash: [3, 2] },
    encoding: { x: { field: "edge", type: "quantitative" }, y: { value: -30 }, y2: { value: HEIGHT } },
  }));
}

function bars(pieces: readonly ReadingPiece[], last: number, words: ChartWords): Layer {
  return {
    data: {
      values: pieces.map(({ from, to, when, people, base }) => ({
        from,
        to,
        when,
        people,
        base,
        top: base + people,
      })),
    },
    mark: { type: "rect", strokeWidth: 1 },
    encoding: {
      x: xChannel("from", last, words),
      x2: { field: "to" },
      y: {
        field: "base",
        type: "quantitative",
        scale: { domain: [0, Math.max(1, ...pieces.map((piece) => piece.base + piece.people))], nice: false },
        axis: { title: null, tickCount: 4, tickMinStep: 1, format: ",d" },
      },
      y2: { field: "top" },
      fill: { condition: { test: "datum.when === 'in'", value: deep }, value: pale },
      stroke: { condition: { test: "datum.when === 'in'", value: paper }, value: deep },
    },
  };
}

/** Early to the left of the window, late to the right, the window's own above it. */
function labels(data: ReadingTimeData, last: number, beyond: number, words: ChartWords): Layer[] {
  const { window, people } = data;
  const at = (minutes: number) => (WIDTH * minutes) / last;
  const inside = words.inWindow(peopleWords(people.in), statedRange(window.from, window.to));
  const room = textWidth(inside, LABEL_SIZE, "bold");
  const middle = Math.min(Math.max(at((window.from + window.to) / 2), room / 2 + 12), WIDTH + 20 - room / 2);
  const early = words.early(peopleWords(people.early));
  const earlyLeft = at(window.from) - 8 - textWidth(early, LABEL_SIZE);
  const late = [words.late(peopleWords(people.late))];
  if (beyond > 0) late.push(words.beyond(peopleWords(beyond), String(last)));
  return [
    label(inside, middle, -36, "center", deep, true),
    label(early, at(window.from) - 8, -12, "right", ink, false),
    label(late.join(", "), at(window.to) + 8, -12, "left", ink, false),
    label(words.people, TITLE_LEFT, earlyLeft < 24 ? -36 : -12, "left", ink, false),
    ...(people.unknown > 0
      ? [label(words.unknownTime(peopleWords(people.unknown)), WIDTH, HEIGHT + 40, "right", muted, false)]
      : []),
  ];
}

function label(
  text: string,
  x: number,
  y: number,
  align: "left" | "right" | "center",
  color: string,
  bold: boolean,
): Layer {
  return {
    data: { values: [{ words: text }] },
    mark: { type: "text", align, baseline: "alphabetic", color, fontWeight: bold ? 600 : "normal" },
    encoding: { x: { value: x }, y: { value: y }, text: { field: "words" } },
  };
}

function inWords(data: ReadingTimeData, beyond: number, last: number, words: ChartWords): string {
  const { people, window } = data;
  const parts = [
    words.early(peopleWords(people.early)),
    words.inWindow(peopleWords(people.in), statedRange(window.from, window.to)),
    words.late(peopleWords(people.late)),
  ];
  if (beyond > 0) parts.push(words.beyond(peopleWords(beyond), String(last)));
  if (people.unknown > 0) parts.push(words.unknownTime(peopleWords(people.unknown)));
  return `${parts.join("; ")}.`;
}
