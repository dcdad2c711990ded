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

/** A rule for each programme, with its name and prevalence. */
export function programmeRules(programmes: readonly Programme[], flags: readonly PlacedFlag[]): Layer[] {
  return programmes.flatMap((programme, index): Layer[] => {
    const flag = flags[index];
    if (flag === undefined) return [];
    const top = -8 - flag.lane * LANE;
    const x = { field: "prevalence", type: "quantitative" } as const;
    const values = [{ prevalence: programme.prevalence, words: flagText(programme) }];
    return [
      {
        data: { values },
        mark: { type: "rule", color: amber, strokeWidth: 1, strokeDash: [1.5, 2.5] },
        encoding: { x, y: { value: top - 13 }, y2: { value: CURVE_HEIGHT } },
      },
      {
        data: { values },
        mark: {
          type: "text",
          color: amber,
          align: flag.anchor === "start" ? "left" : "right",
          baseline: "alphabetic",
          dx: flag.anchor === "start" ? FLAG_OFFSET : -FLAG_OFFSET,
        },
        encoding: { x, y: { value: top - 4 }, text: { field: "words" } },
      },
    ];
  });
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

/** The PPV in figures beside its point, where the next rule leaves room. */
export function programmeValues(programmes: readonly Programme[], domain: Domain): Layer {
  const roomy = programmes.filter((one) =>
    programmes.every((other) => {
      const distance = pixel(other.prevalence, domain) - pixel(one.prevalence, domain);
      return other === one || distance < -8 || distance > VALUE_ROOM;
    }),
  );
  return {
    data: {
      values: roomy
        .filter((programme) => programme.ppv.value !== null)
        .map(({ prevalence, ppv }) => ({
          prevalence,
          value: ppv.value,
          words: estimatedPercent(ppv.value, ""),
        })),
    },
    mark: { type: "text", align: "left", baseline: "top", dx: 5, dy: 5, color: deep, fontWeight: 600 },
    encoding: {
      x: { field: "prevalence", type: "quantitative" },
      y: yChannel("value"),
      text: { field: "words" },
    },
  };
}
