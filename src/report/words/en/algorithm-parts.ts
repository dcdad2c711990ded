import { statedPercent, THIN } from "../../formats.ts";
import { given, search, tornado, uncertainty } from "./algorithm-choices.ts";

const signed = (share: number) => `${statedPercent(share)}${THIN}%`;

const predictive = {
  lead: "How far a positive result can be trusted as the condition gets rarer, after each reactive result.",
  chart: (algorithm: string) => `Predictive values over prevalence: ${algorithm}`,
  noTarget: "The file states no target for the share of positive results that are right.",
  reached: (target: string, stated: string | null, independent: string | null) => {
    if (stated === null) {
      return `A positive predictive value of ${target} is reached at no prevalence that was looked at${independent === null ? "" : `; it would be from ${independent} on if the kits erred independently`}.`;
    }
    const alone =
      independent === null || independent === stated
        ? ""
        : `; if the kits erred independently it would be from ${independent} on`;
    return `A positive predictive value of ${target} is reached from a prevalence of ${stated} on${alone}.`;
  },
  howToRead:
    "Each reactive result lifts the line. Upwards the scale is stretched: from 90 to 99 % is as far as from 99 to 99.9 %, since both mean ten times fewer wrong results among the positive ones.",
  tableCaption: (algorithm: string) => `Predictive values by prevalence: ${algorithm}`,
  after: (results: number, kit: string) => (results === 1 ? `PPV, ${kit} reactive` : `… and ${kit} reactive`),
  columns: {
    prevalence: "Prevalence, %",
    ppv: "PPV, whole",
    independent: "PPV if independent",
    npv: "NPV, whole",
  },
};

const dependence = {
  lead: "Two kits are independent if, among people of the same truth, a wrong result of one says nothing of the other. They seldom are: kits share antigens, specimens and operators. The error correlation says how far they are wrong about the same people: 0 not at all, 1 always.",
  kinds: {
    none: "No algorithm here tests anybody twice: nothing depends on it.",
    independent:
      "The file assumes independence. What follows shows what that assumption is worth: how the answer would change if it did not hold.",
    pairs:
      "The file gives an error correlation for pairs of kits. Where it was estimated, both kits were run on the same people; where it was stated, somebody judged it.",
    shared:
      "The file states one effect per person that all kits share: some people are hard for every kit. The correlations follow from its spread.",
  },
  caption: "Error correlation of each pair of kits",
  columns: {
    pair: "Pair",
    source: "From",
    nondiseased: "Truly negative",
    diseased: "Truly positive",
    allowed: "possible",
  },
  sources: {
    independent: "assumed: independent",
    stated: "stated",
    estimated: "both kits on the same people",
    repeat: "stated for repeats",
    others: "stated for all other pairs",
    shared: "follows from the shared effect",
  } as Readonly<Record<string, string>>,
  note: "Possible: the lowest and highest correlation that the two kits' accuracies allow. Among the truly negative it decides how many false positives survive a second kit; among the truly positive, how many are missed.",
  sweepsHeading: "If the errors go together less, or more",
  mapsHeading: "Over prevalence and dependence together",
  inAlgorithm: (pair: string, algorithm: string) => `${pair}, in “${algorithm}”`,
  sweepChart: (algorithm: string, pair: string) => `PPV of ${algorithm} over the dependence of ${pair}`,
  /** The first says what the three numbers are. */
  sweepPart: (channel: string, first: boolean, none: string, stated: string, most: string) =>
    first
      ? `${none} if the kits erred independently, ${stated} as used here and ${most} with the strongest dependence looked at, in ${channel}`
      : `${none}, ${stated} and ${most} in ${channel}`,
  sweepSentence: (parts: readonly string[]) => `False positives per 100,000 tested: ${parts.join("; ")}.`,
  sweepCaption: (algorithm: string, pair: string) =>
    `PPV and false positives over the dependence of ${pair}: ${algorithm}`,
  sweepColumns: {
    phi: "Error correlation, truly negative",
    spread: "Spread, truly negative",
    ppv: "PPV, %",
    falsePositives: "False positives per 100,000",
  },
  missedSentence: (none: string, most: string) =>
    none === most
      ? `Among the truly positive it changes nothing: the net sensitivity stays ${none}.`
      : `Among the truly positive, the net sensitivity goes from ${none} if independent to ${most} with the strongest dependence.`,
  missedCaption: (algorithm: string, pair: string, channel: string) =>
    `Net sensitivity over the dependence of ${pair}: ${algorithm}, ${channel}`,
  missedColumns: {
    phi: "Error correlation, truly positive",
    spread: "Spread, truly positive",
    sensitivity: "Net sensitivity, %",
    missed: (channel: string) => `Missed per 100,000, ${channel}`,
  },
  mapLead: "What remains of the PPV if both were other than stated.",
  mapChart: (algorithm: string, pair: string) =>
    `PPV of ${algorithm} over prevalence and dependence of ${pair}`,
  mapCaption: (algorithm: string, pair: string) =>
    `PPV by prevalence and error correlation: ${algorithm}, ${pair}`,
  mapPhi: "Error correlation",
  mapPrevalence: (prevalence: string) => `${prevalence}${THIN}%`,
};

const kits = {
  lead: (algorithm: string | null, risk: string) =>
    `What a year takes${algorithm === null ? "" : `, each analyte by its main algorithm`}, so that the probability of running out before the year is over is at most ${risk}${THIN}%.`,
  caption: "Kits and packs to order for a year",
  allChannels: "All channels together",
  group: (title: string, clients: string) => `${title}, ${clients} clients`,
  columns: {
    kit: "Kit",
    mean: "Used on average",
    runs: "Used at most",
    waste: "Lost before use",
    kits: "Kits",
    packs: "Packs",
    byMean: "Runs out if the average is ordered",
    money: (unit: string) => `Price, ${unit}`,
  },
  packsOf: (size: string) => `of ${size}`,
  note: "Used: devices opened, invalid ones and repeats too. Used at most: the number that is exceeded with the risk accepted. Kits: with those lost before use.",
};

const costs = {
  lead: (prices: boolean) =>
    prices
      ? "Devices used for one client, what that costs, and how long a decision takes."
      : "Devices used for one client, and how long a decision takes. The file gives no prices.",
  caption: "Devices, costs and minutes per client",
  columns: {
    algorithm: "Algorithm",
    kit: (kit: string) => `${kit} per 100 clients`,
    perClient: (unit: string) => `Cost per client, ${unit}`,
    perCase: (unit: string) => `per case found, ${unit}`,
    perAverted: (unit: string) => `per false positive averted, ${unit}`,
    withErrors: (unit: string) => `with errors, per client, ${unit}`,
    minutes: "Minutes, mean",
    mostMinutes: "Minutes, longest",
  },
  note: "Per case found: the cost of all tested over the true cases found. Per false positive averted: what the algorithm costs more than its first kit alone, over the false positives that it averts. With errors: what false positives and missed people cost besides, where the file says so. Minutes: until a decision in the first pass; the longest way with no run invalid.",
};

export interface ObservedFacts {
  readonly channel: string;
  readonly first: string;
  readonly second: string;
  readonly seen: string;
  readonly all: string;
  readonly expected: string | null;
  readonly verdict: "more" | "fewer" | "alike";
  readonly diseased: string | null;
}

const observed = {
  lead: "Some people reactive with the first kit are non-reactive with the second, even if both kits are as good as stated. Many more than that, or far fewer, mean that a kit, its use or the prevalence is other than stated.",
  caption: "Discordant results seen, against those expected",
  columns: {
    channel: "Channel",
    seen: "Discordant / first reactive",
    share: "Share seen",
    expected: "Share expected",
    independent: "… if independent",
    counts: "Number to expect",
    p: "p",
  },
  note: (level: number) =>
    `Discordant: reactive with the first kit, non-reactive with the second. Number to expect: ${signed(level)} limits, with what is uncertain about the kits. p: two-sided, of a number as far from what is expected.`,
  notJudged: "The counts can't be judged.",
  sentence({ channel, first, second, seen, all, expected, verdict, diseased }: ObservedFacts): string {
    const counted = `In ${channel}, ${second} called ${seen} of the ${all} people whom ${first} called reactive non-reactive`;
    const against = expected === null ? "" : `; ${expected} were to be expected`;
    const verdicts = {
      more: "That is more than chance and the stated kits explain: look at the lots, the operators and the prevalence before trusting the second kit.",
      fewer:
        "That is fewer than chance and the stated kits explain: the kits may err together more than stated, or the condition may be commoner.",
      alike: "That is within what chance and the stated kits explain.",
    };
    const truth =
      diseased === null
        ? ""
        : ` Of the discordant, ${diseased} are expected to be truly positive nevertheless.`;
    return `${counted}${against}. ${verdicts[verdict]}${truth}`;
  },
};

const together = {
  lead: (kit: string, algorithms: string) =>
    `${kit} shows both analytes on one device: one run serves both. Reckoned for ${algorithms}, and counted and paid once.`,
  caption: "Devices and costs of two analytes on one device",
  columns: {
    channel: "Channel",
    apart: "Devices per client, apart",
    devices: "on one device",
    costApart: (unit: string) => `Cost per client apart, ${unit}`,
    cost: (unit: string) => `on one device, ${unit}`,
    saved: (unit: string) => `Saved per 100,000, ${unit}`,
  },
  note: "Apart: as if each analyte had a device of its own.",
};

const methods = {
  lead: "How the numbers came about, for whoever wants to defend or to repeat them.",
  topics: (facts: {
    level: number;
    draws: string;
    seed: number;
    kind: "none" | "independent" | "pairs" | "shared";
  }) => [
    {
      term: "Outcomes",
      text: "Every way through an algorithm is followed, and its exact probability is added up by what is true of the person. Nothing is simulated, except where a line says so.",
    },
    {
      term: "Dependence",
      text: {
        none: "Nobody is tested twice: none is needed.",
        independent: "Assumed absent, as the file says. The sweeps show what would hold if it were not.",
        pairs:
          "Among people of the same truth, results are thresholds of normal variables whose correlations give exactly the error correlations stated, pair by pair. For two runs this is the usual covariance model.",
        shared:
          "Among people of the same truth, one normal effect per person moves the probability of a reactive result of every kit, on the probit scale; its spread is stated.",
      }[facts.kind],
    },
    {
      term: "Invalid runs",
      text: "Independent of the truth and of each other; repeated at once as often as the step says, then the person goes where the step sends invalid results. Devices of invalid runs are counted and paid.",
    },
    {
      term: "A second pass",
      text: "Inconclusive people who come back go through the algorithm once more as the same persons: their results depend on those of the first pass as repeats do.",
    },
    {
      term: "Intervals",
      text: `Two-sided ${signed(facts.level)} limits of ${facts.draws} draws from what the file leaves possible of kits, prevalences and prices: counts by the beta distribution of Jeffreys, ranges evenly.`,
    },
    {
      term: "Random numbers",
      text: `Whatever is drawn starts from seed ${facts.seed}: the same file and seed give the same page.`,
    },
  ],
};

const cautions = {
  lead: "What this page is, and what it is not.",
  items: [
    "This is a reckoning for evaluation, planning and teaching. It is not a medical device, and finds out about, and treats, nobody.",
    "The national testing strategy and the regulator decide which kits may be used, in which order, and how many reactive results make a positive one. Nothing here overrules them.",
    "No result on this page is a result of any person. Whoever is tested gets results, counselling and care as the national guideline asks, from licensed practitioners.",
    "A predictive value holds at the prevalence printed beside it, and for people like those in whom the kits were studied.",
    "Independence of kits is an assumption. Where it is assumed, or a correlation is only stated, the share of right positive results usually looks higher than it is.",
    "A repeat with the same kit, lot, specimen or reader is not a second opinion.",
    "A third kit that decides between two that differ makes some people positive on two reactive results of three: whether that may be is for the national strategy to say.",
    "People left inconclusive are neither negative nor lost by definition: they need another test or time, and a way back.",
    "Costs are those of the file: kits and clients. What a wrong result does to a person has no price here.",
    "An algorithm that is the cheapest, or the best by one number, may fail by another. The decision weighs more than this page holds.",
    "Orders speak of chance alone: not of demand that grows, of late deliveries or of expiry.",
    "No kit, laboratory or company is endorsed. Names in the demonstration file are invented.",
    "This program has not been validated under ISO 13485, IEC 62304 or 21 CFR 11. Whoever needs validated records keeps their own.",
    "A formula or figure marked “cited from memory” waits for someone to check it against its source.",
  ],
} as const;

const provenance = {
  lead: "Which files this page was made from. The same files and software give the same page, byte for byte; the algorithms document is embedded in this page and can be read back.",
  fileHash: "Algorithm file, SHA-256",
  draws: "Draws asked for",
  format: "Algorithms document",
};

/** The words of every section of an algorithm's page. */
export const algorithmParts = {
  predictive,
  dependence,
  uncertainty,
  tornado,
  search,
  given,
  kits,
  costs,
  observed,
  together,
  methods,
  cautions,
  provenance,
};
