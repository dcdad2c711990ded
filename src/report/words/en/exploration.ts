import { statedPercent, THIN } from "../../formats.ts";

/** Words of the mark on a report that is not of the study's stated plan. */
export const exploration = {
  kind: "Exploration",
  heading: "An exploration, not the stated plan",
  lead: "Everything below is computed with choices that differ from those of the study file. It shows what would follow; it is not the study's result.",
  running: (running: string) => `EXPLORATION, NOT THE STATED PLAN · ${running}`,
  wholeStudy:
    "Numbers of devices, readings and lots, data queries and threats to validity are those of the whole study.",
  change: (what: string, planned: string, explored: string) => `${what}: planned ${planned} → ${explored}`,
  threshold: (measure: string, analyte: string, specimen: string) => `${measure}, ${analyte}, ${specimen}`,
  prevalence: (analyte: string, programme: string | null) =>
    programme === null ? `Prevalence of ${analyte} looked at` : `Prevalence of ${analyte}, ${programme}`,
  intervalMethod: "Interval",
  level: "Level",
  invalid: "Invalid results",
  outsideWindow: "Readings outside the window",
  repeat: "Repeated devices",
  subgroups: (title: string) => `Subgroups by ${title}`,
  shown: "shown",
  hidden: "not shown",
  specimen: "Specimen",
  site: "Site",
  selection: "How people came in",
  everybody: "everybody",
  everySpecimen: "every specimen type",
  only: (group: string) => `only ${group}`,
  none: "none",
  percent: (share: number) => `${statedPercent(share)}${THIN}%`,
  repeats: { first: "the first counts", last: "the last counts", any: "any valid one counts" },
};
