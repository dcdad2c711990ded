import type { AreaLabel } from "./area-labels.ts";
import { LIGHT_INKS } from "./inks.ts";
import { textWidth } from "./measure-text.ts";
import { words as wordsAt } from "./people-scale.ts";
import type { ReferenceChartWords } from "./reference-words.ts";
import type { Layer } from "./specification.ts";
import { spreadLabels } from "./spread-labels.ts";
import { LABEL_SIZE } from "./theme.ts";
import { FILLS, HEIGHT, lines, type Place, percent, type TippingMapData, WIDTH } from "./tipping-place.ts";
import type { Box, Plotted } from "./verdict-grid.ts";

const { ink } = LIGHT_INKS;

/** What the study states of its reference. */
export const statedWords = ({ believed }: TippingMapData, words: ReferenceChartWords) =>
  words.stated(percent(believed.sensitivity), percent(believed.specificity));

/** Where the words of what is stated stand: beside the box, where they hide no border if that can be. */
export function statedLabel(
  data: TippingMapData,
  plot: Plotted,
  { box, x, y }: Place,
  words: ReferenceChartWords,
): Box {
  const width = textWidth(statedWords(data, words), LABEL_SIZE, "bold") + 8;
  const height = 18;
  const at = (left: number, top: number): Box => ({ x: left, x2: left + width, y: top, y2: top + height });
  const level = Math.min(Math.max(y - height / 2, 2), HEIGHT - height - 2);
  const middle = Math.min(Math.max(x - width / 2, 2), WIDTH - width - 2);
  const places = [
    at(box.x - width - 6, level),
    at(box.x2 + 6, level),
    at(middle, box.y2 + 6),
    at(middle, box.y - height - 6),
  ].filter((one) => one.x >= 0 && one.y >= 0 && one.x2 <= WIDTH && one.y2 <= HEIGHT);
  const whole = places.find((one) => {
    const corners = [one.x, middleOf(one.x, one.x2), one.x2].flatMap((across) => [
      plot.at(across, one.y),
      plot.at(across, one.y2),
    ]);
    return new Set(corners).size === 1;
  });
  return whole ?? places[0] ?? at(middle, level);
}

const middleOf = (one: number, other: number) => (one + other) / 2;

/** A ground behind words, so that no pattern runs through them. */
export function backed({ x, y, x2, y2 }: Box, fill: string): Layer {
  return {
    data: { values: [{}] },
    mark: { type: "rect", fill, opacity: 1 },
    encoding: { x: { value: x }, x2: { value: x2 }, y: { value: y }, y2: { value: y2 } },
  };
}

/** The word of each verdict in its area, or beside the plot on a leader. */
export function labelLayers(labels: readonly AreaLabel[], words: ReferenceChartWords): Layer[] {
  const beside = labels.filter(({ stand }) => stand === "outside");
  const heights = spreadLabels(
    beside.map(({ y }) => y),
    16,
    20,
    HEIGHT,
  );
  return labels.flatMap((label): Layer[] => {
    const text = words.verdicts[label.verdict];
    if (label.stand !== "outside") return [backed(label, FILLS[label.verdict]), verdictWord(text, label)];
    const height = heights[beside.indexOf(label)] ?? label.y;
    return [
      lines([{ x: label.x, y: label.y, x2: WIDTH + 8, y2: height }], { color: ink, strokeWidth: 1 }),
      wordsAt(text, WIDTH + 12, height + 4, { color: ink }),
    ];
  });
}

function verdictWord(text: string, { verdict, stand, x, x2, y, y2 }: AreaLabel): Layer {
  const soft = verdict === "undecided" || verdict === "not_estimable";
  return {
    data: { values: [{ words: text }] },
    mark: {
      type: "text",
      align: "center",
      baseline: "middle",
      ...(stand === "upright" ? { angle: 270 } : {}),
      fontSize: 13,
      fontWeight: soft ? "normal" : 700,
      fontStyle: soft ? "italic" : "normal",
      color: ink,
    },
    encoding: { x: { value: (x + x2) / 2 }, y: { value: (y + y2) / 2 }, text: { field: "words" } },
  };
}
