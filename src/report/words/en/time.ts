import { count } from "../../formats.ts";
import { counted, people, sentence } from "./plural.ts";

export const time = {
  lead: (inside: number, all: number, window: string) =>
    `${count(inside)} of ${people(all)} had their result read in the window of ${window} minutes.`,
  windowLead: "Results by the time at which they were read:",
  treatmentsLead: "The same people, with readings outside the window treated in three ways:",
  caption: (cell: string) => `Results by time of reading, ${cell}`,
  columns: { window: "Read", people: "People" },
  treatmentsCaption: (cell: string) => `Results under each treatment of readings outside the window, ${cell}`,
  treatment: "Readings outside the window",
  dataCaption: "People by minutes to the reading",
  dataColumns: { minutes: "Minutes", people: "People" },
  rounded: (share: string) =>
    `${share} of the times end in 0 or 5; about a fifth is expected when minutes are not rounded.`,
  confounded:
    "Whoever reads chooses the time, so early and late readings may differ in other ways too: the comparison is a hint, not a trial.",
  differencesLead: (cell: string) =>
    `${sentence(cell)}: read outside the window less read inside it. These are different people.`,
  differencesCaption: (cell: string) => `Differences outside and inside the window, ${cell}`,
  differencesColumns: { measure: "Measure", difference: "Difference, points", pValue: "p" },
  outside: { early: "before the window", late: "after the window", outside: "outside, early or late" },
  differencesHowToRead: "Thin rule: no difference. Left of it: worse outside the window.",
  minutesLead: (cell: string) =>
    `${sentence(cell)} by the minute at which results were read, in bands that hold enough people:`,
  minutesCaption: (cell: string) => `Results by minutes to the reading, ${cell}`,
  rereadHeading: "The same devices read again",
  rereadLead:
    "The same reader read the same device a second time, usually long after the window. Here time is compared and nothing else.",
  rereadPlain: (flipped: number, total: number, became: number, lost: number) =>
    flipped === 0
      ? `None of ${counted(total, "device", "devices")} changed its result.`
      : `${count(flipped)} of ${counted(total, "device", "devices")} changed ${flipped === 1 ? "its" : "their"} result: ${count(became)} became reactive, ${count(lost)} became non-reactive.`,
  rereadCaption: (cell: string) => `First and second reading, ${cell}`,
  rereadHead: "First reading \\ second",
  rereadFigures: (flipped: string, p: string) => `Changed: ${flipped}; McNemar's test, p ${p}.`,
  rereadDifferences: (cell: string) => `What the second reading does to the measures, ${cell}`,
  rereadHowToRead: "Second reading less first, people with a reference result. Thin rule: no difference.",
};
