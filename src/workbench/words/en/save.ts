import { count } from "../../../report/formats.ts";

/** Words of the part in which things are taken away. */
export const save = {
  title: "Save",
  over: "To take away",
  heading: "Save",
  sub: "What you save goes to your own disk and nowhere else. The files are byte for byte what the command line writes for the same study.",
  nothing: "There is nothing to save yet.",
  what: "What",
  form: "As",
  report: "The report",
  reportText:
    "One HTML file without scripts, readable anywhere; the evaluation is embedded and can be verified.",
  reportButton: "Save the report",
  evaluation: "The evaluation",
  evaluationText: "Every number in full precision, one JSON document with a published schema.",
  evaluationButton: "Save the evaluation",
  tables: "The tables",
  tablesText: "Tidy tables in full precision, CSV, in one ZIP archive.",
  tablesButton: "Save the tables",
  charts: "The charts",
  chartsText: "Each as SVG, as PNG, and as a Vega-Lite specification to restyle.",
  chartsButton: "Save all charts",
  chartCaption: "Charts of the report",
  chart: "Chart",
  forms: { svg: "SVG", png: "PNG", "vl.json": "Vega-Lite" },
  saveChart: (chart: string, form: string) => `Save ${chart} as ${form}`,
  study: "The study folder",
  studyText: "The files as they are now, in one ZIP archive that this page opens again.",
  studyButton: "Save the study",
  into: "All of it, into a folder",
  intoText:
    "The study's files, and a folder fourfold-report beside them. Files of the same names are replaced.",
  intoButton: "Choose a folder and write",
  saved: (name: string) => `Saved: ${name}`,
  savedInto: (files: number) => `Saved: ${count(files)} files`,
};
