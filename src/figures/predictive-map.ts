import { ALGORITHM_CHART_WORDS, type AlgorithmChartWords } from "./algorithm-words.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { drawn, estimatedPercent, statedPercent } from "./numbers.ts";
import { TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

export interface MapCell {
  readonly prevalence: number;
  readonly phi: number;
  readonly ppv: number | null;
}

export interface PredictiveMapData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly pair: string;
  /** Every prevalence with every correlation. */
  readonly cells: readonly MapCell[];
  /** PPV wanted, a proportion. */
  readonly target: number | null;
  readonly words?: AlgorithmChartWords;
}

const WIDTH = 600;
const ROW = 22;
const { ink, muted, deep, pale, paper, wash, amber } = LIGHT_INKS;
/** From which PPV on a shade begins, and the shade; words on it in an ink that can be read. */
const SHADES = [
  { from: 0, fill: paper, ink },
  { from: 0.9, fill: wash, ink },
  { from: 0.95, fill: pale, ink },
  { from: 0.99, fill: deep, ink: paper },
] as const;

/**
 * The PPV of an algorithm over prevalence (to the right) and the error correlation of two kits (upwards): one
 * cell each, shaded in four classes, with a line between what reaches the target and what does not.
 */
export function predictiveMap(data: PredictiveMapData): Specification {
  const words = data.words ?? ALGORITHM_CHART_WORDS;
  const columns = distinct(data.cells.map(({ prevalence }) => prevalence));
  const rows = distinct(data.cells.map(({ phi }) => phi)).toReversed();
  const size = { width: WIDTH / Math.max(1, columns.length), height: ROW };
  const height = Math.max(1, rows.length) * ROW;
  const frame: Frame = { width: WIDTH, height, top: 56, right: 60, bottom: 54, left: 56 };
  const place = { columns, rows, size };
  const wording = {
    name: data.name,
    title: words.mapTitle(data.pair),
    description: inWords(data, place, words),
  };
  return layered(wording, frame, [
    ...cellLayers(data, place),
    ...border(data, place, words),
    ...ticks(place, height),
    wordsAt(words.dependence.phi, TITLE_LEFT, -36),
    ...key(words),
    wordsAt(words.prevalence.replace(/,[^,]*$/, ""), 0, height + 44),
  ]);
}

interface Place {
  readonly columns: readonly number[];
  /** From the top: the largest correlation first. */
  readonly rows: readonly number[];
  readonly size: { readonly width: number; readonly height: number };
}

function distinct(values: readonly number[]): number[] {
  return [...new Set(values)].sort((one, other) => one - other);
}

const xChannel = ({ columns }: Place) => ({
  field: "prevalence",
  type: "ordinal" as const,
  sort: null,
  scale: { domain: [...columns], padding: 0 },
  axis: null,
});

const yChannel = ({ rows }: Place) => ({
  field: "phi",
  type: "ordinal" as const,
  sort: null,
  scale: { domain: [...rows], padding: 0 },
  axis: null,
});

/** A pixel of the plot, outside the scales. */
const pixels = (field: string) => ({ field, type: "quantitative" as const, scale: null, axis: null });

function cellLayers({ cells }: PredictiveMapData, place: Place): Layer[] {
  const values = cells.flatMap(({ prevalence, phi, ppv }) =>
    ppv === null
      ? []
      : [{ prevalence, phi, ppv: drawn(ppv), words: estimatedPercent(ppv, "").replace("\u202f%", "") }],
  );
  const encoding = { x: xChannel(place), y: yChannel(place) };
  const thresholds = SHADES.slice(1).map(({ from }) => from);
  const byPpv = (range: readonly string[]) => ({
    field: "ppv",
    type: "quantitative" as const,
    scale: { type: "threshold" as const, domain: thresholds, range: [...range] },
    legend: null,
  });
  const ground: Layer = {
    data: { values },
    mark: { type: "rect", stroke: paper, strokeWidth: 0.6, opacity: 1 },
    encoding: { ...encoding, fill: byPpv(SHADES.map(({ fill }) => fill)) },
  };
  if (place.size.width < 38) return [ground];
  const text: Layer = {
    data: { values },
    mark: { type: "text", align: "center", baseline: "middle" },
    encoding: { ...encoding, text: { field: "words" }, color: byPpv(SHADES.map((shade) => shade.ink)) },
  };
  return [ground, text];
}

/** Edges between cells that reach the target and cells that don't. */
function border(
  { cells, target }: PredictiveMapData,
  { columns, rows, size }: Place,
  words: AlgorithmChartWords,
): Layer[] {
  if (target === null) return [];
  const reached = (column: number, row: number): boolean | null => {
    const cell = cells.find((one) => one.prevalence === columns[column] && one.phi === rows[row]);
    return cell === undefined || cell.ppv === null ? null : cell.ppv >= target;
  };
  const edges: { x: number; x2: number; y: number; y2: number }[] = [];
  rows.forEach((_, row) => {
    columns.forEach((__, column) => {
      const here = reached(column, row);
      if (here === null) return;
      const [left, top] = [column * size.width, row * size.height];
      const right = reached(column + 1, row);
      const below = reached(column, row + 1);
      if (right !== null && right !== here) {
        edges.push({ x: left + size.width, x2: left + size.width, y: top, y2: top + size.height });
      }
      if (below !== null && below !== here) {
        edges.push({ x: left, x2: left + size.width, y: top + size.height, y2: top + size.height });
      }
    });
  });
  if (edges.length === 0) return [];
  return [
    {
      data: { values: edges },
      mark: { type: "rule", color: amber, strokeWidth: 2.4, strokeCap: "square" },
      encoding: { x: pixels("x"), x2: { field: "x2" }, y: pixels("y"), y2: { field: "y2" } },
    },
    wordsAt(words.mapReached(`${statedPercent(target)}\u202f%`), WIDTH, -36, {
      align: "right",
      color: amber,
    }),
  ];
}

/** The numbers at the cells' sides; every second one and so on where they would touch. */
function ticks({ columns, rows, size }: Place, height: number): Layer[] {
  const texts = columns.map((prevalence) => String(Number((prevalence * 100).toPrecision(3))));
  const widest = Math.max(...texts.map((text) => textWidth(text, LABEL_SIZE)), 1) + 8;
  const every = Math.max(1, Math.ceil(widest / size.width));
  const below = texts
    .map((text, at) => ({ words: text, x: (at + 0.5) * size.width, y: height + 18 }))
    .filter((_, at) => at % every === 0);
  const aside = rows.map((phi, at) => ({
    words: String(Number(phi.toFixed(3))),
    x: -10,
    y: (at + 0.5) * size.height + 4,
  }));
  return [
    { values: below, align: "center" as const },
    { values: aside, align: "right" as const },
  ].map(
    ({ values, align }): Layer => ({
      data: { values },
      mark: { type: "text", align, baseline: "alphabetic", color: muted },
      encoding: { x: pixels("x"), y: pixels("y"), text: { field: "words" } },
    }),
  );
}

/** The four shades with the value at which each begins. */
function key(words: AlgorithmChartWords): Layer[] {
  const box = 20;
  const step = 62;
  return [
    ...SHADES.flatMap(({ from, fill }, at): Layer[] => {
      const x = at * step;
      const text = at === 0 ? `<\u00a0${(SHADES[1].from ?? 0) * 100}` : `≥\u00a0${from * 100}`;
      return [
        {
          data: { values: [{ from }] },
          mark: { type: "rect", fill, stroke: muted, strokeWidth: 0.6, opacity: 1 },
          encoding: { x: { value: x }, x2: { value: x + box }, y: { value: -20 }, y2: { value: -10 } },
        },
        wordsAt(text, x + box + 5, -10, { color: muted }),
      ];
    }),
    wordsAt(words.mapShades, SHADES.length * step, -10, { color: muted }),
  ];
}

function inWords(data: PredictiveMapData, { columns, rows }: Place, words: AlgorithmChartWords): string {
  const corner = (prevalence: number | undefined, phi: number | undefined) => {
    const cell = data.cells.find((one) => one.prevalence === prevalence && one.phi === phi);
    return cell === undefined || cell.ppv === null || prevalence === undefined || phi === undefined
      ? []
      : [`${statedPercent(Number(prevalence.toPrecision(3)))} %, ${phi}: ${estimatedPercent(cell.ppv, "")}.`];
  };
  const target = data.target === null ? "–" : `${statedPercent(data.target)} %`;
  return [
    words.mapDescription(target),
    ...corner(columns[0], rows.at(-1)),
    ...corner(columns[0], rows[0]),
    ...corner(columns.at(-1), rows.at(-1)),
    ...corner(columns.at(-1), rows[0]),
  ].join(" ");
}
