import { type Note, note } from "../../core/note.ts";
import { bivariate } from "../../methods/pooling/bivariate.ts";
import { influence } from "../../methods/pooling/influence.ts";
import { univariate } from "../../methods/pooling/univariate.ts";
import { cellOf } from "../cells.ts";
import type { Answer, Pooled } from "../document.ts";
import { type AccuracyAnswer, type JudgedCell, judgedCells } from "../judged-cells.ts";
import { notesAtPlace } from "../notes.ts";
import { type PooledGroups, pooledGroups } from "../pooled-groups.ts";
import { preferredModel } from "../pooled-told.ts";
import type { Worktop } from "../worktop.ts";
import { pooledCriterion } from "./pooled-criteria.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

/** Groups that the methods take; and groups of which each is left out in turn, a fit each time. */
const MOST_GROUPS = 500;
const MOST_LEFT_OUT = 60;

/** The groups of a stratum taken as a sample of such groups, wherever the accuracy is judged. */
export function pooledSection(
  worktop: Worktop,
  sets: Parameters<typeof judgedCells>[1],
  answers: readonly Answer[],
): Pooled[] {
  const { pooling } = worktop.study;
  if (pooling === undefined) return [];
  return judgedCells(worktop, sets, answers).map((cell) => pooledCell(worktop, cell, pooling));
}

function pooledCell(
  worktop: Worktop,
  { set, answers }: JudgedCell,
  { by, covariate }: { readonly by: string; readonly covariate?: string | undefined },
): Pooled {
  const named = (id: string) => {
    const found = worktop.study.strata.find((stratum) => stratum.id === id);
    if (found === undefined) throw new Error(`no stratum ${id}: the study file was not checked`);
    return found;
  };
  const stratum = named(by);
  const found = pooledGroups(worktop, set, stratum, covariate === undefined ? null : named(covariate));
  const models = modelsOf(worktop, found, answers);
  const criteria = answers.map((asked) => pooledCriterion(worktop, asked, studiesOf(found), models));
  return {
    ...cellOf(set),
    by: { stratum: by, title: stratum.title },
    covariate: found.covariate,
    people: found.people,
    groups: found.groups,
    leftOut: found.leftOut,
    together: sensitivitySpecificity(worktop, sumOf(found.groups)),
    preferred: {
      sensitivity: preferredModel(models, "sensitivity"),
      specificity: preferredModel(models, "specificity"),
    },
    bivariate: models.bivariate,
    univariate: models.univariate,
    influence: models.influence,
    influenceCriterion: models.influenceCriterion,
    criteria,
    notes: [...found.notes, ...models.notes],
  };
}

type Models = Pick<Pooled, "bivariate" | "univariate" | "influence" | "influenceCriterion" | "notes">;

function modelsOf(worktop: Worktop, found: PooledGroups, answers: readonly AccuracyAnswer[]): Models {
  const { groups } = found;
  const influenceCriterion = bothFigures(answers);
  const none = { bivariate: null, univariate: null, influence: null, influenceCriterion };
  if (groups.length === 0) {
    return { ...none, notes: [note("no_observations", "groups", "no group has people that count")] };
  }
  if (groups.length > MOST_GROUPS) {
    const message = `${groups.length} groups, more than the ${MOST_GROUPS} that can be pooled: choose a coarser stratum`;
    return { ...none, notes: [note("too_many_groups", "groups", message)] };
  }
  const studies = studiesOf(found);
  const { level } = worktop.interval;
  const pair = worktop.compute(
    bivariate,
    { studies, covariate: covariateOf(found), likelihood: BINOMIAL },
    { level, interval: "profile" },
  );
  const alone = {
    sensitivity: oneMeasure(worktop, groups, "sensitivity"),
    specificity: oneMeasure(worktop, groups, "specificity"),
  };
  const left = leftOutInTurn(worktop, studies, influenceCriterion);
  return {
    bivariate: pair.values,
    univariate: { sensitivity: alone.sensitivity.values, specificity: alone.specificity.values },
    influence: left.values,
    influenceCriterion,
    notes: [
      ...notesAtPlace(pair.notes, "bivariate"),
      ...notesAtPlace(alone.sensitivity.notes, "univariate.sensitivity"),
      ...notesAtPlace(alone.specificity.notes, "univariate.specificity"),
      ...left.notes,
    ],
  };
}

const BINOMIAL = { kind: "binomial" } as const;

function studiesOf({ groups }: PooledGroups) {
  return groups.map(({ label, counts }) => ({ label, ...counts }));
}

function covariateOf({ groups, covariate }: PooledGroups) {
  if (covariate === null) return null;
  return { name: covariate.title, levels: groups.map(({ level }) => level ?? "") };
}

function oneMeasure(worktop: Worktop, groups: Pooled["groups"], measure: "sensitivity" | "specificity") {
  const studies = groups.map((group) => ({
    label: group.label,
    count: group[measure].count,
    total: group[measure].total,
  }));
  const { level } = worktop.interval;
  return worktop.compute(univariate, { studies, correction: "zero_cells" }, { level });
}

function leftOutInTurn(
  worktop: Worktop,
  studies: ReturnType<typeof studiesOf>,
  criterion: Models["influenceCriterion"],
): { readonly values: Pooled["influence"]; readonly notes: readonly Note[] } {
  if (studies.length > MOST_LEFT_OUT) {
    const message = `${studies.length} groups: with more than ${MOST_LEFT_OUT} none is left out in turn`;
    return { values: null, notes: [note("too_many_groups", "influence", message)] };
  }
  const { level } = worktop.interval;
  const { values, notes } = worktop.compute(
    influence,
    { studies, likelihood: BINOMIAL, criterion },
    { level },
  );
  return { values, notes: notesAtPlace(notes, "influence") };
}

/** The figures of the first criterion on each measure, where both are demanded from below. */
function bothFigures(answers: readonly AccuracyAnswer[]): Models["influenceCriterion"] {
  const figure = (measure: string) =>
    answers.find(
      ({ answer: { measure: asked, direction, threshold } }) =>
        asked === measure && direction === "at_least" && threshold > 0 && threshold < 1,
    )?.answer.threshold;
  const [sensitivity, specificity] = [figure("sensitivity"), figure("specificity")];
  return sensitivity === undefined || specificity === undefined ? null : { sensitivity, specificity };
}

function sumOf(groups: Pooled["groups"]) {
  const sum = { truePositives: 0, falsePositives: 0, falseNegatives: 0, trueNegatives: 0 };
  for (const { counts } of groups) {
    sum.truePositives += counts.truePositives;
    sum.falsePositives += counts.falsePositives;
    sum.falseNegatives += counts.falseNegatives;
    sum.trueNegatives += counts.trueNegatives;
  }
  return sum;
}
