import { count } from "../../formats.ts";
import { inline, numberWord, sentence } from "./plural.ts";

export const clusters = {
  heading: (cluster: string) => `Allowing for people being alike within ${inline(cluster)}`,
  lead: (cluster: string, clusters: number) =>
    `People of one ${inline(cluster)} share staff, lots and weather, so they may be more alike than strangers. The plain interval takes all people as independent; those below it do not. There are ${numberWord(clusters)} clusters.`,
  effect: (measure: string, effect: string, total: number, effective: string) =>
    `${sentence(measure)}: design effect ${effect}. In precision, ${count(total)} people are worth about ${effective} independent ones.`,
  noEffect: (measure: string, effect: string) =>
    `${sentence(measure)}: design effect ${effect}. The clusters differ no more than chance would have them differ; the plain interval may stand.`,
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
