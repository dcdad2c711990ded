import { LIGHT_INKS } from "./inks.ts";
import { wrapText } from "./measure-text.ts";
import { drawn, estimatedPercent } from "./numbers.ts";
import {
  independent,
  type Panel,
  type PanelGrid,
  panelAt,
  panelFloor,
  panelTicks,
  panelX,
  panelY,
  sizeOfPanels,
} from "./panels.ts";
import { words as wordsAt } from "./people-scale.ts";
import { REFERENCE_CHART_WORDS, type ReferenceChartWords } from "./reference-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

interface Span {
  readonly median: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface DensityPanel {
  /** What the quantity is, in words. */
  readonly title: string;
  /** Shares as percentages; covariances and correlations as they are. */
  readonly kind: "share" | "number";
  readonly density: readonly { readonly at: number; readonly posterior: number; readonly prior: number }[];
  readonly before: Span;
  readonly after: Span;
}

export interface PriorPosteriorData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  readonly model: string;
  readonly panels: readonly DensityPanel[];
  readonly words?: ReferenceChartWords;
}

const GRID: PanelGrid = { columns: 3, width: 178, height: 74, gaps: [30, 66] };
const { ink, muted, deep, pale } = LIGHT_INKS;

/** What was believed of each quantity (dashed line), and what the data made of it (filled curve). */
export function priorPosterior(data: PriorPosteriorData): Specification {
  const words = data.words ?? REFERENCE_CHART_WORDS;
  const size = sizeOfPanels(data.panels.length, GRID);
  const frame: Frame = {
    ...size,
    width: Math.max(size.width, 380),
    top: 66,
    right: 24,
    bottom: 28,
    left: 24,
  };
  const wording = {
    name: data.name,
    title: words.densitiesTitle(data.model),
    description: [words.densitiesDescription, ...data.panels.map((panel) => inWords(panel, words))].join(" "),
  };
  return independent(
    layered(wording, frame, [
      ...data.panels.map((panel, place): Layer => onePanel(panel, panelAt(place, GRID))),
      ...data.panels.flatMap((panel, place) => title(panel, panelAt(place, GRID))),
      ...key(words),
    ]),
  );
}

function onePanel(panel: DensityPanel, at: Panel): Layer {
  const domain = domainOf(panel);
  const shown = panel.density.filter((point) => point.at >= domain[0] && point.at <= domain[1]);
  const most = highest(shown);
  const label = (tick: number) => labelOf(tick, panel.kind);
  const ticks = panelTicks(domain, at.right - at.left, label);
  const values = shown.map(({ at: value, posterior, prior }) => ({
    at: drawn(value),
    posterior: drawn(Math.min(posterior, most)),
    prior: drawn(Math.min(prior, most)),
  }));
  const x = {
    ...panelX("at", domain, at),
    axis: null,
  };
  return {
    data: { values },
    layer: [
      {
        mark: { type: "area", color: pale, line: { color: deep, strokeWidth: 1.5 }, opacity: 1 },
        encoding: { x, y: { ...panelY("posterior", [0, most], at), axis: null } },
      },
      {
        mark: { type: "line", color: ink, strokeWidth: 1.3, strokeDash: [4, 3] },
        encoding: { x, y: { ...panelY("prior", [0, most], at), axis: null } },
      },
      panelFloor(at),
      {
        data: { values: ticks.map((tick) => ({ at: tick, words: label(tick) })) },
        mark: { type: "text", align: "center", baseline: "alphabetic", color: muted },
        encoding: { x, y: { value: at.bottom + 16 }, text: { field: "words" } },
      },
      {
        data: { values: ticks.map((tick) => ({ at: tick })) },
        mark: { type: "rule", color: muted },
        encoding: { x, y: { value: at.bottom }, y2: { value: at.bottom + 4 } },
      },
    ],
  };
}

/** Beyond its limits the curve is followed by this many times their distance, and no further. */
const BEYOND = 0.9;

/** The place of the answer, not all that was believed: a vague belief would crush it. */
function domainOf({ density, after }: DensityPanel): readonly [number, number] {
  const [first, last] = [density[0]?.at ?? 0, density.at(-1)?.at ?? 1];
  const { lower, upper } = after;
  if (lower === null || upper === null || !(upper > lower)) return [first, last];
  const beyond = BEYOND * (upper - lower);
  const inside = density.filter(({ at }) => at >= lower - beyond && at <= upper + beyond);
  return [inside[0]?.at ?? first, inside.at(-1)?.at ?? last];
}

/** A curve that runs to infinity at 0 or 1 is cut a little above the other's top. */
function highest(density: DensityPanel["density"]): number {
  const top = (field: "posterior" | "prior") => {
    const heights = density.map((point) => point[field]);
    const inner = Math.max(...heights.slice(1, -1), 0);
    return Math.max(inner, Math.min(Math.max(...heights, 0), inner * 1.5));
  };
  return Math.max(top("posterior"), top("prior"), 1e-9) * 1.06;
}

const labelOf = (value: number, kind: DensityPanel["kind"]) =>
  String(Number((kind === "share" ? value * 100 : value).toPrecision(6))).replace("-", "\u2212");

function title(panel: DensityPanel, { left, right, top }: Panel): Layer[] {
  const lines = wrapText(panel.title, right - left, LABEL_SIZE, "bold").slice(0, 2);
  return lines.map((line, place) =>
    wordsAt(line, left, top - 8 - (lines.length - 1 - place) * 14, { bold: true }),
  );
}

/** What the two signs are, above all panels. */
function key(words: ReferenceChartWords): Layer[] {
  return [
    {
      data: { values: [{}] },
      mark: { type: "rule", color: ink, strokeWidth: 1.3, strokeDash: [4, 3] },
      encoding: { x: { value: 0 }, x2: { value: 26 }, y: { value: -52 } },
    },
    wordsAt(words.before, 32, -48),
    {
      data: { values: [{}] },
      mark: { type: "rect", fill: pale, stroke: deep, strokeWidth: 1.5, opacity: 1 },
      encoding: { x: { value: 210 }, x2: { value: 236 }, y: { value: -57 }, y2: { value: -47 } },
    },
    wordsAt(words.after, 242, -48),
    wordsAt(words.percentAxis, 330, -48, { color: LIGHT_INKS.muted }),
  ];
}

function inWords({ title: name, kind, before, after }: DensityPanel, words: ReferenceChartWords): string {
  const number = (value: number | null) =>
    kind === "share"
      ? estimatedPercent(value, words.nothing)
      : value === null
        ? words.nothing
        : String(Number(value.toPrecision(3))).replace("-", "\u2212");
  const text = ({ median, lower, upper }: Span) =>
    `${number(median)} (${number(lower)} \u2013 ${number(upper)})`;
  return words.density(name, text(before), text(after));
}
