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
import { type Frame, layered, type Specification } from "./specification.ts";

export interface EnrolmentChanceData {
  /** Begins the ids in the drawing; unique on a page. */
  readonly name: string;
  /** The analyte as a reader knows it. */
  readonly analyte: string;
  readonly curve: readonly { readonly total: number; readonly chance: number }[];
  /** Chance wanted, a proportion. */
  readonly assurance: number;
  /** Enough on average only. */
  readonly naive: number | null;
  /** Enough with the chance wanted. */
  readonly assured: number | null;
  readonly words?: PlanChartWords;
}

const percentSigned = (share: number) => `${statedPercent(Number(share.toFixed(4)))}\u202f%`;

/**
 * The chance that enough reference positives and negatives come, over the number enrolled: with the chance
 * wanted, the number that has it, and the number that is enough on average only.
 */
export function enrolmentChance(data: EnrolmentChanceData): Specification {
  const words = data.words ?? PLAN_CHART_WORDS;
  const from = data.curve[0]?.total ?? 0;
  const domain: PeopleDomain = { from, to: Math.max(data.curve.at(-1)?.total ?? 1, from + 1) };
  const flags = peopleFlags(marksOf(data, domain, words), domain, words.chance);
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
    title: words.chanceTitle(data.analyte),
    description: [
      words.chanceDescription(peopleWords(domain.from), peopleWords(domain.to)),
      ...marksOf(data, domain, words).map((mark) => `${mark.words}.`),
    ].join(" "),
  };
  return layered(wording, frame, [
    {
      data: { values: data.curve.map(({ total, chance }) => ({ people: total, chance })) },
      mark: { type: "line", color: LIGHT_INKS.deep, strokeWidth: 2, clip: true },
      encoding: { x: peopleChannel("people", domain, words.enrolled), y: chanceChannel("chance") },
    },
    ...wantedRule(data.assurance, words.wanted(percentSigned(data.assurance))),
    ...flags.layers,
    flags.title,
  ]);
}

function marksOf(data: EnrolmentChanceData, domain: PeopleDomain, words: PlanChartWords): Marked[] {
  const { naive, assured, assurance } = data;
  const marks: Marked[] = [];
  if (naive !== null) marks.push({ people: naive, words: words.naive(peopleWords(naive)), strong: false });
  if (assured !== null) {
    const text = words.assured(percentSigned(assurance), peopleWords(assured));
    marks.push({ people: assured, words: text, strong: true });
  }
  return marks.filter(({ people }) => people >= domain.from && people <= domain.to);
}
