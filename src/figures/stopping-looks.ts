import { LIGHT_INKS } from "./inks.ts";
import { people as peopleWords, statedPercent } from "./numbers.ts";
import { TITLE_LEFT, words as wordsAt } from "./people-scale.ts";
import { PLAN_CHART_WORDS, type PlanChartWords } from "./plan-words.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";

interface Look {
  readonly total: number;
  readonly passFrom: number | null;
  readonly failAt: number | null;
}

export interface StoppingLooksData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The rule as a reader knows it. */
  readonly rule: string;
  readonly looks: readonly Look[];
  /** Proportions right: hoped for, and too low. */
  readonly expected: number;
  readonly unacceptable: number;
  readonly words?: PlanChartWords;
}

const WIDTH = 560;
const HEIGHT = 220;
const BAR = 7;
const { ink, muted, deep, ochre, amber, paper } = LIGHT_INKS;
const signed = (share: number) => `${statedPercent(share)}\u202f%`;

interface Shown {
  readonly people: number;
  readonly pass: number | null;
  readonly fail: number | null;
}

/**
 * When a study stops, look by look: how many wrong results let the kit pass (from below), how many make it
 * fail (from above), and between them go on; with the paths of a kit as expected and of an unacceptable one.
 */
export function stoppingLooks(data: StoppingLooksData): Specification {
  const words = data.words ?? PLAN_CHART_WORDS;
  const shown = data.looks.map(({ total, passFrom, failAt }) => ({
    people: total,
    pass: passFrom === null ? null : total - passFrom,
    fail: failAt === null ? null : total - failAt,
  }));
  const last = Math.max(1, ...shown.map(({ people }) => people));
  const borders = shown.flatMap(({ pass, fail }) => [pass ?? 0, fail ?? 0]);
  const most = Math.ceil(Math.max(2, last * (1 - data.unacceptable), ...borders) * 1.2) + 0.5;
  const scales: Scales = { last, most, words };
  const frame: Frame = { width: WIDTH, height: HEIGHT, top: 36, right: 170, bottom: 50, left: 50 };
  const wording = {
    name: data.name,
    title: words.looksTitle(data.rule),
    description: inWords(shown, words),
  };
  return layered(wording, frame, [
    ...paths(data, scales),
    goOn(shown, scales),
    ...bars(shown, scales),
    ...labels(shown, scales),
    wordsAt(crowded(shown, last) ? words.wrongSoFarShort : words.wrongSoFar, TITLE_LEFT, -14),
  ]);
}

interface Scales {
  readonly last: number;
  readonly most: number;
  readonly words: PlanChartWords;
}

const xChannel = ({ last, words }: Scales) => ({
  field: "people",
  type: "quantitative" as const,
  scale: { domain: [0, last * 1.02], nice: false },
  axis: {
    title: words.peopleSoFar,
    titleAnchor: "start" as const,
    titlePadding: 10,
    tickCount: 8,
    tickMinStep: 1,
    tickRound: false,
    format: ",d",
  },
});
const yChannel = (field: string, { most }: Scales) => ({
  field,
  type: "quantitative" as const,
  scale: { domain: [-0.5, most], nice: false, zero: false },
  axis: { title: null, tickCount: 5, tickMinStep: 1, format: "d" },
});

/** How many wrong results come on average, by what is true of the kit. */
function paths({ expected, unacceptable }: StoppingLooksData, scales: Scales): Layer[] {
  const { last, most, words } = scales;
  const kinds = [
    ["expected", expected, muted],
    ["unacceptable", unacceptable, amber],
  ] as const;
  const ends = kinds.map(([, right]) => (1 - right) * last);
  const near = Math.abs((ends[0] ?? 0) - (ends[1] ?? 0)) * (HEIGHT / (most + 0.5)) < 14;
  return kinds.flatMap(([kind, right, color], at): Layer[] => [
    {
      data: {
        values: [
          { people: 0, wrong: 0 },
          { people: last, wrong: (1 - right) * last },
        ],
      },
      mark: { type: "line", color, strokeWidth: 1, strokeDash: [3, 3] },
      encoding: { x: xChannel(scales), y: yChannel("wrong", scales) },
    },
    {
      data: { values: [{ wrong: (1 - right) * last, words: words.truth(signed(right), kind) }] },
      mark: {
        type: "text",
        align: "left",
        baseline: "middle",
        color,
        dx: 16,
        dy: near ? (at === 0 ? 8 : -8) : 0,
      },
      encoding: { x: { value: WIDTH / 1.02 }, y: yChannel("wrong", scales), text: { field: "words" } },
    },
  ]);
}

/** Between passing and failing: a thin rule from end to end under the bars. */
function goOn(shown: readonly Shown[], scales: Scales): Layer {
  return {
    data: { values: shown.map(({ people }) => ({ people, foot: -0.5, top: scales.most })) },
    mark: { type: "rule", color: muted, strokeWidth: 1 },
    encoding: { x: xChannel(scales), y: yChannel("foot", scales), y2: { field: "top" } },
  };
}

function bars(shown: readonly Shown[], scales: Scales): Layer[] {
  const passing = shown.flatMap(({ people, pass }) =>
    pass === null ? [] : [{ people, foot: -0.5, top: pass + 0.5 }],
  );
  const failing = shown.flatMap(({ people, fail }) =>
    fail === null ? [] : [{ people, foot: fail - 0.5, top: scales.most }],
  );
  return [
    [passing, deep],
    [failing, ochre],
  ].flatMap((pair): Layer[] => {
    const [values, color] = pair as [typeof passing, string];
    if (values.length === 0) return [];
    return [
      {
        data: { values },
        mark: { type: "rule", color, strokeWidth: BAR },
        encoding: { x: xChannel(scales), y: yChannel("foot", scales), y2: { field: "top" } },
      },
    ];
  });
}

/** Pixels between looks that their borders in words need. */
const LABEL_ROOM = 78;

/** Whether two looks are too close for words at each: then their borders stand as bare numbers. */
function crowded(shown: readonly Shown[], last: number): boolean {
  return shown.some(({ people }, at) => {
    const before = shown[at - 1];
    return before !== undefined && ((people - before.people) * WIDTH) / last < LABEL_ROOM;
  });
}

interface Label {
  readonly people: number;
  readonly at: number;
  readonly words: string;
}

/** The borders in figures, to the left of their bars; a short bar has them above its foot. */
function labels(shown: readonly Shown[], scales: Scales): Layer[] {
  const { words, most, last } = scales;
  const [passWords, failWords] = crowded(shown, last)
    ? [words.atMost, words.atLeast]
    : [words.passes, words.fails];
  const short = (pass: number) => ((pass + 1) * HEIGHT) / (most + 0.5) < 15;
  const passing = (low: boolean) =>
    shown.flatMap(({ people, pass }): Label[] =>
      pass === null || short(pass) !== low
        ? []
        : [{ people, at: low ? -0.5 : pass + 0.5, words: passWords(peopleWords(pass)) }],
    );
  const failing = shown.flatMap(({ people, fail }): Label[] =>
    fail === null ? [] : [{ people, at: fail - 0.5, words: failWords(peopleWords(fail)) }],
  );
  return [
    ...label(passing(false), "top", deep, scales),
    ...label(passing(true), "bottom", deep, scales),
    ...label(failing, "bottom", ink, scales),
  ];
}

/** Words on a ground of paper, so that no line runs through them. */
function label(values: readonly Label[], baseline: "top" | "bottom", color: string, scales: Scales): Layer[] {
  if (values.length === 0) return [];
  const dy = baseline === "top" ? 2 : -2;
  const text = { type: "text", align: "right", baseline, dx: -9, dy, fontWeight: 600 } as const;
  const encoding = {
    x: xChannel(scales),
    y: yChannel("at", scales),
    text: { field: "words" },
  };
  return [
    {
      data: { values: [...values] },
      mark: { ...text, color: paper, stroke: paper, strokeWidth: 4 },
      encoding,
    },
    { data: { values: [...values] }, mark: { ...text, color }, encoding },
  ];
}

function inWords(shown: readonly Shown[], words: PlanChartWords): string {
  return shown
    .map(({ people, pass, fail }) =>
      words.look(
        peopleWords(people),
        pass === null ? null : peopleWords(pass),
        fail === null ? null : peopleWords(fail),
      ),
    )
    .join(" ");
}
