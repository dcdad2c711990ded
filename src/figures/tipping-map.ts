import { areaLabels } from "./area-labels.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { statedPercent } from "./numbers.ts";
import { TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import { REFERENCE_CHART_WORDS, type ReferenceChartWords } from "./reference-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { backed, labelLayers, statedLabel, statedWords } from "./tipping-labels.ts";
import {
  axisOf,
  FILLS,
  HEIGHT,
  lines,
  type Place,
  percent,
  placeOf,
  type Range,
  type TippingMapData,
  WIDTH,
} from "./tipping-place.ts";
import { areasOf, bordersOf, dottedOf, hatchOf, type Plotted, plotted } from "./verdict-grid.ts";

export type { TippingMapData } from "./tipping-place.ts";

const RIGHT = 120;
const { ink, muted, paper, deep } = LIGHT_INKS;
const pixels = (field: string) => ({ field, type: "quantitative" as const, scale: null, axis: null });
const around = ({ x, y }: Place) => ({ x: x - 8, y: y - 8, x2: x + 8, y2: y + 8 });

/**
 * The verdict for every reference that could be: areas with a word, a pattern and an outline each. The dot is
 * what the study states of its reference, the box the range stated with it.
 */
export function tippingMap(data: TippingMapData): Specification {
  const words = data.words ?? REFERENCE_CHART_WORDS;
  const plot = plotted(
    { across: data.specificities, up: data.sensitivities, verdicts: data.verdicts },
    { width: WIDTH, height: HEIGHT },
  );
  const place = placeOf(data);
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 32, right: RIGHT, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.tippingTitle(data.criterion),
    description: inWords(data, plot, place, words),
  };
  const stated = statedLabel(data, plot, place, words);
  const labels = areaLabels(
    plot,
    (verdict) => ({ width: textWidth(words.verdicts[verdict], 13, "bold") + 10, height: 20 }),
    [stated, place.box, around(place)],
  );
  return layered(wording, frame, [
    ground(plot),
    ...patterns(plot),
    lines(bordersOf(plot), { color: ink, strokeWidth: 1.4, strokeCap: "square" }),
    ...belief(data, place),
    ...labelLayers(labels, words),
    backed(stated, paper),
    wordsAt(statedWords(data, words), stated.x + 4, stated.y2 - 4, { color: ink, bold: true }),
    ...perfect(data, words),
    wordsAt(words.referenceSensitivity, TITLE_LEFT, -12),
  ]);
}

/** The areas. */
function ground(plot: Plotted): Layer {
  const verdicts = ["met", "undecided", "not_met", "not_estimable"] as const;
  const values = verdicts.flatMap((verdict) =>
    areasOf(plot, verdict).map((box) => ({ verdict, fill: FILLS[verdict], ...box })),
  );
  return {
    data: { values },
    mark: { type: "rect", opacity: 1, strokeWidth: 0.7 },
    encoding: {
      x: pixels("x"),
      x2: { field: "x2" },
      y: pixels("y"),
      y2: { field: "y2" },
      fill: { field: "fill", type: "nominal", scale: null },
      stroke: { field: "fill", type: "nominal", scale: null },
    },
  };
}

/** Dots where undecided, slanted lines where not met; a plain ground where met. */
function patterns(plot: Plotted): Layer[] {
  return [
    lines(dottedOf(plot, "undecided", 10), {
      color: muted,
      strokeWidth: 1.7,
      strokeDash: [0.1, 9.9],
      strokeCap: "round",
    }),
    lines(hatchOf(plot, "not_met", 9), { color: deep, strokeWidth: 1 }),
  ];
}

function belief(data: TippingMapData, { box }: Place): Layer[] {
  const { sensitivity, specificity } = data.believed;
  return [
    {
      data: { values: [{ ...data.ranges }] },
      mark: { type: "rect", fill: "transparent", stroke: ink, strokeWidth: 1.4, strokeDash: [5, 3] },
      encoding: {
        x: { value: box.x },
        x2: { value: Math.max(box.x2, box.x + 2) },
        y: { value: box.y },
        y2: { value: Math.max(box.y2, box.y + 2) },
      },
    },
    {
      data: { values: [{ sensitivity, specificity }] },
      mark: {
        type: "point",
        shape: "circle",
        filled: true,
        size: 74,
        fill: ink,
        stroke: paper,
        strokeWidth: 1.6,
        opacity: 1,
      },
      encoding: { x: axisOf(data, "specificity"), y: axisOf(data, "sensitivity") },
    },
  ];
}

/** A ring in the corner of a reference that never errs, where the map reaches so far. */
function perfect({ sensitivities, specificities }: TippingMapData, words: ReferenceChartWords): Layer[] {
  if (sensitivities.at(-1) !== 1 || specificities.at(-1) !== 1) return [];
  return [
    {
      data: { values: [{}] },
      mark: {
        type: "point",
        shape: "circle",
        filled: true,
        size: 62,
        fill: paper,
        stroke: ink,
        strokeWidth: 1.6,
        opacity: 1,
      },
      encoding: { x: { value: WIDTH }, y: { value: 0 } },
    },
    wordsAt(words.neverErrs, WIDTH + 6, -12, { align: "right", color: muted }),
  ];
}

function inWords(data: TippingMapData, plot: Plotted, place: Place, words: ReferenceChartWords): string {
  const { believed, ranges, sensitivities, specificities } = data;
  const span = ({ from, to }: Range) => `${statedPercent(from)}\u2013${statedPercent(to)}\u202f%`;
  const corners = [0, sensitivities.length - 1].flatMap((row) =>
    [0, specificities.length - 1].map((column) =>
      words.corner(
        percent(sensitivities[row] ?? 0),
        percent(specificities[column] ?? 0),
        words.verdicts[plot.verdict(column, row)],
      ),
    ),
  );
  return [
    words.tippingDescription,
    words.statedIs(
      percent(believed.sensitivity),
      percent(believed.specificity),
      words.verdicts[plot.at(place.x, place.y)],
    ),
    words.statedRange(span(ranges.sensitivity), span(ranges.specificity)),
    ...corners,
  ].join(" ");
}
