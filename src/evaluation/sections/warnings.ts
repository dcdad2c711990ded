import { cellOf } from "../cells.ts";
import type { Intensity, Panel, Pooled, Warning } from "../document.ts";
import { MEASURES } from "../measures.ts";
import { toldOf } from "../pooled-told.ts";
import type { Worktop } from "../worktop.ts";

interface Found {
  readonly pooled: readonly Pooled[];
  readonly intensities: readonly Intensity[];
  readonly panels: readonly Panel[];
}

/** What a reader must know before relying on pooled figures, on a cutoff, or on a limit of detection. */
export function fieldWarnings({ interval }: Worktop, found: Found): Warning[] {
  return [
    ...found.pooled.flatMap((pooled) => differing(pooled, 1 - interval.level)),
    ...found.intensities.flatMap(chosenHere),
    ...found.pooled.flatMap(atBorder),
    ...found.pooled.flatMap(unfinished),
    ...found.panels.flatMap(withoutLimit),
  ];
}

function headOf(pooled: Pooled) {
  return { ...cellOf(pooled), by: pooled.by.title };
}

/** Groups differ by more than chance, and the sum of all people hides it. */
function differing(pooled: Pooled, error: number): Warning[] {
  const { univariate, criteria, together } = pooled;
  if (univariate === null) return [];
  return MEASURES.flatMap((measure): Warning[] => {
    const { equality } = univariate[measure];
    if (equality.p === null || equality.p >= error) return [];
    const told = toldOf(pooled, measure);
    const hidden = criteria.find(
      (judged) => judged.measure === measure && judged.naive === "met" && judged.newGroup.verdict !== "met",
    );
    return [
      {
        code: "groups_differ",
        ...headOf(pooled),
        facts: {
          measure,
          pValue: equality.p,
          betweenSd: told?.between ?? null,
          together: together[measure].value,
          predictedLower: told?.prediction.lower ?? null,
          predictedUpper: told?.prediction.upper ?? null,
          criterion:
            hidden === undefined
              ? null
              : { id: hidden.criterion, naive: hidden.naive, chance: hidden.newGroup.chance },
        },
      },
    ];
  });
}

function chosenHere(intensity: Intensity): Warning[] {
  const { chosen, unit } = intensity;
  if (chosen === null || chosen.values.cutoff.value === null) return [];
  const { cutoff, sensitivity, specificity, corrected } = chosen.values;
  return [
    {
      code: "cutoff_chosen_here",
      ...cellOf(intensity),
      facts: {
        unit,
        cutoff: cutoff.value,
        sensitivity: sensitivity.value,
        specificity: specificity.value,
        correctedSensitivity: corrected.sensitivity,
        correctedSpecificity: corrected.specificity,
      },
    },
  ];
}

/** A spread that ended at 0, or a correlation at -1 or 1: the groups can't tell it. */
function atBorder(pooled: Pooled): Warning[] {
  if (pooled.bivariate === null) return [];
  const { sensitivity, specificity, correlation } = pooled.bivariate.betweenStudies;
  const at = [
    ...(sensitivity.value === 0 ? (["sensitivity"] as const) : []),
    ...(specificity.value === 0 ? (["specificity"] as const) : []),
    ...(correlation.value !== null && Math.abs(correlation.value) === 1 ? (["correlation"] as const) : []),
  ];
  if (at.length === 0) return [];
  return [
    { code: "pooling_boundary", ...headOf(pooled), facts: { groups: pooled.bivariate.studies ?? 0, at } },
  ];
}

function unfinished(pooled: Pooled): Warning[] {
  const { bivariate } = pooled;
  if (bivariate === null || bivariate.fit.converged || bivariate.fit.logLikelihood === null) return [];
  return [{ code: "pooling_not_converged", ...headOf(pooled), facts: { groups: bivariate.studies ?? 0 } }];
}

/** No concentration, or none with an upper limit, can be told for the chance asked. */
function withoutLimit({ id, chance, values, notes }: Panel): Warning[] {
  const asked = values?.probit.concentrations.find(({ probability }) => probability === chance);
  if (asked !== undefined && asked.concentration.value !== null && asked.concentration.upper !== null)
    return [];
  const at = ["values", "values.probit", "values.probit.concentrations"];
  const reason =
    notes.find(({ path }) => at.includes(path) || path.startsWith("values.probit.concentrations."))?.code ??
    "not_estimable";
  return [{ code: "no_detection_limit", subject: id, facts: { reason } }];
}
