import type { Note } from "../../core/note.ts";
import { homogeneity } from "../../methods/strata/homogeneity.ts";
import { trend } from "../../methods/strata/trend.ts";
import type { PairedSet } from "../../records/model.ts";
import type { Study } from "../../records/study.ts";
import { tally } from "../../records/tallies.ts";
import { cellOf } from "../cells.ts";
import type { Subgroup } from "../document.ts";
import { groupNames, NOT_RECORDED, pairsByGroup } from "../stratum-groups.ts";
import type { Worktop } from "../worktop.ts";
import { firstAttemptInvalid } from "./invalid.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

type Stratum = Study["strata"][number];
type Group = Subgroup["groups"][number];
type Measure = "sensitivity" | "specificity";

/** The two measures and the invalid rate in every group of each stratum: of those of the study file unless told. */
export function subgroupsSection(
  worktop: Worktop,
  set: PairedSet,
  strata: readonly Stratum[] = worktop.study.strata,
): Subgroup[] {
  return strata.flatMap((stratum) => {
    const byName = pairsByGroup(set, stratum);
    const names = groupNames([...byName.keys()], stratum);
    if (names.length === 0) return [];
    const groups = names.map((name) => groupOf(worktop, { ...set, pairs: byName.get(name) ?? [] }, name));
    return [
      {
        ...cellOf(set),
        stratum: stratum.id,
        title: stratum.title,
        planned: stratum.planned,
        groups,
        homogeneity: {
          sensitivity: comparison(worktop, stratum, groups, "sensitivity"),
          specificity: comparison(worktop, stratum, groups, "specificity"),
        },
      },
    ];
  });
}

function groupOf(worktop: Worktop, members: PairedSet, name: string): Group {
  return {
    group: name,
    ...sensitivitySpecificity(worktop, tally(members, worktop.treatment).counts),
    invalid: firstAttemptInvalid(worktop, members),
  };
}

/** Whether the groups differ by more than chance; with ordered groups also whether there is a trend. */
function comparison(
  worktop: Worktop,
  stratum: Stratum,
  groups: readonly Group[],
  measure: Measure,
): Subgroup["homogeneity"][Measure] {
  const strata = groups
    .filter(({ group }) => group !== NOT_RECORDED)
    .map((group) => ({ label: group.group, count: group[measure].count, total: group[measure].total }));
  if (strata.filter(({ total }) => total > 0).length < 2) return null;
  const { values, notes } = worktop.compute(
    homogeneity,
    { strata },
    { ...worktop.interval, seed: worktop.study.seed },
  );
  const trended = trendOf(worktop, stratum, strata);
  const { chiSquare, degreesOfFreedom, pValue, exactPValue } = values;
  return {
    chiSquare,
    degreesOfFreedom,
    pValue,
    exactPValue,
    trendPValue: trended.pValue,
    notes: [...notes.filter(({ path }) => !UNUSED.test(path)), ...trended.notes],
  };
}

/** Values of the method that this document does not carry. */
const UNUSED = /^(strata|overall|monteCarloError)\b/;

/** Exact test for trend over the groups that the study file puts in order, in equal steps. */
function trendOf(
  worktop: Worktop,
  stratum: Stratum,
  strata: readonly { readonly label: string; readonly count: number; readonly total: number }[],
): { readonly pValue: number | null; readonly notes: readonly Note[] } {
  const scored = (stratum.ordered ?? []).flatMap((name, index) => {
    const found = strata.find(({ label }) => label === name);
    return found === undefined ? [] : [{ ...found, score: index + 1 }];
  });
  if (scored.filter(({ total }) => total > 0).length < 2) return { pValue: null, notes: [] };
  const { values, notes } = worktop.compute(trend, { strata: scored }, { seed: worktop.study.seed });
  return {
    pValue: values.exactPValue,
    notes: notes
      .filter(({ path }) => path === "exactPValue")
      .map((entry) => ({ ...entry, path: "trendPValue" })),
  };
}
