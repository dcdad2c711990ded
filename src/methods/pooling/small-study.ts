import { defineMethod, type Finding } from "../../core/method.ts";
import { type Note, note } from "../../core/note.ts";
import { tQuantile } from "../../numeric/student-t.ts";
import { notesAt } from "../notes-at.ts";
import { heightAt, lineValues, NO_LINE } from "./line-values.ts";
import { smallStudyExamples } from "./small-study-examples.ts";
import {
  Input,
  Options,
  type SmallStudyInput,
  type SmallStudyOptions,
  type SmallStudyValues,
  Values,
} from "./small-study-fields.ts";
import { type StudyEffects, studyEffects } from "./study-effects.ts";
import { requireStudies } from "./study-fields.ts";
import { type WeightedLine, weightedLine } from "./weighted-line.ts";

export type { SmallStudyInput, SmallStudyOptions, SmallStudyValues };

/**
 * Do small studies show better accuracy than large ones? The funnel of Deeks, Macaskill and Irwig: log odds ratios
 * against one over the root of the effective number of people, by a line weighted with that number.
 *
 * A slope away from 0 says that small studies differ from large ones. Studies left unpublished are one reason;
 * other people, other reference tests and other cutoffs in small studies are others.
 *
 * @param input   fourfold tables of studies; how zeros are corrected
 * @param options level of the limits
 * @returns line and funnel; `null` with a note for fewer than three studies that can be used (`too_few_studies`) or
 *   where all are of one size (`no_variation`). Studies left out bear a note each
 * @throws InputError where two studies bear one label
 * Behaves badly with fewer than ten studies, or where odds ratios scatter much: it then finds little
 * Source: deeks2005
 */
export function smallStudyEffects(
  input: SmallStudyInput,
  options: SmallStudyOptions,
): Finding<SmallStudyValues> {
  requireStudies(input.studies);
  const { effects, notes } = studyEffects(input.studies, input.correction, "list");
  const sizes = effects.map(effectivePeople);
  const line = weightedLine(
    effects.map(({ logOddsRatio }, at) => {
      const size = sizes[at] as number;
      return { x: 1 / Math.sqrt(size), y: logOddsRatio, weight: size };
    }),
  );
  const list: SmallStudyValues["list"] = input.studies.map(({ label }) => ({ label, ...NOWHERE }));
  effects.forEach((study, at) => {
    list[study.place] = {
      label: study.label,
      logOddsRatio: study.logOddsRatio,
      standardError: Math.sqrt(study.variance),
      effectivePeople: sizes[at] as number,
      inverseRootSize: 1 / Math.sqrt(sizes[at] as number),
    };
  });
  const values: SmallStudyValues = {
    line: line === null ? NO_LINE : lineValues(line, options.level),
    points: line === null ? [] : pointsOf(line, sizes, options.level),
    list,
  };
  return { values, notes: [...notes, ...lineNotes(line, effects.length)] };
}

const NOWHERE = { logOddsRatio: null, standardError: null, effectivePeople: null, inverseRootSize: null };

function effectivePeople({ peopleWith, peopleWithout }: StudyEffects): number {
  return (4 * peopleWith * peopleWithout) / (peopleWith + peopleWithout);
}

const FUNNEL_POINTS = 21;

function pointsOf(line: WeightedLine, sizes: readonly number[], level: number): SmallStudyValues["points"] {
  const reach = tQuantile((1 + level) / 2, line.degreesOfFreedom);
  const from = 1 / Math.sqrt(Math.max(...sizes));
  const to = 1 / Math.sqrt(Math.min(...sizes));
  return Array.from({ length: FUNNEL_POINTS }, (_, step) => {
    const inverseRootSize = from + ((to - from) * step) / (FUNNEL_POINTS - 1);
    const { value, error } = heightAt(line, inverseRootSize);
    return {
      inverseRootSize,
      logOddsRatio: { value, lower: value - reach * error, upper: value + reach * error },
    };
  });
}

/** Common practice, no source. */
const ENOUGH = 10;

function lineNotes(line: WeightedLine | null, studies: number): Note[] {
  if (line === null) {
    return studies < 3
      ? notesAt("too_few_studies", ["line"], `${studies} studies can be used: a line with errors needs three`)
      : notesAt("no_variation", ["line"], "all studies are of the same effective size: no line can be seen");
  }
  const few =
    studies < ENOUGH ? `${studies} studies, fewer than ${ENOUGH}: this test finds little` : "low power";
  const message = `${few}; a large p-value is no sign that no study was left unpublished, least of all where odds ratios scatter much`;
  return [note("low_power", "line.slopeP", message)];
}

export const smallStudy = defineMethod({
  id: "pooling.small_study",
  version: 1,
  title: "Do small studies show better accuracy?",
  question: "Are the small studies more favourable than the large ones, as if others had stayed in a drawer?",
  formula:
    "effective people = 4 n1 n2 / (n1 + n2), n1 with and n2 without the condition; ln DOR = a + b / sqrt(effective people), weights effective people, least squares; t = b / error with studies - 2 degrees of freedom",
  caution:
    "a slope has many reasons besides unpublished studies, and with few or scattered studies it is missed. Funnels against the standard error of the log odds ratio mislead for accuracy, as that error hangs on the odds ratio itself: hence the effective number of people",
  sources: ["deeks2005"],
  input: Input,
  options: Options,
  values: Values,
  run: smallStudyEffects,
  examples: smallStudyExamples,
});
