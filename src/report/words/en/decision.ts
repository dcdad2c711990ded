import { statedPercent, THIN } from "../../formats.ts";
import { counted, numberWord, sentence } from "./plural.ts";

type Control = "each" | "all_must_pass" | "holm" | "fixed_sequence";
type VerdictCode = "met" | "not_met" | "undecided" | "not_estimable";
type Piece = string | { readonly verdict: VerdictCode };

export interface TogetherFacts {
  readonly control: Control;
  readonly primary: number;
  readonly overall: VerdictCode;
  /** Probability that all are truly reached, as text; `null` where it can't be given. */
  readonly joint: string | null;
  readonly bounds: string | null;
  /** Criteria whose verdict is another one when judged together, with that verdict. */
  readonly changed: readonly { readonly name: string; readonly verdict: VerdictCode }[];
}

/** How several criteria become one answer, with the overall verdict where that is asked for. */
function rule({ control, overall, primary }: TogetherFacts): Piece[] {
  const all = primary === 2 ? "both primary criteria" : `all ${numberWord(primary)} primary criteria`;
  if (control === "each") return ["Each criterion is judged by itself."];
  if (control === "all_must_pass") {
    return [`The kit needs ${all}: taken together they are `, { verdict: overall }, "."];
  }
  if (control === "holm") {
    return [
      "Any one primary criterion is enough for a claim, so the error allowed is shared among them (Holm). That one or more is reached: ",
      { verdict: overall },
      ".",
    ];
  }
  return [
    "The primary criteria are judged in a fixed order, until the first that is not shown. That one or more is reached: ",
    { verdict: overall },
    ".",
  ];
}

export const decision = {
  together(facts: TogetherFacts): Piece[] {
    const changed = facts.changed.flatMap(({ name, verdict }): Piece[] => [
      ` Judged together, ${name} is `,
      { verdict },
      ".",
    ]);
    const joint =
      facts.joint === null
        ? []
        : [
            ` Probability that ${facts.primary === 2 ? "both are" : "all are"} truly reached: ${facts.joint}${
              facts.bounds === null ? "" : ` (${facts.bounds}, however they hang together)`
            }.`,
          ];
    if (facts.primary < 2) return rule(facts);
    return [...rule(facts), ...changed, ...joint];
  },
  bounds: (lowest: string, highest: string) => `${lowest} to ${highest}`,
  lead: {
    each: "No error is shared: each criterion stands for itself. Whoever picks the best of several afterwards should count how many there were.",
    all_must_pass:
      "None of them gets an easier test for there being several, so each is judged at the full level and no p-value is adjusted.",
    holm: "With several chances of a claim a false one is likelier. Holm's procedure multiplies the smallest p-value by the number of criteria, the next by one less, and so on.",
    fixed_sequence:
      "The order was fixed beforehand. Each criterion is judged at the full level as long as all before it are shown; after the first that is not, none can be.",
  },
  caption: "The primary criteria, alone and together",
  columns: {
    criterion: "Criterion",
    pValue: "p alone",
    adjusted: "p together",
    alone: "Alone",
    together: "Together",
  },
  howToRead:
    "p: how likely counts as good as these would be for a kit that lies exactly at the criterion; one-sided and exact, so that it may differ a little from the interval beside a criterion.",
  jointText: (joint: string, bounds: string | null) =>
    `Probability that all primary criteria are truly reached, if what is uncertain about one says nothing of another: ${joint}.${bounds === null ? "" : ` Whatever the dependence, between ${bounds}.`}`,
  assuranceHeading: "What more people would settle",
  assuranceLead:
    "For each undecided criterion: the chance of each verdict after so many more people. If the estimate is the truth, and, more soberly, if the truth is as uncertain as these data leave it.",
  assuranceCaption: "Chances of a decision with more people",
  assuranceColumns: {
    holds: "If the estimate holds",
    predicted: "By what is known so far",
    met: "met",
    notMet: "not met",
    undecided: "undecided",
    assumption: "Reckoned",
  },
  needed: (chance: number, further: number | null, criterion: string) =>
    further === null
      ? `${sentence(criterion)}: no number of further people that was tried gives a ${statedPercent(chance)}${THIN}% chance of meeting it.`
      : `${sentence(criterion)}: a ${statedPercent(chance)}${THIN}% chance of meeting it needs about ${counted(further, "more person", "more people")}.`,
  group: (criterion: string, further: string) => `${criterion}, ${further} more people`,
};
