/** True prevalence of a programme from its own reactive results. */
export const prevalence = {
  lead: "A programme counts reactive results; some are false, and some infections are missed. Given this study's sensitivity and specificity, this is how common the condition truly is among the people it tested.",
  caption: (cell: string) => `Apparent and true prevalence, ${cell}`,
  columns: {
    population: "Population",
    counts: "Reactive / tested",
    apparent: "Reactive %",
    estimated: "True prevalence %",
    known: "If the kit's figures were exact",
  },
  howToRead:
    "Filled dot: true prevalence, with the uncertainty of the kit's own figures in its interval (Rogan and Gladen; Lang and Reiczigel). The interval without that uncertainty is narrower than the truth allows. It holds if the programme's people, staff and lots are like the study's.",
};
