import { count } from "../../formats.ts";
import { inline, listed, numberWord, sentence } from "./plural.ts";

export const clusters = {
  heading: (cluster: string) => `Allowing for likeness within one ${inline(cluster)}`,
  lead: (cluster: string, clusters: number) =>
    `Results from one ${inline(cluster)} may be more alike than results of strangers. The plain interval takes all of them as independent; those below it do not. There are ${numberWord(clusters)} such clusters.`,
  effect: (measure: string, effect: string, total: number, effective: string) =>
    `${sentence(measure)}: design effect ${effect}. In precision, ${count(total)} people are worth about ${effective} independent ones.`,
  noEffect: (measures: readonly string[], effects: readonly string[]) =>
    `${sentence(listed(measures))}: design ${effects.length === 1 ? "effect" : "effects"} ${listed(effects)}, not above 1. The clusters differ no more than chance would have them differ; the plain interval may stand.`,
  noDesignEffect: (measure: string) =>
    `${sentence(measure)}: a design effect can't be estimated from these clusters.`,
  caption: (cell: string) => `Plain intervals and intervals that allow for clusters, ${cell}`,
  columns: { interval: "Interval", estimate: "%" },
  rows: {
    plain: (method: string) => `Plain, ${method}`,
    effective: "At the effective number of people",
    ratioEstimator: "Ratio estimator",
    bootstrap: "Bootstrap of clusters",
  },
  group: (measure: string, intracluster: string | null) =>
    intracluster === null ? measure : `${measure} (intracluster correlation ${intracluster})`,
};
