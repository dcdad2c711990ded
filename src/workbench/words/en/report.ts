/** Words around the live report. */
export const report = {
  title: "Report",
  none: "No report yet",
  noneText: "Open a study and its report appears here.",
  toStudy: "Open a study",
  coming: "The report is being made",
  comingText: "Reading, computing and drawing take a few seconds for a study of thousands of people.",
  earlier: "This report is of what stood before the last change.",
  earlierUnreadable: "This report is of earlier files: as they are now, they can't be read.",
  toFaults: "See the faults",
};
