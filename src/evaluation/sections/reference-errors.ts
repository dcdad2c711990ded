import { type Note, note } from "../../core/note.ts";
import { referenceComposite } from "../../methods/reference/composite.ts";
import { referenceCorrected } from "../../methods/reference/corrected.ts";
import type { ReferenceErrors as Stated } from "../../records/reference-fields.ts";
import type { FourfoldCounts } from "../../records/tallies.ts";
import { cellOf, isPopulationSample } from "../cells.ts";
import type { Answer, ReferenceErrors } from "../document.ts";
import { type JudgedCell, judgedCells } from "../judged-cells.ts";
import { notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import { referenceCriterion, type Supposed } from "./reference-criteria.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

type Believed = ReferenceErrors["believed"];

/** Random draws behind each interval: they leave its limits uncertain by about 1 % of its width. */
const DRAWS = 5000;

/** Accuracy behind the stated errors of the reference, wherever the study file states them. */
export function referenceErrorsSection(
  worktop: Worktop,
  sets: Parameters<typeof judgedCells>[1],
  answers: readonly Answer[],
): ReferenceErrors[] {
  const stated = new Map(
    worktop.study.analytes.flatMap(({ id, reference }) =>
      reference.errors === undefined ? [] : [[id, reference.errors] as const],
    ),
  );
  if (stated.size === 0) return [];
  return judgedCells(worktop, sets, answers).flatMap((cell) => {
    const errors = stated.get(cell.set.analyte);
    return errors === undefined ? [] : [behindErrors(worktop, cell, errors)];
  });
}

function behindErrors(worktop: Worktop, cell: JudgedCell, stated: Stated): ReferenceErrors {
  const { set } = cell;
  const { counts } = worktop.tally(set);
  const believed = believedOf(worktop, stated);
  const { covariance } = stated;
  const supposed = { counts: crossed(counts), believed, covariance };
  const { values, notes } = worktop.compute(
    referenceCorrected,
    {
      counts: supposed.counts,
      reference: {
        sensitivity: { kind: "value", value: believed.sensitivity.believed },
        specificity: { kind: "value", value: believed.specificity.believed },
      },
      covariance,
    },
    options(worktop, cell, "believed"),
  );
  const { truePositives, falsePositives, falseNegatives, trueNegatives } = counts;
  const positives = truePositives + falseNegatives;
  const criteria = cell.answers.map((asked) => referenceCriterion(worktop, asked, supposed));
  return {
    ...cellOf(set),
    counts,
    naive: {
      ...sensitivitySpecificity(worktop, counts),
      prevalence: worktop.proportion(positives, positives + falsePositives + trueNegatives),
    },
    believed,
    covariance,
    source: stated.source,
    enteredOn: stated.entered_on ?? null,
    composite: stated.composite ?? null,
    corrected: { ...values.corrected, prevalence: values.prevalence },
    formula: values.formula,
    simulated: simulated(worktop, cell, supposed),
    admissible: {
      sensitivity: values.admissible.referenceSensitivity,
      specificity: values.admissible.referenceSpecificity,
    },
    criteria: criteria.map(({ values: judged }) => judged),
    notes: [
      ...notesUnder(notes, HERE),
      ...criteria.flatMap(({ notes: judged }) => judged),
      ...sampleNotes(cell),
    ],
  };
}

const HERE = { corrected: "corrected", prevalence: "corrected.prevalence", admissible: "admissible" };

/** Kit result by reference result, in the words of the methods. */
function crossed({ truePositives, falsePositives, falseNegatives, trueNegatives }: FourfoldCounts) {
  return {
    bothReactive: truePositives,
    kitOnly: falsePositives,
    referenceOnly: falseNegatives,
    neither: trueNegatives,
  };
}

/** As stated, or as the two tests of a composite reference give it. */
function believedOf(worktop: Worktop, { sensitivity, specificity, composite }: Stated): Believed {
  if (sensitivity !== undefined && specificity !== undefined) return { sensitivity, specificity };
  const [first, second] = (composite?.tests ?? []).map((test) => ({
    sensitivity: test.sensitivity,
    specificity: test.specificity,
  }));
  if (composite === undefined || first === undefined || second === undefined) {
    throw new Error("a reference without stated errors has no section");
  }
  const { values } = worktop.compute(referenceComposite, {
    // Nothing is asked of the kit, so that any kit will do.
    kit: { sensitivity: 1, specificity: 1 },
    first,
    second,
    dependence: { kind: "covariance", ...composite.covariance },
    prevalence: 0.5,
  });
  const rule = values[composite.rule === "any_positive" ? "anyPositive" : "bothPositive"];
  const point = (value: number | null) => ({ believed: value ?? 0, from: value ?? 0, to: value ?? 0 });
  return { sensitivity: point(rule.sensitivity), specificity: point(rule.specificity) };
}

/** With the stated ranges drawn too; `null` where none has a width. */
function simulated(worktop: Worktop, cell: JudgedCell, { counts, believed, covariance }: Supposed) {
  const ranges = [believed.sensitivity, believed.specificity];
  if (ranges.every(({ from, to }) => from === to)) return null;
  const spread = ({ from, to }: Believed["sensitivity"]) => ({ kind: "range" as const, low: from, high: to });
  const { values } = worktop.compute(
    referenceCorrected,
    {
      counts,
      reference: { sensitivity: spread(believed.sensitivity), specificity: spread(believed.specificity) },
      covariance,
    },
    options(worktop, cell, "ranges"),
  );
  const { sensitivity, specificity, prevalence } = values.simulated;
  return { sensitivity, specificity, prevalence };
}

function options(worktop: Worktop, { set }: JudgedCell, what: string) {
  const place = `reference errors ${what} ${Object.values(cellOf(set)).join(" ")}`;
  return { level: worktop.interval.level, draws: DRAWS, seed: worktop.seedOf(place) };
}

function sampleNotes({ set }: JudgedCell): Note[] {
  if (isPopulationSample(set)) return [];
  const message =
    "not all people came consecutively or at random: the prevalence is that of the study's own choice of people, and the correction holds only if they were not chosen by the reference's own result";
  return [note("enriched_sample", "corrected.prevalence", message)];
}
