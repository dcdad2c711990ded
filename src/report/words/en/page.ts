import { statedPercent, THIN } from "../../formats.ts";
import { counted, people } from "./plural.ts";

const MONTHS = [
  "January",
  "February",
  "March",
  "April",
  "May",
  "June",
  "July",
  "August",
  "September",
  "October",
  "November",
  "December",
];

export const page = {
  kind: "Field evaluation report",
  skip: "Skip to the answer",
  contents: "Contents",
  evidence: "The evidence",
  running: (study: string) => `Fourfold evaluation report · ${study}`,
  footer: "Not a medical device; not for the care of any person.",
  hashes: (data: string, plan: string, software: string, seed: number) =>
    `Data ${data}, plan ${plan}, software ${software}, seed ${seed}.`,
  kit: (title: string, lots: number, names: string) =>
    lots === 0 ? title : `${title}, ${lots === 1 ? "lot" : "lots"} ${names}`,
  enrolled: (enrolled: number) => `${people(enrolled)} enrolled`,
  devices: (devices: number) => counted(devices, "device", "devices"),
  protocol: (version: string) => `protocol ${version}`,
  date(iso: string): string {
    const found = /^(\d{4})-(\d{2})-(\d{2})/.exec(iso);
    const month = MONTHS[Number(found?.[2]) - 1];
    return found === null || month === undefined ? iso : `${Number(found[3])}\u00a0${month} ${found[1]}`;
  },
  dates: (first: string, last: string) => `${first} to ${last}`,
  notEstimable: "not estimable",
  notGiven: "not given",
  openBelow: "no lower limit",
  openAbove: "no upper limit",
  primaryAnalysis: "primary analysis",
  /** Above what is folded: the section's part for another specimen or reader. */
  other: (cell: string) => `The same for ${cell}`,
  andAlike: (message: string, others: number) =>
    `${message} (the first of ${others + 1} such notes; all are in the evaluation document)`,
  notes: "Notes",
  data: "The figure's data as a table",
  specification: "Download the figure's specification (Vega-Lite)",
  interval: (level: number) => `${statedPercent(level)}${THIN}% interval`,
  region: (caption: string) => `Table: ${caption}`,
  chart: (caption: string) => `Chart: ${caption}`,
  total: "Total",
  yes: "yes",
  no: "no",
  notStated: "not stated",
  section: (number: string) => `Section ${number}.`,
  seeSection: (number: string, title: string) => `section ${number}, ${title}`,
};

export const sections = {
  study: "Study and kit",
  flow: "Participant flow",
  participants: "Participants",
  queries: "Data queries",
  accuracy: "Accuracy",
  agreement: "Agreement",
  mixed: "Accuracy and agreement",
  decision: "The criteria together",
  reference: "How much does the reference matter?",
  joint: "Both analytes together",
  invalid: "Invalid results",
  comparisons: "Comparisons",
  subgroups: "Subgroups",
  sites: "Across the sites",
  groups: "Across the groups",
  predictive: "Predictive values",
  prevalence: "True prevalence",
  readers: "Agreement between readers",
  time: "Reading time",
  typed: "Typed results and lines",
  intensity: "Instrument readings",
  detection: "Detection limit",
  methods: "Methods",
  checklist: "Reporting checklist",
  cautions: "Cautions",
  provenance: "Provenance",
};
