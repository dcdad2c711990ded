import { FLAG_OFFSET, placeFlags } from "./flag-lanes.ts";
import { LIGHT_INKS } from "./inks.ts";
import { INTENSITY_CHART_WORDS, type IntensityChartWords } from "./intensity-words.ts";
import { textWidth } from "./measure-text.ts";
import { drawn, people as peopleText } from "./numbers.ts";
import { haloed, words as wordsAt } from "./people-scale.ts";
import { placeOn, type ReadingScale, readingChannel, readingScale, readingText } from "./reading-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

type Truth = "positive" | "negative";

/** A cutoff that the figure marks, with how many people lie on the wrong side of it. */
export interface MarkedCutoff {
  readonly at: number;
  readonly label: string;
  readonly stated: boolean;
  readonly missed: number;
  readonly falselyReactive: number;
}

export interface IntensityByTruthData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly of: string;
  readonly unit: string;
  readonly scale: ReadingScale["kind"];
  /** Which readings speak for the condition. */
  readonly direction: "higher" | "lower";
  readonly bars: readonly {
    readonly from: number;
    readonly to: number;
    readonly positives: number;
    readonly negatives: number;
  }[];
  readonly groups: readonly {
    readonly truth: Truth;
    readonly people: number;
    readonly lower: number | null;
    readonly median: number | null;
    readonly upper: number | null;
  }[];
  /** The first is the one whose wrong sides are counted in words. */
  readonly cutoffs: readonly MarkedCutoff[];
  readonly words?: IntensityChartWords;
}

const WIDTH = 640;
const PANEL = 96;
const GAP = 44;
const HEIGHT = 2 * PANEL + GAP;
const TITLE_LEFT = -34;
const { ink, muted, rule, deep, pale, amber } = LIGHT_INKS;
const TRUTHS = ["positive", "negative"] as const;
const baseOf = (truth: Truth) => (truth === "positive" ? PANEL : HEIGHT);

/** Two histograms on one scale of readings, with the condition above, without below, and the cutoffs through both. */
export function intensityByTruth(data: IntensityByTruthData): Specification {
  const words = data.words ?? INTENSITY_CHART_WORDS;
  const scale = readingScale(
    [...data.bars.flatMap(({ from, to }) => [from, to]), ...data.cutoffs.map(({ at }) => at)],
    data.scale,
  );
  const flags = cutoffFlags(data, scale);
  const frame: Frame = {
    width: WIDTH,
    height: HEIGHT,
    top: 30 + 18 * flags.lanes,
    right: 30,
    bottom: 50,
    left: 50,
  };
  const wording = { name: data.name, title: words.truthTitle(data.of), description: inWords(data, words) };
  return layered(wording, frame, [
    ...TRUTHS.flatMap((truth) => panel(data, truth, scale, words)),
    ...flags.layers,
    ...wrongSides(data, scale, words),
    wordsAt(words.peopleAxis, TITLE_LEFT, -13 - 18 * flags.lanes, { color: ink }),
  ]);
}

/** People with the condition are full, those without hollow: the same as dots of the two measures. */
function panel(
  data: IntensityByTruthData,
  truth: Truth,
  scale: ReadingScale,
  words: IntensityChartWords,
): Layer[] {
  const base = baseOf(truth);
  const field = truth === "positive" ? "positives" : "negatives";
  const most = Math.max(1, ...data.bars.map((bar) => bar[field]));
  const values = data.bars
    .filter((bar) => bar[field] > 0)
    .map((bar) => ({
      from: drawn(bar.from),
      to: drawn(bar.to),
      people: bar[field],
      top: drawn(base - Math.max(1.6, (bar[field] / most) * (PANEL - 18))),
      base,
    }));
  const found = data.groups.find((group) => group.truth === truth);
  const x = readingChannel("from", scale, WIDTH, words.readings(data.unit, scale.kind === "log10"));
  return [
    level(base - (PANEL - 18), rule),
    wordsAt(peopleText(most), -8, base - (PANEL - 18) + 4, { align: "right", color: muted }),
    wordsAt("0", -8, base + 4, { align: "right", color: muted }),
    {
      data: { values },
      mark: {
        type: "rect",
        ...(truth === "positive"
          ? { fill: deep, stroke: deep, strokeWidth: 0.4 }
          : { fill: pale, stroke: deep, strokeWidth: 0.8 }),
      },
      encoding: {
        x,
        x2: { field: "to" },
        y: { field: "top", type: "quantitative", scale: null, axis: null },
        y2: { field: "base" },
      },
    },
    level(base, muted),
    wordsAt(words.group(truth, peopleText(found?.people ?? 0)), 0, base - PANEL + 8, { bold: true }),
  ];
}

function level(y: number, color: string): Layer {
  return {
    data: { values: [{}] },
    mark: { type: "rule", color, strokeWidth: 1 },
    encoding: { x: { value: 0 }, x2: { value: WIDTH }, y: { value: y } },
  };
}

const pixel = (reading: number, scale: ReadingScale) => drawn(WIDTH * placeOn(scale, reading));

function cutoffFlags({ cutoffs }: IntensityByTruthData, scale: ReadingScale) {
  const placed = placeFlags(
    cutoffs.map(({ at, label }) => ({ x: pixel(at, scale), width: textWidth(label, LABEL_SIZE) })),
    -30,
    WIDTH + 26,
  );
  const layers = cutoffs.flatMap(({ at, label, stated }, place): Layer[] => {
    const flag = placed[place];
    if (flag === undefined) return [];
    const end = flag.anchor === "end";
    const x = pixel(at, scale);
    return [
      {
        data: { values: [{}] },
        mark: {
          type: "rule",
          color: stated ? amber : ink,
          strokeWidth: stated ? 1.4 : 1.1,
          ...(stated ? {} : { strokeDash: [4, 3] }),
        },
        encoding: { x: { value: x }, y: { value: -22 - 18 * flag.lane }, y2: { value: HEIGHT } },
      },
      wordsAt(label, x + (end ? -FLAG_OFFSET : FLAG_OFFSET), -13 - 18 * flag.lane, {
        align: end ? "right" : "left",
        color: stated ? amber : ink,
      }),
    ];
  });
  return { layers, lanes: Math.max(0, ...placed.map(({ lane }) => lane + 1)) };
}

/** At the first cutoff: how many with the condition lie short of it, how many without lie beyond. */
function wrongSides(data: IntensityByTruthData, scale: ReadingScale, words: IntensityChartWords): Layer[] {
  const [first] = data.cutoffs;
  if (first === undefined) return [];
  const x = pixel(first.at, scale);
  const higher = data.direction === "higher";
  const color = first.stated ? amber : ink;
  const beside = (left: boolean) => ({ align: left ? ("right" as const) : ("left" as const), color });
  const missed = words.beyond(peopleText(first.missed), higher ? "below" : "above");
  const falsely = words.beyond(peopleText(first.falselyReactive), higher ? "at_or_above" : "at_or_below");
  return [
    ...haloed(missed, x + (higher ? -7 : 7), baseOf("positive") - 26, beside(higher)),
    ...haloed(falsely, x + (higher ? 7 : -7), baseOf("negative") - 26, beside(!higher)),
  ];
}

function inWords({ groups, cutoffs, direction }: IntensityByTruthData, words: IntensityChartWords): string {
  const shown = (value: number | null) => (value === null ? "" : readingText(value));
  const side =
    direction === "higher" ? (["below", "at_or_above"] as const) : (["above", "at_or_below"] as const);
  return [
    words.truthDescription,
    ...groups
      .filter(({ median }) => median !== null)
      .map(({ truth, lower, median, upper }) =>
        words.quartiles(truth, shown(lower), shown(median), shown(upper)),
      ),
    ...cutoffs.map(
      ({ label, missed, falselyReactive }) =>
        `${label}: ${words.truth("positive")} ${words.beyond(peopleText(missed), side[0])}, ${words.truth("negative")} ${words.beyond(peopleText(falselyReactive), side[1])}.`,
    ),
  ].join(" ");
}
