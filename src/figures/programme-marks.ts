import type { Predictive } from "../evaluation/document.ts";
import { FLAG_OFFSET, type PlacedFlag, placeFlags } from "./flag-lanes.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { estimatedPercent, statedPercent } from "./numbers.ts";
import { CURVE_HEIGHT, CURVE_WIDTH, type Domain, MEASURES, pixel, yChannel } from "./prevalence-scale.ts";
import type { Layer } from "./specification.ts";
import { LABEL_SIZE } from "./theme.ts";
import type { ChartWords } from "./words.ts";

/** A programme as the curve marks it. */
export type Programme = Pick<Predictive["programmes"][number], "title" | "prevalence" | "ppv" | "npv">;

/** Height of one lane of programme names, pixels. */
export const LANE = 19;
/** Left edge of the y axis' title. */
export const TITLE_LEFT = -34;
const VALUE_ROOM = 50;
const { ink, paper, deep, amber } = LIGHT_INKS;

function flagText(programme: Programme): string {
  return `${programme.title}, ${statedPercent(programme.prevalence)}\u202f%`;
}

/** Where the names of the programmes hang above the plot; none touches the title of the y axis. */
export function flagsOf(programmes: readonly Programme[], domain: Domain, words: ChartWords): PlacedFlag[] {
  const flags = programmes.map((programme) => ({
    x: pixel(programme.prevalence, domain),
    width: textWidth(flagText(programme), LABEL_SIZE),
  }));
  const placed = placeFlags(flags, -45, CURVE_WIDTH + 65);
  const titleEnd = TITLE_LEFT + textWidth(words.predictiveValue, LABEL_SIZE) + 12;
  const raised = placed.some((flag) => flag.lane === 0 && flag.left < titleEnd) ? 1 : 0;
  return placed.map((flag) => ({ ...flag, lane: flag.lane + raised }));
}

const x = { field: "prevalence", type: "quantitative" as const };
/** Pixels, not a share: outside the scale of the y axis. */
const height = (field: string) => ({ field, type: "quantitative" as const, scale: null });

/** A rule for each programme, with its name and prevalence. */
export function programmeRules(programmes: readonly Programme[], flags: readonly PlacedFlag[]): Layer[] {
  const marked = programmes.map((programme, index) => {
    const lane = flags[index]?.lane ?? 0;
    return {
      prevalence: programme.prevalence,
      words: flagText(programme),
      anchor: flags[index]?.anchor ?? "start",
      top: -21 - lane * LANE,
      baseline: -12 - lane * LANE,
      foot: CURVE_HEIGHT,
    };
  });
  const sides = [
    ["start", "left", FLAG_OFFSET],
    ["end", "right", -FLAG_OFFSET],
  ] as const;
  const names = sides
    .map(([anchor, align, dx]) => ({ align, dx, values: marked.filter((one) => one.anchor === anchor) }))
    .filter(({ values }) => values.length > 0)
    .map(
      ({ align, dx, values }): Layer => ({
        data: { values },
        mark: { type: "text", color: amber, align, baseline: "alphabetic", dx },
        encoding: { x, y: height("baseline"), text: { field: "words" } },
      }),
    );
  const rules: Layer = {
    data: { values: marked },
    mark: { type: "rule", color: amber, strokeWidth: 1, strokeDash: [1.5, 2.5] },
    encoding: { x, y: height("top"), y2: { field: "foot" } },
  };
  return marked.length === 0 ? [] : [rules, ...names];
}

/** The two predictive values of each programme as points on the curves. */
export function programmePoints(programmes: readonly Programme[]): Layer[] {
  return [...MEASURES].reverse().map(
    (measure): Layer => ({
      data: {
        values: programmes.map((programme) => ({
          programme: programme.title,
          prevalence: programme.prevalence,
          value: programme[measure].value,
        })),
      },
      mark: {
        type: "point",
        filled: true,
        shape: "circle",
        size: measure === "ppv" ? 46 : 30,
        fill: measure === "ppv" ? deep : paper,
        stroke: measure === "ppv" ? paper : ink,
        strokeWidth: 1.2,
        opacity: 1,
      },
      encoding: { x: { field: "prevalence", type: "quantitative" }, y: yChannel("value") },
    }),
  );
}

/** Below this share there is no room for figures between a point and the axis. */
const LOW = 0.08;
/** Above this share figures over a point would reach the names of the programmes. */
const HIGH = 0.9;

type ValuePlace = "right, below" | "right, above" | "left, above";

/** The PPV in figures beside its point, on the side where the neighbouring rules leave room. */
export function programmeValues(programmes: readonly Programme[], domain: Domain): Layer[] {
  const values = programmes.flatMap((one) => {
    const place = valuePlace(one, programmes, domain);
    if (one.ppv.value === null || place === null) return [];
    const { prevalence, ppv } = one;
    return [{ prevalence, value: ppv.value, words: estimatedPercent(ppv.value, ""), place }];
  });
  const places: readonly ValuePlace[] = ["right, below", "right, above", "left, above"];
  return places
    .map((place) => ({ place, data: values.filter((one) => one.place === place) }))
    .filter(({ data }) => data.length > 0)
    .map(({ place, data }): Layer => {
      const left = place === "left, above";
      const below = place === "right, below";
      return {
        data: { values: data },
        mark: {
          type: "text",
          align: left ? "right" : "left",
          baseline: below ? "top" : "bottom",
          dx: left ? -5 : 5,
          dy: below ? 5 : -4,
          color: deep,
          fontWeight: 600,
        },
        encoding: { x, y: yChannel("value"), text: { field: "words" } },
      };
    });
}

function valuePlace(one: Programme, all: readonly Programme[], domain: Domain): ValuePlace | null {
  const at = pixel(one.prevalence, domain);
  const distances = all.filter((other) => other !== one).map((other) => pixel(other.prevalence, domain) - at);
  const free = (from: number, to: number) => distances.every((distance) => distance < from || distance > to);
  const share = one.ppv.value ?? 0;
  if (free(-8, VALUE_ROOM)) return share < LOW ? "right, above" : "right, below";
  return free(-VALUE_ROOM, 8) && at > VALUE_ROOM && share < HIGH ? "left, above" : null;
}
