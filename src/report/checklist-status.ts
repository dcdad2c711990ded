import type { Evaluation } from "../evaluation/document.ts";
import type { SectionId } from "./contents.ts";
import type { ChecklistItem, ChecklistRemark } from "./words/en/checklist.ts";

/** How far the document answers an item of the checklist, and where. */
export interface ItemStatus {
  readonly status: "here" | "partly" | "authors";
  readonly section: SectionId | "answer" | null;
  readonly remark: ChecklistRemark;
}

const authors = (remark: ChecklistRemark = "nothing"): ItemStatus => ({
  status: "authors",
  section: null,
  remark,
});
const partly = (section: ItemStatus["section"], remark: ChecklistRemark): ItemStatus => ({
  status: "partly",
  section,
  remark,
});
const here = (section: ItemStatus["section"], remark: ChecklistRemark = "nothing"): ItemStatus => ({
  status: "here",
  section,
  remark,
});

/** Each item held against what this evaluation has; nothing counts as answered that is not on the page. */
export function checklistStatus(evaluation: Evaluation): Record<ChecklistItem, ItemStatus> {
  return { ...planning(evaluation), ...tests(evaluation), ...results(evaluation) };
}

function planning({ study, flows, assurance, comparisons }: Evaluation) {
  const aims = study.criteria.length > 0 || comparisons.length > 0;
  const hypotheses = comparisons.some(({ measures }) => measures.some(({ margin }) => margin !== null));
  const dated = study.dates !== undefined && study.sites.length > 0;
  return {
    "1": partly("answer", "title"),
    "2": partly("answer", "summary"),
    "3": partly("study", "role"),
    "4": aims
      ? partly(study.criteria.length > 0 ? "study" : "comparisons", hypotheses ? "margins" : "criteria")
      : authors(),
    "5": partly("study", "planned"),
    "6": partly(flows.length > 0 ? "flow" : "participants", "eligibility"),
    "7": here("participants"),
    "8": dated ? here("study") : partly("study", "noSites"),
    "9": here("participants"),
    "18": assurance.length > 0 ? partly("decision", "assurance") : partly("answer", "sampleSize"),
    "28": study.protocol?.registration === undefined ? authors("registration") : here("study"),
    "29": study.protocol === undefined ? authors() : partly("study", "protocolVersion"),
    "30": study.funding === undefined ? authors("funding") : here("study"),
  };
}

/** Whether the cutoff of an instrument was looked for in these people. */
const chosenHere = ({ intensities }: Evaluation) =>
  intensities.some(({ chosen, stated }) => chosen !== null && stated === null);

/** Groups named in the study file; else what readers and times of reading show. */
function variationOf({ study, agreement, readingTime, pooled }: Evaluation): ItemStatus {
  if (study.strata.length > 0) {
    if (pooled.length > 0) return here("subgroups", "pooled");
    return here("subgroups", agreement.length > 0 ? "readers" : "nothing");
  }
  if (agreement.length > 0) return partly("readers", "noGroups");
  return readingTime.length > 0 ? partly("time", "noGroups") : authors("noGroups");
}

function tests(evaluation: Evaluation) {
  const { study } = evaluation;
  const algorithm = study.analytes.every((analyte) => analyte.reference.algorithm !== undefined);
  const flagged = study.records.shape === "lines";
  const blinding = flagged ? partly("study", "blindingFlags") : authors("blindingUnknown");
  return {
    "10a": here("study"),
    "10b": partly("study", algorithm ? "assays" : "referenceRecorded"),
    "11": evaluation.referenceErrors.length > 0 ? partly("reference", "referenceErrors") : authors(),
    "12a": chosenHere(evaluation) ? here("intensity", "cutoffChosen") : here("study", "faintRule"),
    "12b": partly("study", algorithm ? "assays" : "referenceRecorded"),
    "13a": blinding,
    "13b": blinding,
    "14": here("methods"),
    "15": here("invalid"),
    "16": evaluation.verification.length > 0 ? here("reference", "unverified") : here("flow"),
    "17": variationOf(evaluation),
    "22": flagged ? partly("participants", "interval") : authors(),
    "25": authors(),
    "27": authors(),
  };
}

function results({ flows, accuracy }: Evaluation) {
  return {
    "19": flows.length > 0 ? here("flow") : authors("noReasons"),
    "20": partly("participants", "baseline"),
    "21a": authors(),
    "21b": authors(),
    "23": accuracy.length > 0 ? here("accuracy") : authors(),
    "24": here("answer"),
    "26": partly("answer", "alarms"),
  };
}
