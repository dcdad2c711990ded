import { count, statedPercent, THIN } from "../../formats.ts";
import { counted, listed, numberWord, people, sentence } from "./plural.ts";

/** What one group of the stratum is called, one and several. */
export interface Noun {
  readonly one: string;
  readonly many: string;
}

/** A measure with its middle and where another group may lie; limits without a sign, `null`: none. */
export interface MiddleFacts {
  readonly name: string;
  readonly value: string;
  readonly span: string | null;
  readonly elsewhere: string | null;
}

export interface DifferFacts {
  readonly name: string;
  readonly p: string;
  readonly differs: boolean;
}

const withSpan = ({ value, span }: Pick<MiddleFacts, "value" | "span">) =>
  span === null ? value : `${value} (${span})`;

export const sites = {
  nouns: { site: { one: "site", many: "sites" }, other: { one: "group", many: "groups" } },
  lead: ({ one, many }: Noun) =>
    `The answer adds up all people. Here the ${many} are a sample of such ${many}: how far do they differ, and what may another ${one} see?`,
  heading: (cell: string) => sentence(cell),
  middle: (groups: number, noun: Noun, parts: readonly MiddleFacts[]) =>
    `In the middle of the ${numberWord(groups)} ${groups === 1 ? noun.one : noun.many} ${listed(parts.map((part) => `${part.name} is ${withSpan(part)}`))}.`,
  elsewhere(noun: Noun, parts: readonly MiddleFacts[]): string {
    const known = parts.flatMap(({ name, elsewhere }) =>
      elsewhere === null ? [] : [`${name} anywhere from ${elsewhere}${THIN}%`],
    );
    return known.length === 0
      ? `What another ${noun.one} may see can't be told.`
      : `Another ${noun.one} of the same kind may see a true ${listed(known)}.`;
  },
  span: (from: string, to: string) => `${from} to ${to}`,
  differ(noun: Noun, facts: readonly DifferFacts[]): string {
    const part = (differs: boolean) =>
      listed(facts.filter((one) => one.differs === differs).map(({ name, p }) => `${name} (p${p})`));
    const [beyond, within] = [part(true), part(false)];
    const known = [
      ...(beyond === "" ? [] : [`differ more than chance explains in ${beyond}`]),
      ...(within === "" ? [] : [`differ no more than chance explains in ${within}`]),
    ];
    if (known.length === 0) return "";
    const proof = within === "" ? "" : ` That does not show that ${noun.many} are alike: few tell little.`;
    return `${sentence(noun.many)} ${listed(known)}.${proof}`;
  },
  none: (noun: Noun) => `No middle of the ${noun.many} can be given.`,
  verdictsCaption: (cell: string) => `Criteria over the groups: ${cell}`,
  verdictColumns: (noun: Noun) => ({
    criterion: "Criterion",
    naive: "In the answer",
    summary: `Middle of the ${noun.many}`,
    elsewhere: `Another ${noun.one}`,
    chance: "Chance to reach it",
  }),
  verdictsHow: (noun: Noun) =>
    `Another ${noun.one}: where its true value may lie, held against the figure as an interval would be.`,
  forestCaption: (cell: string, noun: Noun) => `Every ${noun.one} and their middle: ${cell}`,
  middleOf: (noun: Noun) => `Middle of the ${noun.many}`,
  middleOfLevel: (level: string) => `Middle, ${level}`,
  noLevel: "kind not said",
  forestHow: (noun: Noun, asked: boolean) =>
    `Dotted rule: the middle. Shaded row, thick bar: its interval; thin bar: where the true value of another ${noun.one} may lie.${asked ? " Upright tick: what is asked." : ""}`,
  inWords: (middle: string, elsewhere: string | null, noun: Noun) =>
    elsewhere === null ? `middle ${middle}` : `middle ${middle}, another ${noun.one} ${elsewhere}${THIN}%`,
  percentHead: (name: string) => `${sentence(name)}, %`,
  leftOut: (parts: readonly { readonly reason: string; readonly people: number }[]) =>
    `Not in any of them: ${listed(parts.map(({ reason, people: number }) => `${people(number)} (${reason})`))}.`,
  levels: (facts: { readonly covariate: string; readonly p: string | null }) =>
    facts.p === null
      ? `By ${facts.covariate}, the kinds can't be compared.`
      : `By ${facts.covariate}, both measures the same in all kinds: p${facts.p}. That compares places, not people.`,

  spreadTitle: (noun: Noun) => `How far the ${noun.many} lie apart`,
  spreadCaption: (cell: string) => `Between-group spread: ${cell}`,
  spreadColumns: (noun: Noun) => ({
    measure: "Measure",
    together: "All people together, %",
    middle: `Middle of the ${noun.many}, %`,
    elsewhere: `Another ${noun.one}, %`,
    spread: "Standard deviation, logits",
    model: "Model",
  }),
  models: { bivariate: "both measures together", univariate: "this measure by itself" },
  spreadHow: (correlation: string | null) =>
    `Standard deviation between places on the logit scale: 0 is alike; 1 makes 77 or 96${THIN}% of 90${THIN}%.${correlation === null ? "" : ` The two measures correlate by ${correlation}.`} The intervals of all people together take no account of differences between places.`,
  correlation: (value: string, span: string | null) => (span === null ? value : `${value} (${span})`),

  plotTitle: "Both measures at once: the summary plot",
  plotCaption: (cell: string) => `Sensitivity against specificity, by group: ${cell}`,
  plotHow:
    "Drawn in: the likeliest true value of that place, the others considered (empirical Bayes); its limits take the middle and the spread as known.",
  plotColumns: {
    group: "Place",
    people: "People",
    drawnIn: (name: string) => `${sentence(name)}, drawn in, %`,
  },

  withoutTitle: (noun: Noun) => `Without each ${noun.one}`,
  withoutLead: (farthest: string | null) =>
    farthest === null ? "" : `The middle moves farthest without ${farthest}.`,
  withoutCaption: (cell: string) => `The middle without each group: ${cell}`,
  withoutColumns: { group: "Without", moves: "Moves by", verdict: "Verdict" },
  withoutNobody: "none: all of them",
  withoutChanges: "changes",
  withoutHow:
    "By both measures together. Moves by: half the squared distance of the middle in units of its own uncertainty. Another verdict is a reason to look at that place, not to leave it out.",
  notesTitle: "Notes of the models",

  warnings: {
    label: "Sites",
    groupLabel: "Groups",
    modelLabel: "Model",
    differ(facts: {
      readonly noun: Noun;
      readonly parts: readonly {
        readonly name: string;
        readonly together: string;
        readonly elsewhere: string | null;
        readonly hides: boolean;
        readonly chance: string | null;
      }[];
    }): string {
      const { noun, parts } = facts;
      const told = parts.map(({ name, together, elsewhere, hides, chance }) => {
        const place = elsewhere === null ? "" : `; another ${noun.one} may see from ${elsewhere}${THIN}%`;
        const asked =
          !hides || chance === null ? "" : `, and reaches what is asked with a chance of ${chance}`;
        return `${name} is ${together} for all people together${place}${asked}`;
      });
      return `${sentence(noun.many)} differ by more than chance, and the sum hides it: ${told.join("; ")}.`;
    },
    boundary: (names: readonly string[], groups: number, noun: Noun) =>
      `${sentence(numberWord(groups))} ${noun.many} are too few to say how far they differ (${names.join("; ")}): the pooling ended on its border.`,
    notConverged: (names: readonly string[]) =>
      `The pooling of ${listed(names)} did not settle: do not use its figures.`,
  },
  chart: ({ one, many }: Noun) => ({
    study: `a ${one}`,
    summary: `middle of the ${many}`,
    prediction: (level: string) => `${level} % prediction region: another ${one}`,
    plotTitle: `Sensitivity against specificity of the ${many}, with their middle`,
    plotDescription: (number: number) =>
      `Each of ${number} ${many} is a point by its specificity (falling to the right) and its sensitivity, the larger the more people it has.`,
    summaryAt: (sensitivity: string, specificity: string) =>
      `The middle is at sensitivity ${sensitivity} and specificity ${specificity}.`,
  }),
  counted: (groups: number, noun: Noun) => counted(groups, noun.one, noun.many),
  people: (number: number) => count(number),
  level: (level: number) => `${statedPercent(level)}${THIN}%`,
};
