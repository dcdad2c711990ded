import { count, expectedPeople, percentWithRange, THIN } from "../../../report/formats.ts";

/** Words of the controls beside the report that change choices of the plan to see what follows. */
export const explore = {
  heading: "Change and see",
  asPlanned: "The report keeps to the stated plan.",
  changed: (changes: number) =>
    `${count(changes)} ${changes === 1 ? "choice differs" : "choices differ"} from the stated plan. The study file stays as it is.`,
  back: "Back to the plan",
  backOne: (what: string) => `back to the plan: ${what}`,
  backWord: "back",
  step: (what: string) => `look at another choice: ${what}`,
  stepBack: "go back to the plan",
  differs: "What differs",
  planned: (value: string) => `planned ${value}`,
  groupChanged: (changes: number) => `${count(changes)} changed`,
  inPercent: (what: string) => `${what}, in %`,
  percentValue: (value: string) => `${value}${THIN}%`,
  prevalence: {
    title: "Prevalence",
    where: "Where, and of what",
    one: (programme: string | null, analyte: string) =>
      programme === null ? analyte : `${programme}, ${analyte}`,
    label: "Prevalence",
    none: "Against a comparison test no result can be said to be right: prevalence changes nothing here.",
    live: (analyte: string) => `At this prevalence of ${analyte}`,
    ppv: "A reactive result is right",
    npv: "A non-reactive result is right",
    estimate: (estimate: {
      readonly value: number | null;
      readonly lower: number | null;
      readonly upper: number | null;
    }) => percentWithRange(estimate) ?? "can't be said",
    people: "Of 10,000 people tested",
    reactive: (reactive: number) => `${expectedPeople(reactive)} reactive`,
    split: (truly: number, falsely: number) =>
      `${expectedPeople(truly)} of them with the condition, ${expectedPeople(falsely)} without`,
    missed: (missed: number) => `${expectedPeople(missed)} with the condition missed`,
    nobody: "How many people can't be said: there are no such counts.",
    from: (specimen: string) => `From the counts of the report, ${specimen}.`,
  },
  criteria: {
    title: "Criteria",
    none: "The study states no criterion.",
    verdict: "verdict",
  },
  interval: { title: "Interval", method: "Method", level: "Level" },
  treatment: {
    title: "Invalid and untimely results",
    invalid: "Invalid results are",
    outside_window: "Readings outside the window are",
    repeat: "Of repeated devices",
  },
  strata: { title: "Subgroups shown", none: "The study names no strata." },
  people: {
    title: "Some people only",
    only: "Look at",
    everybody: "everybody",
    none: "The records tell no groups of people apart.",
  },
  saveMark:
    "What is saved now is an exploration and says so on its first page. For the report of the stated plan go back to the plan first.",
};
