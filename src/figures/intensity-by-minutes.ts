import { LIGHT_INKS } from "./inks.ts";
import { INTENSITY_CHART_WORDS, type IntensityChartWords } from "./intensity-words.ts";
import { dotOf } from "./minute-labels.ts";
import { drawn, people as peopleText, statedRange } from "./numbers.ts";
import { TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import { placeOn, type ReadingScale, readingChannel, readingScale, readingText } from "./reading-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";

type Truth = "positive" | "negative";

/** The readings of one truth in one band of minutes. */
export interface MinuteBand {
  readonly truth: Truth;
  readonly from: number;
  readonly to: number;
  readonly people: number;
  readonly lower: number;
  readonly median: number;
  readonly upper: number;
}

export interface IntensityByMinutesData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly of: string;
  readonly unit: string;
  readonly scale: ReadingScale["kind"];
  readonly window: { readonly from: number; readonly to: number } | null;
  readonly bands: readonly MinuteBand[];
  readonly cutoff: { readonly at: number; readonly label: string } | null;
  readonly words?: IntensityChartWords;
}

const WIDTH = 600;
const HEIGHT = 220;
const RIGHT = 128;
/** Half the distance between the two marks of a band, pixels. */
const APART = 6;
const { ink, muted, wash, deep, amber } = LIGHT_INKS;
const TRUTHS = ["positive", "negative"] as const;

/** Median and middle half of the readings by the minute of reading, with the condition full, without hollow. */
export function intensityByMinutes(data: IntensityByMinutesData): Specification {
  const words = data.words ?? INTENSITY_CHART_WORDS;
  const last = Math.max(1, data.window?.to ?? 0, ...data.bands.map(({ to }) => to)) * 1.02;
  const scale = readingScale(
    [
      ...data.bands.flatMap(({ lower, upper }) => [lower, upper]),
      ...(data.cutoff === null ? [] : [data.cutoff.at]),
    ],
    data.scale,
  );
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 46, right: RIGHT, bottom: 50, left: 58 };
  const wording = { name: data.name, title: words.minutesTitle(data.of), description: inWords(data, words) };
  return layered(wording, frame, [
    ...shade(data, last, words),
    ...cutoffRule(data, scale),
    ...TRUTHS.flatMap((truth) => marks(data.bands, truth, scale, last, words)),
    ...signs(words),
    wordsAt(words.readings(data.unit, scale.kind === "log10"), TITLE_LEFT - 8, -32),
  ]);
}

function shade({ window }: IntensityByMinutesData, last: number, words: IntensityChartWords): Layer[] {
  if (window === null) return [];
  const [from, to] = [window.from, Math.min(window.to, last)].map((minute) => (WIDTH * minute) / last) as [
    number,
    number,
  ];
  return [
    {
      data: { values: [{}] },
      mark: { type: "rect", color: wash, stroke: muted, strokeDash: [3, 2], strokeWidth: 1 },
      encoding: {
        x: { value: drawn(from) },
        x2: { value: drawn(to) },
        y: { value: -12 },
        y2: { value: HEIGHT },
      },
    },
    wordsAt(words.window(statedRange(window.from, window.to)), drawn(from), -18, { color: muted }),
  ];
}

function cutoffRule({ cutoff }: IntensityByMinutesData, scale: ReadingScale): Layer[] {
  if (cutoff === null) return [];
  const y = drawn(HEIGHT * (1 - placeOn(scale, cutoff.at)));
  return [
    {
      data: { values: [{}] },
      mark: { type: "rule", color: amber, strokeWidth: 1.2, strokeDash: [4, 3] },
      encoding: { x: { value: 0 }, x2: { value: WIDTH }, y: { value: y } },
    },
    wordsAt(cutoff.label, WIDTH + 8, y + 4, { color: amber }),
  ];
}

function marks(
  bands: readonly MinuteBand[],
  truth: Truth,
  scale: ReadingScale,
  last: number,
  words: IntensityChartWords,
): Layer[] {
  const apart = ((truth === "positive" ? -APART : APART) * last) / WIDTH;
  const values = bands
    .filter((band) => band.truth === truth && band.people > 0)
    .map((band) => ({
      minute: drawn((band.from + band.to) / 2 + apart),
      from: drawn(band.from),
      to: drawn(band.to),
      lower: drawn(band.lower),
      median: drawn(band.median),
      upper: drawn(band.upper),
      people: peopleText(band.people),
    }));
  const filled = truth === "positive";
  const x = {
    field: "minute",
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
  const y = (field: string) => readingChannel(field, scale, HEIGHT, null);
  const color = filled ? deep : muted;
  return [
    {
      data: { values },
      mark: { type: "rule", strokeWidth: 1, opacity: 0.5, color },
      encoding: { x: { ...x, field: "from" }, x2: { field: "to" }, y: y("median") },
    },
    {
      data: { values },
      mark: { type: "rule", strokeWidth: 2.4, color },
      encoding: { x, y: y("lower"), y2: { field: "upper" } },
    },
    {
      data: { values },
      mark: dotOf(filled),
      encoding: { x, y: y("median") },
    },
    {
      data: { values },
      mark: { type: "text", align: "left", baseline: "bottom", dx: 6, dy: -3, color: muted, fontSize: 10.5 },
      encoding: { x, y: y("median"), text: { field: "people" } },
    },
  ];
}

/** What the dots are, above the plot's right end. */
function signs(words: IntensityChartWords): Layer[] {
  return TRUTHS.flatMap((truth, at): Layer[] => [
    {
      data: { values: [{}] },
      mark: dotOf(truth === "positive"),
      encoding: { x: { value: WIDTH - 132 + 138 * at }, y: { value: -36 } },
    },
    wordsAt(words.truth(truth), WIDTH - 122 + 138 * at, -32, { color: truth === "positive" ? deep : ink }),
  ]);
}

function inWords({ bands }: IntensityByMinutesData, words: IntensityChartWords): string {
  return [
    words.minutesDescription,
    ...bands
      .filter(({ people }) => people > 0)
      .map(({ truth, from, to, people, median }) =>
        words.inBand(statedRange(from, to), words.truth(truth), peopleText(people), readingText(median)),
      ),
  ].join(" ");
}
