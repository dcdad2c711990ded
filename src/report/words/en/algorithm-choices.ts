import { statedPercent, THIN } from "../../formats.ts";

const signed = (share: number) => `${statedPercent(share)}${THIN}%`;

export const uncertainty = {
  lead: (draws: string) =>
    `Kits were tested on so many people only, prevalences and prices are not exact. All of them are drawn anew ${draws} times from what the file leaves possible, and every algorithm is reckoned through each time.`,
  fewer: (asked: string) =>
    `The file asks for ${asked} draws. Fewer had to do, as every one takes long where a person may have four valid runs or more.`,
  caption: "What remains uncertain of the shares, by channel and algorithm",
  peopleCaption: "What remains uncertain of people and costs, by channel and algorithm",
  columns: {
    algorithm: "Algorithm",
    sensitivity: "Net sensitivity, %",
    specificity: "Net specificity, %",
    ppv: "PPV, %",
    npv: "NPV, %",
    falsePositives: "False positives per 100,000",
    missed: "Missed per 100,000",
    inconclusive: "Left inconclusive per 100,000",
    cost: (unit: string) => `Cost per client, ${unit}`,
    all: "Reaches every target",
    best: "Is the best",
  },
  note: (level: number) =>
    `Medians with ${signed(level)} limits. Reaches every target: the share of draws in which it does. Is the best: the share in which it is the cheapest of those that do. The dependence is taken as stated, not drawn.`,
};

export const tornado = {
  sectionHeading: "What it hangs on most",
  heading: (algorithm: string, channel: string, outcome: string) =>
    `${outcome} of “${algorithm}” in ${channel}`,
  lead: "One uncertain number at a time is moved from its lower to its upper limit, the others stay at their middle. The longer the bar, the more would be gained by knowing that number better. The dependence stays as stated; the section before moves it.",
  caption: (heading: string) => `Data: ${heading}`,
  outcomes: {
    ppv: "PPV",
    npv: "NPV",
    sensitivity: "net sensitivity",
    specificity: "net specificity",
    missed: "number missed",
    falsePositives: "number of false positives",
    inconclusive: "number left inconclusive",
    cost: "cost per client",
  },
  axis: {
    share: (outcome: string) => `${outcome} (%)`,
    money: (outcome: string, unit: string) => `${outcome} (${unit})`,
    people: (outcome: string) => `${outcome}, per 100,000`,
  },
  ofKit: {
    sensitivity: (kit: string) => `sensitivity of ${kit}`,
    specificity: (kit: string) => `specificity of ${kit}`,
    invalid: (kit: string) => `invalid runs of ${kit}`,
    price: (kit: string) => `price of ${kit}`,
  },
  perPerson: "cost of testing a person, kits left out",
  perInconclusive: "cost of a person left inconclusive",
  prevalence: "prevalence in the channel",
  columns: {
    input: "Uncertain number",
    low: "Lower limit",
    atLow: "Outcome there",
    high: "Upper limit",
    atHigh: "Outcome there ",
  },
};

export const search = {
  lead: (targets: boolean) =>
    `Every usual algorithm that can be made of the kits is reckoned: one kit alone, two or three in turn, two at once, and two with a third that decides. The best is the cheapest${targets ? " of those that reach every target" : ""}. People left inconclusive who are truly positive count as missed here.`,
  searched: (algorithms: string, kits: string) => `${algorithms} algorithms of ${kits}.`,
  alone: (kit: string) => `${kit} alone`,
  inTurn: (kits: readonly string[]) => kits.join(", then "),
  elseInconclusive: (name: string) => `${name} (else inconclusive)`,
  either: (kits: readonly string[]) => kits.join(" or "),
  decides: (kits: readonly string[], last: string) => `${kits.join(" and ")}, ${last} decides`,
  none: "none reaches the targets",
  prevalence: "Prevalence, %",
  bestCaption: (analyte: string) => `The best algorithm in each channel: ${analyte}`,
  bestColumns: {
    channel: "Channel",
    algorithm: "Algorithm",
    best: "Best",
    chance: "Probability of being best",
    ppv: "PPV, %",
    falsePositives: "False positives per 100,000",
    missed: "Missed per 100,000",
    inconclusive: "Left inconclusive per 100,000",
    cost: (unit: string) => `Cost per client, ${unit}`,
    keeps: "Reaches every target",
  },
  keeps: { yes: "yes", no: "no" },
  bestNote:
    "In turn: the next kit only after a reactive result; whoever the next kit does not confirm is negative, or inconclusive where it says so. Or: either reactive makes a positive. The same kit twice is reckoned with the correlation stated for repeats.",
  bestChart: (analyte: string) => `Best algorithm by prevalence: ${analyte}`,
  stretchCaption: (analyte: string) => `Where the best algorithm changes: ${analyte}`,
  stretchColumns: { from: "From prevalence, %", to: "to, %", best: "Best" },
  chanceCaption: (analyte: string) => `Probability of being the best by prevalence: ${analyte}`,
  frontierHeading: (channel: string) => `cost and errors in ${channel}`,
  frontierLead:
    "Shown are the algorithms that no other beats: every other one costs more, misses more or has more false positives. Full dots reach every target, hollow ones don't; the ring is the best.",
  frontierChart: (channel: string) => `Cost against false positives and missed: ${channel}`,
  frontierCaption: (channel: string) => `Algorithms that no other beats: ${channel}`,
};

export const given = {
  lead: "What the file states of kits and channels. Counts are people with the right result out of people tested: the fewer, the less is known.",
  kitsCaption: "Kits as the file states them",
  kitColumns: {
    kit: "Kit",
    sensitivity: "Sensitivity",
    specificity: "Specificity",
    invalid: "Invalid runs",
    antigens: "Antigens",
    minutes: "Minutes",
    price: (unit: string) => `Price, ${unit}`,
  },
  beta: (a: string, b: string) => `beta (${a}, ${b})`,
  note: "Antigens: kits of one name share them, and may be wrong about the same people.",
  channelsCaption: "Channels as the file states them",
  channelColumns: {
    channel: "Channel",
    clients: "Clients a year",
    prevalence: (analyte: string | null) => (analyte === null ? "Prevalence" : `Prevalence of ${analyte}`),
    return: "Come back",
  },
};
