import { FLAG_OFFSET, placeFlags } from "./flag-lanes.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import type { Layer } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";

/** Size and parts of the charts of a plan, whose one axis is a number of people. */
export const PLAN_WIDTH = 620;
export const PLAN_HEIGHT = 220;
/** Height of one lane of flags above the plot, pixels. */
export const LANE = 18;
const { ink, muted, amber } = LIGHT_INKS;

/** First and last number of people on the axis. */
export interface PeopleDomain {
  readonly from: number;
  readonly to: number;
}

/** The axis of people. */
export function peopleChannel(field: string, domain: PeopleDomain, title: string) {
  return {
    field,
    type: "quantitative" as const,
    scale: { domain: [domain.from, domain.to], nice: false, zero: false },
    axis: {
      title,
      titleAnchor: "start" as const,
      titlePadding: 10,
      tickCount: 8,
      tickMinStep: 1,
      tickRound: false,
      format: ",d",
    },
  };
}

/** A probability from 0 to 100 % upwards. */
export function chanceChannel(field: string) {
  return {
    field,
    type: "quantitative" as const,
    scale: { domain: [0, 1], nice: false, zero: true },
    axis: { values: [0, 0.2, 0.4, 0.6, 0.8, 1], labelExpr: "format(datum.value * 100, 'd')", title: null },
  };
}

/** Words at a place given in pixels of the plot. */
export function words(
  text: string,
  x: number,
  y: number,
  more: { align?: "left" | "right" | "center"; color?: string; bold?: boolean } = {},
): Layer {
  return {
    data: { values: [{ words: text }] },
    mark: {
      type: "text",
      align: more.align ?? "left",
      baseline: "alphabetic",
      color: more.color ?? ink,
      fontWeight: more.bold === true ? 600 : "normal",
    },
    encoding: { x: { value: x }, y: { value: y }, text: { field: "words" } },
  };
}

/** The same on a halo of paper, where lines may run behind. */
export function haloed(...[text, x, y, more]: Parameters<typeof words>): Layer[] {
  const back: Layer = {
    data: { values: [{ words: text }] },
    mark: {
      type: "text",
      align: more?.align ?? "left",
      baseline: "alphabetic",
      color: LIGHT_INKS.paper,
      stroke: LIGHT_INKS.paper,
      strokeWidth: 4,
    },
    encoding: { x: { value: x }, y: { value: y }, text: { field: "words" } },
  };
  return [back, words(text, x, y, more)];
}

/** The level that is wanted: a rule across the plot with its words at the right end. */
export function wantedRule(level: number, text: string): Layer[] {
  return [
    {
      data: { values: [{ level }] },
      mark: { type: "rule", color: amber, strokeWidth: 1.2, strokeDash: [4, 3] },
      encoding: { y: chanceChannel("level"), x: { value: 0 }, x2: { value: PLAN_WIDTH } },
    },
    {
      data: { values: [{ level, words: text }] },
      mark: { type: "text", align: "left", baseline: "middle", dx: 6, color: amber },
      encoding: { x: { value: PLAN_WIDTH }, y: chanceChannel("level"), text: { field: "words" } },
    },
  ];
}

/** A number of people that the plot marks, with its words. */
export interface Marked {
  readonly people: number;
  readonly words: string;
  readonly strong: boolean;
}

/** Rules at numbers of people, their words as flags above the plot. */
export interface Flags {
  readonly layers: readonly Layer[];
  /** Lanes of words above the plot, the y axis' title among them: room is needed for so many. */
  readonly lanes: number;
  readonly title: Layer;
}

/**
 * The title of the y axis stands in the lowest lane, or above all flags where a rule would run through it.
 *
 * @param marked what is marked, inside the domain
 * @param title  of the y axis
 */
export function peopleFlags(marked: readonly Marked[], domain: PeopleDomain, title: string): Flags {
  const left = TITLE_LEFT + textWidth(title, LABEL_SIZE) + 14;
  const pixel = (people: number) => (PLAN_WIDTH * (people - domain.from)) / (domain.to - domain.from);
  const flags = marked.map((one) => ({
    x: pixel(one.people),
    width: textWidth(one.words, LABEL_SIZE, one.strong ? "bold" : "normal"),
  }));
  const placed = placeFlags(flags, -30, PLAN_WIDTH + 90);
  const crossed = flags.some(({ x }) => x < left);
  const raised = !crossed && placed.some((flag) => flag.lane === 0 && flag.left < left) ? 1 : 0;
  const layers = marked.flatMap((one, at): Layer[] => {
    const flag = placed[at];
    if (flag === undefined) return [];
    const lane = flag.lane + raised;
    const x = flags[at]?.x ?? 0;
    const end = flag.anchor === "end";
    return [
      {
        data: { values: [{ people: one.people }] },
        mark: {
          type: "rule",
          color: one.strong ? ink : muted,
          strokeWidth: one.strong ? 1.2 : 1,
          ...(one.strong ? {} : { strokeDash: [2, 2] }),
        },
        encoding: { x: { value: x }, y: { value: -21 - lane * LANE }, y2: { value: PLAN_HEIGHT } },
      },
      words(one.words, x + (end ? -FLAG_OFFSET : FLAG_OFFSET), -12 - lane * LANE, {
        align: end ? "right" : "left",
        color: one.strong ? ink : muted,
        bold: one.strong,
      }),
    ];
  });
  const lanes = Math.max(0, ...placed.map(({ lane }) => lane + raised + 1));
  const above = crossed ? lanes : 0;
  return { layers, lanes: Math.max(lanes, above + 1), title: words(title, TITLE_LEFT, -12 - above * LANE) };
}

/** Left edge of the y axis' title, pixels. */
export const TITLE_LEFT = -34;
