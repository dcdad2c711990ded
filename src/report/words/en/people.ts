export const tenThousand = {
  heading: "In 10,000 people tested",
  lead: (specimens: string | null) =>
    `At the programmes' prevalences, by the estimates${specimens === null ? "" : ` on ${specimens}`}. The rarer the condition, the more reactive results are false.`,
  caption: "Expected results among 10,000 people tested, by programme",
  columns: {
    programme: "Programme",
    prevalence: "Prevalence %",
    bar: "Reactive:",
    reactive: "Reactive",
    true: "True",
    false: "False",
    missed: "Missed",
    ppv: "PPV %",
    keyTrue: "true",
    keyFalse: "false",
  },
  howToRead: (several: boolean) =>
    `PPV, positive predictive value: how many of 100 reactive results are true. Expected numbers, if all results are valid.${several ? " Bars: a scale for each analyte." : ""}`,
};
