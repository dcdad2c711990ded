import { chance, count, statedPercent, THIN } from "../../formats.ts";
import { counted } from "./plural.ts";

const signed = (share: number) => `${statedPercent(share)}${THIN}%`;

/** Sections of a plan's page about other designs: two kits, two readers, looks, what-ifs, time and cost. */
export const comparisons = {
  lead: "How many people it takes to hold two kits against each other. The exact number adds up the probability of every result; the formula beside it is a first idea.",
  asks: (first: string, firstExpected: string, second: string, secondExpected: string) =>
    `${first} is expected to be right for ${firstExpected}, ${second} for ${secondExpected}.`,
  difference: (power: string) => `The study is to show a difference with a power of ${power}.`,
  noninferior: (first: string, margin: string, power: string) =>
    `The study is to show, with a power of ${power}, that ${first} loses less than ${margin} points.`,
  paired: (needed: number, group: string) =>
    `That takes ${count(needed)} ${group}, each tested with both kits.`,
  unpaired: (first: number, second: number, needed: number, group: string) =>
    `That takes ${count(first)} ${group} for the first kit and ${count(second)} others for the second, ${count(needed)} in all.`,
  noNeed: "As it stands, that can't be planned.",
  caption: (title: string, analyte: string) => `People for ${title}, ${analyte}`,
  columns: {
    how: "Reckoned",
    people: "People",
    firstGroup: "First kit",
    secondGroup: "Second kit",
    power: "Power",
    before: "with one person fewer",
  },
  formula: "By the formula",
  first: "Exact, first reached",
  stays: "Exact, for good",
  note: "People of that kind by the reference, before clusters and losses.",
  boundsCaption: (title: string) => `How much hangs on how often just one kit is right, ${title}`,
  boundsLead: (planned: string | null, unknown: boolean) =>
    `Everything hangs on the share of people for whom just one kit is right.${
      planned === null
        ? ""
        : unknown
          ? ` It is not known; ${planned} is planned with, as if the kits erred independently.`
          : ` The plan states ${planned}.`
    } What the two expected shares allow:`,
  bounds: {
    least: "as seldom as can be",
    independent: "if the kits err independently",
    most: "as often as can be",
  },
  boundColumns: {
    at: "Just one kit is right",
    discordant: "Share of people",
    formula: "By the formula",
    exact: "Exact, for good",
  },
};

export const agreement = {
  lead: "How many devices two readers must both read so that their kappa is known closely enough. Neither reader is the truth: this is agreement, not accuracy.",
  caption: "Devices for agreement between two readers",
  columns: {
    title: "Readers",
    kappa: "Kappa expected",
    halfWidth: "Half-width",
    reactive: "Called reactive",
    possible: "Kappa possible",
    total: "Devices",
    disagreements: "Disagreements expected",
  },
  note: "Kappa possible: least and largest kappa that these shares allow. Where one result is rare a few disagreements decide it: plan for many reactive devices.",
  simulatedCaption: "The same, simulated",
  simulatedLead:
    "The number comes from a large-sample formula. Studies of that size were drawn at random to see what it is worth.",
  simulatedColumns: {
    draws: "Studies drawn",
    halfWidth: "Mean half-width",
    asPrecise: "As short as wanted",
    coverage: "Interval holds the truth",
    without: "No interval",
  },
};

export const stopping = {
  lead: "A kit that is no good should not be tried on everybody. These rules look at the results before the end. The borders are whole numbers of wrong results, and the probabilities are exact.",
  designs: { two_stage: "two stages", group_sequential: "looks on the way" },
  heading: (criterion: string, design: string) => `${criterion}: ${design}`,
  rules: {
    smallestExpected: "Fewest people on average if the kit is no good",
    minimax: "Fewest people at most",
    sequential: "The looks",
  },
  ruleTitle: (measure: string, rule: "smallestExpected" | "minimax" | "sequential") =>
    `${measure}, ${{ smallestExpected: "two stages, fewest people on average", minimax: "two stages, fewest people at most", sequential: "looks on the way" }[rule]}`,
  asks: (unacceptable: number, error: number, expected: number, power: number) =>
    `A kit that is right for ${signed(unacceptable)} should pass with a probability of at most ${signed(error)}, one that is right for ${signed(expected)} with at least ${signed(power)}.`,
  spending: {
    obrien_fleming: (failure: boolean) =>
      `Hardly any of the error is spent at early looks (of O'Brien and Fleming's type)${failure ? ", and the study also stops where the kit does badly" : ""}.`,
    pocock: (failure: boolean) =>
      `The error is spent evenly over the looks (of Pocock's type)${failure ? ", and the study also stops where the kit does badly" : ""}.`,
  },
  single: (total: number, allowed: number) =>
    `One look at the end would take ${count(total)} people with at most ${count(allowed)} wrong.`,
  look: (total: number, passes: number | null, fails: number | null, last: boolean) => {
    const few = (wrong: number) => (wrong === 0 ? "none" : `at most ${count(wrong)}`);
    const seen = counted(total, "person", "people");
    if (last)
      return `At the end, after ${seen}, the kit passes with ${few(passes ?? 0)} wrong, else it fails.`;
    const ends = [
      ...(passes === null ? [] : [`it passes with ${few(passes)} wrong`]),
      ...(fails === null ? [] : [`it fails with ${count(fails)} or more wrong`]),
    ];
    return ends.length === 0
      ? `After ${seen}: nothing stops the study.`
      : `After ${seen}: ${ends.join(", ")}; else go on.`;
  },
  looksCaption: (title: string) => `Borders, ${title}`,
  columns: { people: "People so far", passes: "Passes with at most, wrong", fails: "Fails from, wrong" },
  truthCaption: (title: string) => `What becomes of a kit, ${title}`,
  truthKinds: { expected: "as expected", unacceptable: "unacceptable", criterion: "just at the criterion" },
  truthColumns: {
    truth: "If the kit is right for",
    pass: "It passes",
    simulated: "simulated",
    stopsAtFirst: "Stops at the first look",
    people: "People on average",
    simulatedPeople: "simulated",
  },
  truthNote: (draws: number) =>
    `It passes: probability, worked out exactly. Simulated: share of ${count(draws)} studies drawn at random, with its exact 95${THIN}% interval.`,
};

export const whatIf = {
  lead: "Every number of a plan hangs on what was expected and demanded. This is what others would ask for.",
  chart: (measure: string) => `people needed by what is expected and demanded, ${measure}`,
  chartData: "The table below holds the figure's numbers.",
  expected: "Expected",
  never: "none will do",
  prevalence: (prevalence: string) => `at ${prevalence}`,
  neededCaption: (measure: string) => `People needed, ${measure}`,
  neededLead: (group: string) =>
    `${group.charAt(0).toUpperCase()}${group.slice(1)} needed, by what is expected of the kit (down) and what is demanded (across).`,
  neededNote:
    "The darker, the more people. Framed: the plan itself. People of one site are taken as independent here. None will do: what is expected does not lie beyond what is demanded, or more people would be needed than were looked at.",
  enrolledCaption: (measure: string) => `People to enrol, ${measure}`,
  enrolledLead: (demand: string, assurance: number) =>
    `People to enrol for the criterion ${demand}, ${chance(assurance)} sure, by what is expected of the kit (down) and how common the condition is (across).`,
};

export const effort = {
  lead: (total: number) =>
    `How long it takes to enrol ${count(total)} people, and what that costs. People are taken to come at random at each site's own rate; real enrolment is less steady, so take the later day.`,
  onAverage: "On average",
  sure: (assurance: number) => `${chance(assurance)} sure`,
  columns: {
    finished: "Finished",
    days: "Working days",
    cost: (unit: string) => `Cost, ${unit}`,
    item: "For",
  },
  daysCaption: "Working days until the last person is enrolled",
  sitesCaption: "People and kits by site",
  siteColumns: {
    site: "Site",
    perDay: "People a working day",
    opensAfter: "Opens after, days",
    people: "People",
    kits: "Kits",
  },
  sitesNote: "People: on average.",
  kits: (kits: number) =>
    `People: on average. Kits, spare ones included, rounded up at each site: ${count(kits)} in all.`,
  costsCaption: "What it costs",
  costsLead: "What it costs if enrolment takes as long as on average.",
  costs: {
    fixed: "Fixed costs",
    sites: "Sites",
    days: "Working days",
    people: "People",
    kits: "Kits",
    references: "Reference tests",
    total: "All together",
  },
};
