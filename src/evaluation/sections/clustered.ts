import type { Estimate } from "../../core/estimate.ts";
import { type Note, note } from "../../core/note.ts";
import { clustersBootstrap } from "../../methods/clusters/bootstrap.ts";
import { clustersProportion } from "../../methods/clusters/proportion.ts";
import type { Pair, PairedSet } from "../../records/model.ts";
import { tally } from "../../records/tallies.ts";
import { cellOf } from "../cells.ts";
import type { Clustered } from "../document.ts";
import { MEASURES, type MeasureName } from "../measures.ts";
import { notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import { REPLICATES } from "./replicates.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

const PERSON = "person";
const NOT_RECORDED = "not_recorded";

interface Cluster {
  readonly label: string;
  readonly count: number;
  readonly total: number;
}

/**
 * Both measures with intervals that allow for people of one cluster being alike, where the study file
 * names a cluster: a stratum, or the person where somebody counts more than once. Nothing where it names
 * none, or where every cluster is a single person.
 */
export function clusteredSection(worktop: Worktop, sets: readonly PairedSet[]): Clustered[] {
  const { cluster } = worktop.study;
  if (cluster === undefined) return [];
  const groupOf = (pair: Pair) => (cluster === PERSON ? pair.person : pair.strata[cluster]) ?? NOT_RECORDED;
  return sets.flatMap((set) => {
    const members = membersOf(set, groupOf);
    const people = set.pairs.reduce((sum, pair) => sum + pair.weight, 0);
    if (members.size === 0 || (cluster === PERSON && members.size === people)) return [];
    return MEASURES.map((measure) => oneMeasure(worktop, set, measure, members));
  });
}

function membersOf(set: PairedSet, groupOf: (pair: Pair) => string): ReadonlyMap<string, readonly Pair[]> {
  const members = new Map<string, Pair[]>();
  for (const pair of set.pairs) {
    const name = groupOf(pair);
    const group = members.get(name);
    if (group === undefined) members.set(name, [pair]);
    else group.push(pair);
  }
  return members;
}

function oneMeasure(
  worktop: Worktop,
  set: PairedSet,
  measure: MeasureName,
  members: ReadonlyMap<string, readonly Pair[]>,
): Clustered {
  const clusters = [...members]
    .map(([label, pairs]): Cluster => {
      const { counts } = tally({ ...set, pairs }, worktop.treatment);
      const { count, total } = sensitivitySpecificity(worktop, counts)[measure];
      return { label, count, total };
    })
    .sort((one, other) => (one.label < other.label ? -1 : 1));
  const { level } = worktop.interval;
  const { values, notes } = worktop.compute(clustersProportion, { clusters }, { level });
  const drawn = redrawn(worktop, set, measure, clusters);
  const { count, total } = values.proportion;
  return {
    ...cellOf(set),
    measure,
    cluster: titleOf(worktop),
    clusters: values.clusters,
    plain: worktop.proportion(count, total),
    ratioEstimator: values.reference === "t" ? values.intervals.ratioT : values.intervals.ratioNormal,
    effective: effectiveOf(worktop, values.intervals),
    bootstrap: drawn.estimate,
    designEffect: values.designEffect,
    intraclusterCorrelation: values.intraclusterCorrelation.anova,
    effectiveTotal: values.effective.total,
    notes: [...notesUnder(notes, namesOf(worktop, values.reference)), ...drawn.notes, ...unnamed(members)],
  };
}

/** Wilson where the study chose it; else exact, as the mission prefers. */
function isWilson({ interval }: Worktop): boolean {
  return interval.method === "wilson" || interval.method === "wilson_corrected";
}

function effectiveOf(
  worktop: Worktop,
  intervals: { readonly wilsonEffective: Estimate; readonly exactEffective: Estimate },
): Estimate {
  return isWilson(worktop) ? intervals.wilsonEffective : intervals.exactEffective;
}

function namesOf(worktop: Worktop, reference: "normal" | "t"): Readonly<Record<string, string>> {
  return {
    [reference === "t" ? "intervals.ratioT" : "intervals.ratioNormal"]: "ratioEstimator",
    [isWilson(worktop) ? "intervals.wilsonEffective" : "intervals.exactEffective"]: "effective",
    designEffect: "designEffect",
    "intraclusterCorrelation.anova": "intraclusterCorrelation",
    intraclusterCorrelation: "intraclusterCorrelation",
    "effective.total": "effectiveTotal",
    clusters: "clusters",
    reference: "ratioEstimator",
  };
}

/** The accelerated limits; the percentiles where there are none. */
function redrawn(worktop: Worktop, set: PairedSet, measure: MeasureName, clusters: Cluster[]) {
  const place = ["clusters", set.analyte, set.kit, set.specimen, set.reader, measure].join(" ");
  const options = { level: worktop.interval.level, replicates: REPLICATES, seed: worktop.seedOf(place) };
  const { values, notes } = worktop.compute(clustersBootstrap, { clusters }, options);
  const accelerated = values.bca.lower !== null;
  const { value, lower, upper } = accelerated ? values.bca : values.percentile;
  const told = accelerated ? notes : notes.filter(({ path }) => path !== "bca");
  const shown = notesUnder(told, { bca: "bootstrap", percentile: "bootstrap", value: "bootstrap" });
  if (!accelerated && lower !== null) {
    const message = "percentiles: the accelerated limits do not exist here";
    shown.push(note("percentile_interval", "bootstrap", message));
  }
  return { estimate: { value, lower, upper }, notes: shown };
}

function titleOf({ study }: Worktop): string {
  if (study.cluster === PERSON) return "Person";
  return study.strata.find(({ id }) => id === study.cluster)?.title ?? study.cluster ?? "";
}

function unnamed(members: ReadonlyMap<string, readonly Pair[]>): Note[] {
  const without = members.get(NOT_RECORDED);
  if (without === undefined) return [];
  const people = without.reduce((sum, pair) => sum + pair.weight, 0);
  const message = `${people} people without a recorded cluster are taken as one cluster`;
  return [note("cluster_not_recorded", "clusters", message)];
}
