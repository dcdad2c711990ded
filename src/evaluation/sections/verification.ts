import { type Note, note } from "../../core/note.ts";
import { type BeggGreenesValues, beggGreenes } from "../../methods/verification/begg-greenes.ts";
import { verificationBounds } from "../../methods/verification/bounds.ts";
import { MEASURES } from "../../methods/verification/fields.ts";
import { imputed } from "../../methods/verification/imputed.ts";
import { weighted } from "../../methods/verification/weighted.ts";
import type { PairedSet } from "../../records/model.ts";
import { cellOf, isPopulationSample } from "../cells.ts";
import type { Answer, Verification } from "../document.ts";
import { type JudgedCell, judgedCells } from "../judged-cells.ts";
import { notesAtPlace, notesUnder } from "../notes.ts";
import { together, type VerifiedPeople, verifiedPeople } from "../verified-people.ts";
import type { Worktop } from "../worktop.ts";
import { verificationCriterion } from "./verification-criteria.ts";

/** Odds ratios looked at where the study file states none. Rule of our own. */
const UNSTATED = { from: 0.25, to: 4 };
const COMPLETED_TABLES = 200;

/** Accuracy of every judged cell in which some people with a result never had the reference test. */
export function verificationSection(
  worktop: Worktop,
  sets: readonly PairedSet[],
  answers: readonly Answer[],
): Verification[] {
  const strata = worktop.study.verification?.strata ?? [];
  return judgedCells(worktop, sets, answers)
    .filter(({ set }) => set.pairs.some((pair) => pair.reference === "not_done"))
    .flatMap((cell) => {
      const people = verifiedPeople(cell.set, worktop.treatment, strata);
      const { reactive, nonreactive } = together(people.groups);
      return reactive.unverified + nonreactive.unverified > 0 ? [partly(worktop, cell, people)] : [];
    });
}

function partly(
  worktop: Worktop,
  cell: JudgedCell,
  { people, groups, setAside }: VerifiedPeople,
): Verification {
  const strata = groups.map((group) => ({ ...group }));
  const counted = together(groups);
  const { level } = worktop.interval;
  const place = Object.values(cellOf(cell.set)).join(" ");
  const found = corrected(worktop, strata, place);
  const byWeights = weightedBy(worktop, strata);
  const { values: completed } = worktop.compute(
    imputed,
    { strata },
    { level, imputations: COMPLETED_TABLES, seed: worktop.seedOf(`imputed ${place}`) },
  );
  const { values: extremes } = worktop.compute(verificationBounds, counted, worktop.interval);
  const stated = worktop.study.verification?.odds_ratio;
  const oddsRatio = { ...(stated ?? UNSTATED), stated: stated !== undefined };
  const question = { strata, oddsRatio, corrected: found.estimates, bounds: extremes };
  const { study } = worktop;
  return {
    ...cellOf(cell.set),
    people,
    counted,
    setAside: [...setAside],
    shareUnverified: unverifiedShares(worktop, counted),
    strataNamed: (study.verification?.strata ?? []).map(
      (id) => study.strata.find((stratum) => stratum.id === id)?.title ?? id,
    ),
    strata,
    naive: naive(worktop, counted),
    corrected: found.estimates,
    weighted: byWeights,
    imputed: eachOf((measure) => {
      const { value, lower, upper, missingShare } = completed[measure];
      return { value, lower, upper, missingShare };
    }),
    bounds: eachOf((measure) => {
      const { lowest, highest } = extremes[measure];
      return { lowest, highest };
    }),
    oddsRatio,
    criteria: cell.answers.map((asked) => verificationCriterion(worktop, asked, question)),
    notes: [...found.notes, ...ownNotes(worktop, cell)],
  };
}

type Strata = Verification["strata"];

function eachOf<Value>(of: (measure: (typeof MEASURES)[number]) => Value) {
  return Object.fromEntries(MEASURES.map((measure) => [measure, of(measure)])) as Record<
    (typeof MEASURES)[number],
    Value
  >;
}

/** Limits in log odds; where the estimate is 0 or 1, which has none, limits from draws. */
function corrected(worktop: Worktop, strata: Strata, place: string) {
  const { level } = worktop.interval;
  const byLogit = worktop.compute(beggGreenes, { strata }, { level });
  const atEdge = MEASURES.filter((measure) => isAtEdge(byLogit.values[measure]));
  const notes = notesAtPlace(notesUnder(byLogit.notes, OWN), "corrected");
  if (atEdge.length === 0) return { estimates: estimatesOf(byLogit.values), notes };
  const drawn = worktop.compute(
    beggGreenes,
    { strata },
    { level, interval: "simulated", seed: worktop.seedOf(`verification ${place}`) },
  );
  const message = "the estimate is 0 or 1: limits from draws of the posterior (Jeffreys priors)";
  const told = atEdge.map((measure) => note("limits_from_draws", `corrected.${measure}`, message));
  return {
    estimates: eachOf((measure) => (atEdge.includes(measure) ? drawn : byLogit).values[measure]),
    notes: [...notes.filter(({ code }) => code !== "at_the_edge"), ...told],
  };
}

const OWN = Object.fromEntries(MEASURES.map((measure) => [measure, measure]));

function isAtEdge({ value, lower }: BeggGreenesValues["sensitivity"]): boolean {
  return value !== null && lower === null;
}

function estimatesOf(values: BeggGreenesValues): Verification["corrected"] {
  return eachOf((measure) => values[measure]);
}

/** Each group's share verified is its probability: the same estimates, with limits of their own. */
function weightedBy(worktop: Worktop, strata: Strata): Verification["weighted"] {
  const groups = strata.flatMap(({ label, ...results }) =>
    (["reactive", "nonreactive"] as const).map((result) => ({
      label: `${label}, ${result}`,
      result,
      ...results[result],
    })),
  );
  const { values } = worktop.compute(weighted, { groups }, { level: worktop.interval.level });
  return { ...eachOf((measure) => values[measure]), effectivePeople: values.effectivePeople };
}

type Counted = Verification["counted"];

function naive(worktop: Worktop, { reactive, nonreactive }: Counted): Verification["naive"] {
  return {
    sensitivity: worktop.proportion(reactive.diseased, reactive.diseased + nonreactive.diseased),
    specificity: worktop.proportion(nonreactive.nondiseased, reactive.nondiseased + nonreactive.nondiseased),
  };
}

function unverifiedShares(worktop: Worktop, { reactive, nonreactive }: Counted) {
  const share = ({ diseased, nondiseased, unverified }: Counted["reactive"]) =>
    worktop.proportion(unverified, diseased + nondiseased + unverified);
  return { reactive: share(reactive), nonreactive: share(nonreactive) };
}

function ownNotes({ study }: Worktop, { set }: JudgedCell): Note[] {
  const notes: Note[] = [];
  if (study.verification === undefined) {
    const message =
      "the study file does not say what decided who was verified: the kit's result alone is supposed to, and odds ratios from a quarter to 4 are looked at";
    notes.push(note("verification_not_stated", "oddsRatio", message));
  }
  if (!isPopulationSample(set)) {
    const message = "not all people came consecutively or at random: the study's own choice of people";
    for (const measure of ["prevalence", "ppv", "npv"]) {
      notes.push(note("enriched_sample", `corrected.${measure}`, message));
    }
  }
  return notes;
}
