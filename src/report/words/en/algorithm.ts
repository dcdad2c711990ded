import { statedPercent, THIN } from "../../formats.ts";
import { counted } from "./plural.ts";

const signed = (share: number) => `${statedPercent(share)}${THIN}%`;

type Basis = "none" | "independent" | "stated" | "estimated" | "shared";

export interface OtherFacts {
  readonly analyte: string;
  readonly algorithm: string;
  readonly truly: string;
  readonly independent: string | null;
  readonly chance: string | null;
}

/** What the headline's number rests on. */
const BASIS: Record<Basis, string> = {
  none: "",
  independent: " if the kits' errors are independent, as the file assumes",
  stated: " with the error correlation stated",
  estimated: " with the error correlation seen in people tested with both kits",
  shared: " with the shared effect stated",
};

export const algorithm = {
  kind: "Testing algorithm",
  skip: "Skip to the answer",
  running: (title: string) => `Fourfold testing algorithm · ${title}`,
  hashes: (fileHash: string, software: string, seed: number) =>
    `File ${fileHash}, software ${software}, seed ${seed}.`,
  about: (analytes: string, algorithms: number, channels: number) =>
    [
      analytes,
      counted(algorithms, "algorithm", "algorithms"),
      counted(channels, "channel", "channels"),
    ] as const,
  dependenceShort: {
    none: "nobody tested twice",
    independent: "errors assumed independent",
    pairs: "error correlations of pairs of kits",
    shared: "errors with a shared cause",
  },
  sections: {
    tree: "Step by step",
    predictive: "Predictive values",
    dependence: "Dependence",
    uncertainty: "Uncertainty",
    search: "Search",
    kits: "Kits to order",
    costs: "Use and cost",
    observed: "Seen against expected",
    together: "Two analytes, one device",
    given: "What went in",
    methods: "Methods and formulas",
    cautions: "Cautions",
    provenance: "Provenance",
  },
  twoKits: (first: string, second: string) => `${first} and ${second}`,
  repeatOf: (kit: string) => `${kit} and a repeat of it`,
  allKits: "all kits",
  forAnalyte: (algorithm: string, analyte: string) => `${algorithm} (${analyte})`,
  channelAnalyte: (channel: string, analyte: string) => `${channel}, ${analyte}`,
  money: (amount: string, unit: string) => `${amount} ${unit}`,
  noUnit: "money units",
  answer: {
    heading: "The answer",
    of: (algorithm: string, channel: string) =>
      `Of 100 people whom “${algorithm}” calls positive in ${channel},`,
    truly: (people: string, basis: Basis) => `${people} truly are${BASIS[basis]}`,
    ifIndependent: (people: string) => `; ${people} would be if the kits erred independently.`,
    /** The same for another analyte, in one sentence. */
    other: ({ analyte, algorithm: name, truly, independent, chance }: OtherFacts) => {
      const alone = independent === null ? "" : `, ${independent} if the kits erred independently`;
      const target = chance === null ? "" : `; the target is reached with probability ${chance}`;
      return `For ${analyte}, of 100 whom “${name}” calls positive there, ${truly}${alone}${target}.`;
    },
    nobody: (algorithm: string, channel: string) => `“${algorithm}” calls nobody positive in ${channel}.`,
    targetChance: (target: string, probability: string) =>
      `The target, ${target} of 100, is reached with probability ${probability}.`,
    targetAtCentre: (target: string, reached: boolean) =>
      `The target, ${target} of 100, is ${reached ? "reached" : "not reached"} with every number as stated.`,
    noTarget: "The file states no target for it.",
    people: (falsePositives: string, missed: string, inconclusive: string) =>
      `Of 100,000 people tested there, ${falsePositives} are called positive wrongly, ${missed} are missed and ${inconclusive} are left without a decision.`,
    cost: (perClient: string, perCase: string | null) =>
      `That costs ${perClient} per client${perCase === null ? "" : `, and ${perCase} for each true case found`}.`,
    cheapest: (algorithm: string, own: boolean, targets: boolean) =>
      `The cheapest algorithm there${targets ? " that reaches every target" : ""} is ${own ? "this one" : `“${algorithm}”`}.`,
    noneReaches: "No algorithm of the file reaches every target there.",
    surer: (algorithm: string, surest: string, cheapest: string) =>
      `“${algorithm}” is surer to: probability ${surest} against ${cheapest}.`,
    bestCaption: "Which algorithm is best where",
    bestLead: "Which is best where:",
    bestColumns: {
      channel: "Channel, prevalence",
      cheapest: (targets: boolean) => (targets ? "Cheapest that reaches every target" : "Cheapest"),
      chance: "Probability that it does",
      surest: "Surest to",
    },
    none: "none",
    caption: "What each algorithm makes of each channel",
    prevalence: (analyte: string | null, prevalence: string) =>
      `${analyte ?? "prevalence"} ${prevalence}${THIN}%`,
    columns: {
      channel: "Channel, prevalence",
      algorithm: "Algorithm",
      sensitivity: "Net sensi­tivity",
      specificity: "Net speci­ficity",
      ppv: "PPV, %",
      ppvShort: "PPV, %",
      independent: "PPV if inde­pendent",
      chance: (target: string | null) =>
        target === null ? "Probability" : `Probability of ≥\u00a0${target}`,
    },
    howToRead: (level: number, target: boolean, independence: boolean) =>
      `Net: of the algorithm taken as one test, invalid results and people left without a decision counted against it. PPV (positive predictive value): of those called positive, the share who truly are. Dot and bar: the PPV with its ${signed(level)} interval from what is uncertain about kits and channel${independence ? "; hollow dot: where it would be if the kits erred independently" : ""}.${target ? " Flag: the target. Probability: that the PPV reaches it." : ""}`,
  },
  people: {
    heading: "What it does to people",
    array: (algorithm: string, channel: string) => `10,000 people tested with “${algorithm}” in ${channel}.`,
    called: (called: string, wrongly: string) => `Of ${called} called positive, ${wrongly} are not.`,
    firstAlone: (kit: string, wrongly: string) =>
      `${kit} alone would call ${wrongly} people positive wrongly.`,
    arrayCaption: "10,000 people by what is true of them and what they are called",
    arrayColumns: { truth: "In truth", called: "Called", people: "People of 10,000" },
    truth: { positive: "positive", negative: "negative" },
    caption: "People and costs by channel and algorithm, per 100,000 tested",
    lead: "In 100,000 people tested, by channel and algorithm:",
    columns: {
      algorithm: "Algorithm",
      found: "Found",
      falsePositives: "False positives",
      missed: "Missed",
      inconclusive: "Left incon­clusive",
      lost: "of these lost",
      perClient: (unit: string) => `Cost per client, ${unit}`,
      perCase: (unit: string) => `Cost per case found, ${unit}`,
    },
    best: "cheapest that reaches every target",
    note: (prices: boolean, lost: boolean) =>
      `Found: truly positive and called so. False positives: called positive, and truly negative. Missed: called negative, and truly positive.${lost ? " Lost: left inconclusive, asked to come back, and did not come." : ""}${prices ? " Costs hold the kits lost before use." : ""}`,
  },
  care: {
    heading: "What to mind",
    dependence: {
      label: "The kits' errors may go together",
      independent:
        "The file assumes that they do not. Kits that look for the same thing in the same specimen are often wrong about the same people, and then a second reactive result proves far less than it seems to. Have both kits run on the same people, and state what is seen.",
      shared:
        "The file states a cause that all kits share. How strong it is decides how much a second reactive result proves.",
      pair: (pair: string, phi: string, estimated: boolean) =>
        `${phi} for ${pair} (${estimated ? "seen on the same people" : "stated"})`,
      pairs: (list: string) =>
        `Error correlations used, among the truly negative: ${list}. What was only stated is a judgement until both kits are run on the same people.`,
      worst: (people: string, most: string, channel: string) =>
        `At the strongest that is looked at, ${most}, only ${people} of 100 called positive in ${channel} would truly be.`,
    },
    repeat: {
      label: "A repeat of the same kit is no independent confirmation",
      none: "What made a kit wrong about a person is still in the specimen when the same kit is used again. A second kit should differ in its antigens.",
      one: (kits: string, phi: string) => `${kits} ${phi}`,
      some: (list: string) =>
        `What made a kit wrong about a person is still in the specimen when it is used again. Correlation of a kit with its own repeat, among the truly negative: ${list}.`,
    },
    prevalence: {
      label: "It holds for these channels only",
      channel: (channel: string, prevalence: string, ppv: string | null) =>
        `${channel} ${prevalence}${THIN}%${ppv === null ? "" : ` (PPV ${ppv})`}`,
      text: (list: string) =>
        `The rarer the condition, the less a positive result is worth. Prevalence: ${list}.`,
      from: (target: string, stated: string | null, independent: string | null) =>
        stated === null
          ? `A PPV of ${target} is reached at no prevalence that was looked at.`
          : `A PPV of ${target} is reached from a prevalence of ${stated}${THIN}% on${
              independent === null || independent === stated
                ? ""
                : `; it would be from ${independent}${THIN}% on if the kits erred independently`
            }.`,
    },
    accuracy: {
      label: "Kits do worse in other hands",
      text: "Every number hangs on sensitivities, specificities and invalid shares from the studies that the file names. In the field, with other operators, lots and people, they may be lower.",
    },
    returns: {
      label: "People who don't come back",
      nobody:
        "Nobody left inconclusive is asked to come back: they need another way to a decision, which is not counted here.",
      everywhere: (share: string) => `${share}${THIN}% do, in every channel`,
      channel: (channel: string, share: string) => `${share}${THIN}% in ${channel}`,
      text: (days: string, list: string) =>
        `People left inconclusive are asked to come back after ${days} days; ${list === "" ? "no channel says how many do" : list}. Whoever does not is lost, and may be truly positive.`,
    },
    waste: {
      label: "Kits lost before use",
      none: "The file counts none. Training, controls and expiry take some.",
      kit: (kits: string, share: string) => `${share}${THIN}% of ${kits}`,
      text: (list: string) =>
        `Counted into costs and orders: ${list}. Training, controls and expiry may take more.`,
    },
    national: {
      label: "The national testing strategy comes first",
      text: "It says which kits may follow which, how many reactive results make a positive one, and who is told what. This page only reckons what follows from numbers.",
    },
  },
  tree: {
    lead: "What is done after each result, and how many people are expected on every branch.",
    title: (algorithm: string, channel: string) => `${algorithm}, in ${channel}`,
    caption: (people: string, channel: string) => `${people} people tested in ${channel}, first pass.`,
    returning: (left: string, back: string, days: string) =>
      `Of ${left} left inconclusive, ${back} come back after ${days} days and go through it once more; what becomes of them is in every other number of this page.`,
    nobodyReturns: "People left inconclusive are not asked to come back.",
    flowCaption: (algorithm: string) => `People expected on every branch: ${algorithm}`,
    columns: {
      step: "Step",
      kit: "Kit",
      result: "Result",
      next: "Leads to",
      diseased: "Truly positive",
      nondiseased: "Truly negative",
    },
    results: { reactive: "reactive", nonreactive: "non-reactive", invalid: "invalid" },
    statuses: { positive: "positive", negative: "negative", inconclusive: "inconclusive" },
    goesOn: (kit: string, step: string) => `${kit}, step ${step}`,
  },
};
