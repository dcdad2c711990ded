import { THIN } from "../../formats.ts";
import { counted, listed, numberWord, people, sentence } from "./plural.ts";

/** "75.9 % (64.5 to 84.5)": value with its sign, limits where there are any. */
export interface Told {
  readonly value: string;
  readonly span: string | null;
}

const told = ({ value, span }: Told) => (span === null ? value : `${value} (${span})`);
const studies = (count: number) => counted(count, "study", "studies");

export const pool = {
  kind: "Pooled studies",
  skip: "Skip to the answer",
  running: (title: string) => `Fourfold pooled studies · ${title}`,
  hashes: (fileHash: string, software: string) => `Files ${fileHash}, software ${software}.`,
  about: (used: number, all: number, leftOut: number) =>
    [
      studies(used),
      people(all),
      ...(leftOut === 0 ? [] : [`${counted(leftOut, "row", "rows")} left out`]),
    ] as const,
  measures: { sensitivity: "sensitivity", specificity: "specificity" },
  sections: {
    studies: "Study by study",
    plot: "Both measures together",
    without: "Without each study",
    levels: "What tells studies apart",
    small: "Small studies",
    models: "Other ways of pooling",
    left: "Left out",
    methods: "Methods and formulas",
    cautions: "Cautions",
    provenance: "Provenance",
  },
  answer: {
    heading: "The answer",
    middle: (count: number, basis: "bivariate" | "univariate") =>
      `In the middle of ${studies(count)}${basis === "univariate" ? ", each measure pooled by itself" : ""},`,
    measure: (name: string, told_: Told) => `${name} is ${told(told_)}`,
    /** Both measures of all studies. */
    both: (parts: readonly string[]) => `${parts.join(" and ")}.`,
    level: (name: string, told_: Told, place: string | null) =>
      `${told(told_)} in studies marked “${name}”${place === null ? "" : ` (a new one: ${place}${THIN}%)`}`,
    byLevel: (name: string, parts: readonly string[], covariate: string) =>
      `${sentence(name)} hangs on ${covariate}: ${listed(parts)}.`,
    newPlace: (parts: readonly { readonly name: string; readonly span: string }[]) =>
      `In a place that has not been studied, ${parts.map(({ name, span }, at) => `${name} ${at === 0 ? "may lie anywhere " : ""}from ${span}${THIN}%`).join(" and ")}.`,
    span: (from: string, to: string) => `${from} to ${to}`,
    spread: (parts: readonly string[], correlation: string | null) =>
      `Between studies the standard deviation is ${listed(parts)} on the logit scale, where a step of 1 leads from 90${THIN}% to 77 or to 96${THIN}%${correlation === null ? "" : `; the two measures correlate by ${correlation}`}.`,
    spreadOf: (name: string, value: string) => `${value} for ${name}`,
    none: "No summary can be given. All people together, as if they came from one study:",
    criterion: (facts: {
      name: string;
      asked: string;
      summary: string;
      chance: string | null;
      source: string;
    }) =>
      `Asked of ${facts.name}: at least ${facts.asked}${THIN}% (${facts.source}). The middle of the studies: ${facts.summary}.${facts.chance === null ? "" : ` A place not studied reaches it with probability ${facts.chance}.`}`,
    caption: "Sensitivity and specificity of the studies together",
    columns: {
      measure: "Measure",
      studies: "Studies",
      summary: "Summary, %",
      newPlace: "New place, %",
      asked: "Asked",
      verdict: "Verdict",
    },
    allPeople: "all people together",
    allStudies: (count: number) => `all ${studies(count)}`,
    levelStudies: (level: string, count: number) => `${level}, ${studies(count)}`,
    howToRead: (level: string, summary: boolean, places: boolean, criteria: boolean) =>
      `Dot and thick bar: ${summary ? "the middle of the studies with its" : "all people together, as if of one study, with their exact"} ${level}${THIN}% interval.${places ? ` Thin bar: the ${level}${THIN}% prediction interval, where the true value of a place not studied may lie, if that place is one of the same kind as these studies.` : ""}${criteria ? " Flag: what was asked." : ""}`,
    strip: {
      estimate: (text: string) => `middle ${text}`,
      together: (text: string) => `all people together ${text}`,
      prediction: (span: string) => `new place ${span}${THIN}%`,
      criterion: (asked: string) => `asked at least ${asked}${THIN}%`,
      missing: "not estimable",
    },
  },
  warnings: {
    heading: "Before the figures",
    no_summary: {
      label: "The two measures can't be pooled together",
      text: (message: string, alone: boolean) =>
        `${sentence(message)}. ${alone ? "Each measure is pooled by itself." : "Only all people together can be told."}`,
    },
    not_converged: {
      label: "The search did not end at a maximum",
      text: () => "The figures are where it stood, not the likeliest ones. Don't rely on them.",
    },
    boundary: {
      label: "The model ended on its border",
      text: (still: readonly string[], alone: readonly string[]) =>
        `${
          still.length === 0
            ? "The correlation of the two measures ran to its end: these studies can't tell it, and limits that take it as known are somewhat too narrow."
            : `The spread of ${listed(still)} ran to 0: these studies differ in it no more than chance explains, which is no proof that places are alike.`
        }${alone.length === 0 ? "" : ` By itself, ${listed(alone)}.`}`,
      alone: (name: string, told_: Told) => `${name} is pooled to ${told(told_)}`,
    },
    few_studies: {
      label: "Few studies",
      text: (count: number) =>
        `${sentence(numberWord(count))} ${count === 1 ? "study tells" : "studies tell"} little of how much places differ. Read each study by itself; take the spread and the new place as rough.`,
    },
    levels_differ: {
      label: "One summary would hide a difference",
      text: (covariate: string, measures: readonly string[], p: string) =>
        `By ${covariate} the studies differ in ${listed(measures)} more than chance explains (p\u00a0${p}). The summary over all is the middle of a mixture: read the line of your own kind.`,
    },
    studies_differ: {
      label: "Studies differ more than chance explains",
      text: (parts: readonly string[]) =>
        `The middle is no promise for another place: single studies saw ${listed(parts)}.`,
      part: (name: string, span: string) => `${name} from ${span}${THIN}%`,
    },
    verdict_hangs_on_one: {
      label: "A verdict hangs on single studies",
      text: (parts: readonly string[]) => `${parts.join(" ")}`,
      part: (name: string, labels: readonly string[], more: number) =>
        `Without ${listed([...labels, ...(more === 0 ? [] : [`${numberWord(more)} more`])], "or")} the verdict on ${name} would be another.`,
    },
    left_out: {
      label: "Rows left out",
      text: (leftOut: number, all: number) =>
        `${sentence(numberWord(leftOut))} of ${all} rows of the table could not be used.`,
    },
  },
};
