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

/** The PPV in figures beside its point, where the next rule leaves room. */
export function programmeValues(programmes: readonly Programme[], domain: Domain): Layer[] {
  const values = programmes
    .filter((one) => hasRoom(one, programmes, domain))
    .flatMap(({ prevalence, ppv }) =>
      ppv.value === null ? [] : [{ prevalence, value: ppv.value, words: estimatedPercent(ppv.value, "") }],
    );
  const places = [
    { values: values.filter(({ value }) => value >= LOW), baseline: "top" as const, dy: 5 },
    { values: values.filter(({ value }) => value < LOW), baseline: "bottom" as const, dy: -4 },
  ];
  return places
    .filter((place) => place.values.length > 0)
    .map(
      (place): Layer => ({
        data: { values: place.values },
        mark: {
          type: "text",
          align: "left",
          baseline: place.baseline,
          dx: 5,
          dy: place.dy,
          color: deep,
          fontWeight: 600,
        },
        encoding: { x, y: yChannel("value"), text: { field: "words" } },
      }),
    );
}

function hasRoom(one: Programme, all: readonly Programme[], domain: Domain): boolean {
  return all.every((other) => {
    const distance = pixel(other.prevalence, domain) - pixel(one.prevalence, domain);
    return other === one || distance < -8 || distance > VALUE_ROOM;
  });
}
