import { LIGHT_INKS } from "./inks.ts";
import { wrapText } from "./measure-text.ts";
import { drawn, estimatedPercent, people } from "./numbers.ts";
import {
  independent,
  type Panel,
  type PanelGrid,
  panelAt,
  panelFloor,
  panelX,
  panelY,
  sizeOfPanels,
} from "./panels.ts";
import { words as wordsAt } from "./people-scale.ts";
import { REFERENCE_CHART_WORDS, type ReferenceChartWords } from "./reference-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

export interface ChainRow {
  /** What the quantity is, in words. */
  readonly title: string;
  readonly kind: "share" | "number";
  /** One list a chain. */
  readonly chains: readonly (readonly number[])[];
}

export interface ChainPanelsData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly model: string;
  readonly rows: readonly ChainRow[];
  readonly words?: ReferenceChartWords;
}

const LEFT = 170;
const { muted, deep, pale, ink } = LIGHT_INKS;

/** The values that each chain drew, in their order: chains that agree wander over the same band. */
export function chainTraces(data: ChainPanelsData): Specification {
  const words = data.words ?? REFERENCE_CHART_WORDS;
  const grid = gridOf(data, 46);
  const described = data.rows.map((row) => {
    const [lower, upper] = centralOf(row);
    return words.traceRange(row.title, numberOf(lower, row.kind), numberOf(upper, row.kind));
  });
  return figure(data, grid, words, {
    title: words.tracesTitle(data.model),
    description: [words.tracesDescription(data.rows.length), ...described].join(" "),
    panel: (row, chain, at) => tracePanel(row, chain, at),
    right: 62,
    aside: (row, at) => traceEnds(row, at),
  });
}

/** How each chain's draws rank among all: an even share everywhere where the chains agree. */
export function chainRanks(data: ChainPanelsData): Specification {
  const words = data.words ?? REFERENCE_CHART_WORDS;
  const grid = gridOf(data, 34);
  const described = data.rows.map(({ title, chains }) => {
    const all = chains.flat();
    return words.rankRange(title, people(Math.min(...all)), people(Math.max(...all)), people(evenOf(chains)));
  });
  const most = Math.max(1, ...data.rows.flatMap(({ chains }) => chains.flat()));
  return figure(data, grid, words, {
    title: words.ranksTitle(data.model),
    description: [words.ranksDescription, ...described].join(" "),
    panel: ({ chains }, chain, at) => rankPanel(chains, chain, at, most),
    right: 70,
    aside: ({ chains }, at, row) =>
      row > 0
        ? []
        : [
            wordsAt(words.evenly, at.right + 6, at.bottom - (evenOf(chains) / most) * 34 + 4, {
              color: muted,
            }),
          ],
  });
}

interface Drawing {
  readonly title: string;
  readonly description: string;
  readonly right: number;
  readonly panel: (row: ChainRow, chain: number, at: Panel) => Layer[];
  /** Words right of a row. */
  readonly aside: (row: ChainRow, last: Panel, place: number) => Layer[];
}

function gridOf({ rows }: ChainPanelsData, height: number): PanelGrid {
  const columns = Math.max(1, ...rows.map(({ chains }) => chains.length));
  return { columns, width: Math.floor((460 - (columns - 1) * 8) / columns), height, gaps: [8, 14] };
}

function figure(
  data: ChainPanelsData,
  grid: PanelGrid,
  words: ReferenceChartWords,
  drawing: Drawing,
): Specification {
  const size = sizeOfPanels(data.rows.length * grid.columns, grid);
  const frame: Frame = { ...size, top: 24, right: drawing.right, bottom: 8, left: LEFT };
  const { title, description } = drawing;
  const heads = Array.from({ length: grid.columns }, (_, chain) =>
    wordsAt(
      grid.width > 60 ? words.chain(String(chain + 1)) : String(chain + 1),
      panelAt(chain, grid).left,
      -8,
      { color: muted },
    ),
  );
  return independent(
    layered({ name: data.name, title, description }, frame, [
      ...heads,
      ...data.rows.flatMap((row, place) => {
        const at = (chain: number) => panelAt(place * grid.columns + chain, grid);
        return [
          ...rowTitle(row.title, at(0)),
          ...row.chains.map((_, chain): Layer => ({ layer: drawing.panel(row, chain, at(chain)) })),
          ...drawing.aside(row, at(row.chains.length - 1), place),
        ];
      }),
    ]),
  );
}

function rowTitle(text: string, { top, bottom }: Panel): Layer[] {
  const lines = wrapText(text, LEFT - 14, LABEL_SIZE).slice(0, 3);
  const first = (top + bottom) / 2 - (lines.length - 1) * 7 + 4;
  return lines.map((line, place) => wordsAt(line, -LEFT + 2, first + place * 14));
}

/** The band that holds the middle 95 % of all draws, and their ends. */
function centralOf({ chains }: ChainRow): [number, number] {
  const sorted = chains.flat().sort((one, other) => one - other);
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? 0;
  return [at(0.025), at(0.975)];
}

function endsOf({ chains }: ChainRow): [number, number] {
  const all = chains.flat();
  const [least, most] = [Math.min(...all), Math.max(...all)];
  return most > least ? [least, most] : [least - 0.01, least + 0.01];
}

function tracePanel(row: ChainRow, chain: number, at: Panel): Layer[] {
  const draws = row.chains[chain] ?? [];
  const y = { ...panelY("value", endsOf(row), at), axis: null };
  const [lower, upper] = centralOf(row);
  return [
    {
      data: { values: [{ value: drawn(lower), upper: drawn(upper) }] },
      mark: { type: "rect", color: pale, opacity: 0.6 },
      encoding: { x: { value: at.left }, x2: { value: at.right }, y, y2: { field: "upper" } },
    },
    {
      data: { values: draws.map((value, draw) => ({ draw, value: Number(value.toPrecision(4)) })) },
      mark: { type: "line", color: deep, strokeWidth: 0.8 },
      encoding: { x: { ...panelX("draw", [0, Math.max(1, draws.length - 1)], at), axis: null }, y },
    },
  ];
}

/** The ends of the band as numbers. */
function traceEnds(row: ChainRow, at: Panel): Layer[] {
  const [least, most] = endsOf(row);
  const height = (value: number) => at.bottom - ((value - least) / (most - least)) * (at.bottom - at.top);
  const [lower, upper] = centralOf(row);
  const apart = height(lower) - height(upper) >= 13;
  const middle = (height(lower) + height(upper)) / 2;
  return [
    wordsAt(numberOf(upper, row.kind), at.right + 6, (apart ? height(upper) : middle - 6.5) + 4, {
      color: muted,
    }),
    wordsAt(numberOf(lower, row.kind), at.right + 6, (apart ? height(lower) : middle + 6.5) + 4, {
      color: muted,
    }),
  ];
}

function numberOf(value: number, kind: ChainRow["kind"]): string {
  return kind === "share" ? estimatedPercent(value, "") : String(Number(value.toPrecision(2)));
}

function evenOf(chains: ChainRow["chains"]): number {
  const all = chains.flat();
  return all.reduce((sum, one) => sum + one, 0) / Math.max(1, all.length);
}

function rankPanel(chains: ChainRow["chains"], chain: number, at: Panel, most: number): Layer[] {
  const bins = chains[chain] ?? [];
  const width = (at.right - at.left) / Math.max(1, bins.length);
  const y = { ...panelY("draws", [0, most], at), axis: null };
  return [
    {
      data: {
        values: bins.map((draws, bin) => ({
          bin: bin + 1,
          draws,
          from: drawn(at.left + bin * width + 0.5),
          to: drawn(at.left + (bin + 1) * width - 0.5),
        })),
      },
      mark: { type: "rect", color: pale, opacity: 1 },
      encoding: {
        x: { field: "from", type: "quantitative", scale: null, axis: null },
        x2: { field: "to" },
        y,
        y2: { value: at.bottom },
      },
    },
    {
      data: { values: [{ draws: drawn(evenOf(chains)) }] },
      mark: { type: "rule", color: ink, strokeWidth: 1, strokeDash: [1.5, 2.5] },
      encoding: { x: { value: at.left }, x2: { value: at.right }, y },
    },
    panelFloor(at),
  ];
}
