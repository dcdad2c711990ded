import { LIGHT_INKS } from "./inks.ts";
import { people as peopleWords, statedPercent } from "./numbers.ts";
import {
  chanceChannel,
  LANE,
  type Marked,
  type PeopleDomain,
  PLAN_HEIGHT,
  PLAN_WIDTH,
  peopleChannel,
  peopleFlags,
  wantedRule,
} from "./people-scale.ts";
import { PLAN_CHART_WORDS, type PlanChartWords } from "./plan-words.ts";
import { type PowerPoint, powerTeeth } from "./power-teeth.ts";
import { type Frame, type Layer, layered, type Specification } from "./specification.ts";

export interface PowerSawToothData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The criterion as a reader knows it. */
  readonly criterion: string;
  /** Whom the axis counts, e.g. reference-positive people. */
  readonly people: string;
  readonly curve: readonly PowerPoint[];
  /** Power wanted, a proportion. */
  readonly power: number;
  readonly first: number | null;
  readonly stays: number | null;
  readonly words?: PlanChartWords;
}

const { deep, wash } = LIGHT_INKS;
const percentSigned = (share: number) => `${statedPercent(Number(share.toFixed(3)))}\u202f%`;

/**
 * Power over the number of people, tooth by tooth, with the power wanted, the first total that reaches it
 * and the one from which it is reached for good; between the two the plot is shaded. Along a tooth the
 * line is straight from its first total to its last.
 */
export function powerSawTooth(data: PowerSawToothData): Specification {
  const words = data.words ?? PLAN_CHART_WORDS;
  const domain = domainOf(data.curve);
  const flags = peopleFlags(marksOf(data, domain, words), domain, words.power);
  const frame: Frame = {
    width: PLAN_WIDTH,
    height: PLAN_HEIGHT,
    top: 14 + flags.lanes * LANE,
    right: 96,
    bottom: 50,
    left: 50,
  };
  const wording = {
    name: data.name,
    title: words.powerTitle(data.criterion),
    description: inWords(data, domain, words),
  };
  return layered(wording, frame, [
    ...shade(data, domain),
    line(data, domain),
    ...wantedRule(data.power, words.wanted(percentSigned(data.power))),
    ...flags.layers,
    flags.title,
  ]);
}

function domainOf(curve: readonly PowerPoint[]): PeopleDomain {
  const from = curve[0]?.total ?? 0;
  const to = curve.at(-1)?.total ?? 1;
  return { from: from <= 0.1 * to ? 0 : from, to: Math.max(to, from + 1) };
}

function marksOf({ first, stays }: PowerSawToothData, domain: PeopleDomain, words: PlanChartWords): Marked[] {
  const marks: Marked[] = [];
  if (first !== null && first !== stays) {
    marks.push({ people: first, words: words.first(peopleWords(first)), strong: false });
  }
  if (stays !== null) {
    const say = first === stays ? words.firstAndStays : words.stays;
    marks.push({ people: stays, words: say(peopleWords(stays)), strong: true });
  }
  return marks.filter(({ people }) => people >= domain.from && people <= domain.to);
}

function shade({ first, stays }: PowerSawToothData, domain: PeopleDomain): Layer[] {
  if (first === null || first === stays) return [];
  const from = Math.max(first, domain.from);
  const to = Math.min(stays ?? domain.to, domain.to);
  if (to <= from) return [];
  const at = (people: number) => (PLAN_WIDTH * (people - domain.from)) / (domain.to - domain.from);
  return [
    {
      data: { values: [{ from, to }] },
      mark: { type: "rect", color: wash },
      encoding: {
        x: { value: at(from) },
        x2: { value: at(to) },
        y: { value: 0 },
        y2: { value: PLAN_HEIGHT },
      },
    },
  ];
}

function line(data: PowerSawToothData, domain: PeopleDomain): Layer {
  const values = powerTeeth(data.curve).flatMap(({ from, to, powerFrom, powerTo }) =>
    from === to
      ? [{ people: from, power: powerFrom }]
      : [
          { people: from, power: powerFrom },
          { people: to, power: powerTo },
        ],
  );
  return {
    data: { values },
    mark: { type: "line", color: deep, strokeWidth: 1.3, strokeJoin: "bevel", clip: true },
    encoding: {
      x: peopleChannel("people", domain, data.people),
      y: chanceChannel("power"),
      order: { field: "people", type: "quantitative" },
    },
  };
}

function inWords(data: PowerSawToothData, domain: PeopleDomain, words: PlanChartWords): string {
  const { first, stays } = data;
  const sentence = (text: string) => `${text}.`;
  return [
    words.powerDescription(peopleWords(domain.from), peopleWords(domain.to), percentSigned(data.power)),
    ...(first === null || first === stays ? [] : [sentence(words.first(peopleWords(first)))]),
    stays === null
      ? words.notReached
      : sentence((first === stays ? words.firstAndStays : words.stays)(peopleWords(stays))),
  ].join(" ");
}
