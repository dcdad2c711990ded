import { LIGHT_INKS } from "./inks.ts";
import { INTENSITY_CHART_WORDS, type IntensityChartWords } from "./intensity-words.ts";
import { drawn, estimatedPercent, people as peopleText, statedPercent } from "./numbers.ts";
import { TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import {
  concentrationText,
  placeOn,
  type ReadingScale,
  readingChannel,
  readingScale,
  readingText,
} from "./reading-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";

interface DosePoint {
  readonly concentration: number;
  readonly reactive: number;
  readonly tested: number;
}

export interface DoseCurveData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly panel: string;
  readonly unit: string;
  readonly level: number;
  /** Chance of a reactive result that is asked for. */
  readonly chance: number;
  readonly points: readonly DosePoint[];
  /** The fitted line with its band; empty where nothing could be fitted. */
  readonly curve: readonly {
    readonly concentration: number;
    readonly value: number;
    readonly lower: number | null;
    readonly upper: number | null;
  }[];
  /** The concentration found with that chance; limits `null` where there are none. */
  readonly limit: {
    readonly value: number;
    readonly lower: number | null;
    readonly upper: number | null;
  } | null;
  readonly words?: IntensityChartWords;
}

const WIDTH = 560;
const HEIGHT = 250;
const { ink, muted, paper, deep, pale, amber } = LIGHT_INKS;

/** Share of devices reactive by concentration: counts, the fitted line, and the limit of detection with its limits. */
export function doseCurve(data: DoseCurveData): Specification {
  const words = data.words ?? INTENSITY_CHART_WORDS;
  const scale = scaleOf(data);
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 60, right: 120, bottom: 50, left: 50 };
  const wording = { name: data.name, title: words.doseTitle(data.panel), description: inWords(data, words) };
  return layered(wording, frame, [
    band(data, scale),
    asked(data),
    curve(data, scale),
    ...points(data, scale, words),
    ...limit(data, scale, words),
    ...labels(data, words),
  ]);
}

/** The concentrations tested; limits beyond them up to three times as far. */
function scaleOf({ points: all, limit: found }: DoseCurveData): ReadingScale {
  const tested = all.map(({ concentration }) => concentration).filter((value) => value > 0);
  const [least, most] = [Math.min(...tested), Math.max(...tested)];
  const ends = [found?.value, found?.lower, found?.upper].filter(
    (value) => value != null && value >= least / 3 && value <= most * 3,
  ) as number[];
  return readingScale([...tested, ...ends], "log10", 0.09);
}

const chanceOf = (field: string) => ({
  field,
  type: "quantitative" as const,
  scale: { domain: [0, 1], nice: false, zero: true },
  axis: { values: [0, 0.25, 0.5, 0.75, 1], labelExpr: "format(datum.value * 100, 'd')", title: null },
});

function band({ curve: line }: DoseCurveData, scale: ReadingScale): Layer {
  const values = line.flatMap(({ concentration, lower, upper }) =>
    lower === null || upper === null
      ? []
      : [{ concentration: drawn(concentration), lower: drawn(lower), upper: drawn(upper) }],
  );
  return {
    data: { values },
    mark: { type: "area", color: pale, opacity: 0.55, clip: true },
    encoding: {
      x: readingChannel("concentration", scale, WIDTH, null),
      y: chanceOf("lower"),
      y2: { field: "upper" },
    },
  };
}

function curve({ curve: line }: DoseCurveData, scale: ReadingScale): Layer {
  return {
    data: {
      values: line.map(({ concentration, value }) => ({
        concentration: drawn(concentration),
        chance: drawn(value),
      })),
    },
    mark: { type: "line", color: deep, strokeWidth: 1.8, clip: true },
    encoding: {
      x: readingChannel("concentration", scale, WIDTH, null),
      y: chanceOf("chance"),
    },
  };
}

function asked({ chance }: DoseCurveData): Layer {
  const y = drawn(HEIGHT * (1 - chance));
  return {
    data: { values: [{}] },
    mark: { type: "rule", color: amber, strokeWidth: 1.2, strokeDash: [4, 3] },
    encoding: { x: { value: 0 }, x2: { value: WIDTH }, y: { value: y } },
  };
}

/** Counts stand under their dots in the upper half, above them in the lower. */
function points({ points: all }: DoseCurveData, scale: ReadingScale, words: IntensityChartWords): Layer[] {
  const values = all
    .filter(({ concentration, tested }) => concentration > 0 && tested > 0)
    .map(({ concentration, reactive, tested }) => ({
      concentration: drawn(concentration),
      chance: drawn(reactive / tested),
      counts: words.tested(peopleText(reactive), peopleText(tested)),
    }));
  const x = readingChannel("concentration", scale, WIDTH, null);
  const text = (upper: boolean, look: object): Layer => ({
    data: { values: values.filter(({ chance }) => chance > 0.5 === upper) },
    mark: {
      type: "text",
      align: upper ? "left" : "right",
      baseline: "middle",
      dx: upper ? 9 : -9,
      dy: upper ? 9 : -9,
      ...look,
    },
    encoding: { x, y: chanceOf("chance"), text: { field: "counts" } },
  });
  return [
    {
      data: { values },
      mark: {
        type: "point",
        filled: true,
        shape: "circle",
        size: 62,
        fill: ink,
        stroke: paper,
        strokeWidth: 1.2,
        opacity: 1,
      },
      encoding: { x, y: chanceOf("chance") },
    },
    ...[{ stroke: paper, strokeWidth: 3 }, { color: muted }].flatMap((look) => [
      text(true, look),
      text(false, look),
    ]),
  ];
}

/** The limit as a dot with its interval, at the height of the chance asked, and its words above the plot. */
function limit(
  { limit: found, chance, unit }: DoseCurveData,
  scale: ReadingScale,
  words: IntensityChartWords,
): Layer[] {
  if (found === null) return [];
  const y = drawn(HEIGHT * (1 - chance));
  const at = (value: number) => drawn(WIDTH * placeOn(scale, value));
  const x = at(found.value);
  const { lower, upper } = found;
  const rule = (look: object, encoding: object): Layer =>
    ({ data: { values: [{}] }, mark: { type: "rule", ...look }, encoding }) as Layer;
  const span =
    lower === null || upper === null
      ? ""
      : ` ${words.limitSpan(concentrationText(lower), concentrationText(upper))}`;
  const end = x > WIDTH - 100;
  return [
    rule(
      { color: ink, strokeWidth: 1, strokeDash: [1.5, 2.5] },
      { x: { value: x }, y: { value: -26 }, y2: { value: HEIGHT } },
    ),
    ...(lower === null || upper === null
      ? []
      : [
          rule(
            { color: ink, strokeWidth: 4 },
            { x: { value: at(lower) }, x2: { value: at(upper) }, y: { value: y } },
          ),
        ]),
    {
      data: { values: [{}] },
      mark: {
        type: "point",
        filled: true,
        shape: "diamond",
        size: 120,
        fill: ink,
        stroke: paper,
        strokeWidth: 1.4,
        opacity: 1,
      },
      encoding: { x: { value: x }, y: { value: y } },
    },
    wordsAt(`${words.limit(concentrationText(found.value), unit)}${span}`, x + (end ? -6 : 6), -18, {
      align: end ? "right" : "left",
      bold: true,
    }),
  ];
}

function labels({ chance, level, unit, curve: line }: DoseCurveData, words: IntensityChartWords): Layer[] {
  const y = drawn(HEIGHT * (1 - chance));
  return [
    wordsAt(words.asked(`${statedPercent(chance)}`), 4, y + 15, { color: amber }),
    ...(line.length === 0
      ? []
      : [
          wordsAt(words.doseCurve, WIDTH + 8, y + 4, { color: deep }),
          wordsAt(words.doseBand(statedPercent(level)), WIDTH + 8, y + 20, { color: muted }),
        ]),
    wordsAt(words.reactiveAxis, TITLE_LEFT, -46),
    wordsAt(words.concentration(unit), 0, HEIGHT + 38),
  ];
}

function inWords({ points: all, limit: found, unit }: DoseCurveData, words: IntensityChartWords): string {
  return [
    words.doseDescription,
    ...all.map(({ concentration, reactive, tested }) =>
      words.doseAt(
        readingText(concentration),
        `${words.tested(peopleText(reactive), peopleText(tested))} (${estimatedPercent(tested === 0 ? null : reactive / tested, "")})`,
      ),
    ),
    ...(found === null ? [] : [`${words.limit(concentrationText(found.value), unit)}.`]),
  ].join(" ");
}
