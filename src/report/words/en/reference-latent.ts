import { count, pValue, statedPercent, THIN } from "../../formats.ts";
import { counted, listed, numberWord, people, sentence } from "./plural.ts";

/** A model without a sure reference. */
export const latent = {
  heading: (title: string) => sentence(title),
  lead: (tests: number, populations: string | null) =>
    `No test is taken for the truth: ${numberWord(tests)} are held against each other${populations === null ? "" : `, in groups of people (${populations}) that differ in how common the condition is`}. The condition is whatever the tests have in common.`,
  people: (asked: number, countedPeople: number, setAside: string | null) =>
    asked === countedPeople
      ? `${people(countedPeople)} counted.`
      : `${count(countedPeople)} of ${people(asked)} counted${setAside === null ? "" : `; set aside: ${setAside}`}.`,
  setAside: (reason: string, number: number) => `${reason} ${count(number)}`,
  dependence(kind: "independent" | "pairs" | "random_effect", pairs: readonly string[]): string {
    if (kind === "independent") {
      return "The tests are taken to err independently; if they err together, these figures are too good.";
    }
    return kind === "pairs"
      ? `Errors may go together for ${listed(pairs)}; all others are taken to err independently.`
      : "All tests may err together, through one thing that makes a person hard for all of them.";
  },
  pair: (first: string, second: string) => `${first} with ${second}`,
  /** What is found of one test, in one sentence. */
  found: (test: string, analyte: string, finds: string, clears: string) =>
    `${sentence(test)}: finds ${finds} of people with ${analyte}, clears ${clears} of those without.`,
  by: {
    bayesian: "With the beliefs stated beforehand:",
    likelihood: "By maximum likelihood:",
  },
  notIdentified: (rank: number, unknowns: number) =>
    `The counts tell only ${rank} of the model's ${unknowns} unknowns apart, so there is no estimate by likelihood alone.`,
  restsOnPriors: (rank: number, unknowns: number) =>
    `The counts alone tell ${rank} of ${unknowns} unknowns apart: what is shown rests on the beliefs as well, however many people there were.`,
  identified: "The counts alone could tell all unknowns apart.",
  converged: (chains: number, rHat: string, effective: string) =>
    `The ${numberWord(chains)} chains agree (largest R-hat ${rHat}, fewest effective draws ${effective}).`,
  notConverged: (rHat: string, effective: string) =>
    `The chains do not agree (largest R-hat ${rHat}, fewest effective draws ${effective}): do not use these figures; more draws or a simpler model are needed.`,
  noSearch: "The search for the likeliest model did not end at a maximum: do not use these figures.",
  fits: (p: number) => `The model reproduces the table (p\u00a0${told(p)}).`,
  poorFit: (p: number) =>
    `The model does not reproduce the table well (p\u00a0${told(p)}): something that it takes for granted does not hold, such as that a missing result tells nothing, or that tests err independently.`,
  noConflict: "No belief is contradicted by the data.",
  conflict: (names: readonly string[]) => `The data speak against what was believed of ${listed(names)}.`,
  moves: (name: string, shift: string, parameter: string, from: string, to: string) =>
    `With other beliefs (${name}) ${parameter} moves most: from ${from} to ${to}, by ${shift} of its standard deviations.`,
  caption: (title: string) => `What the model says of each test: ${title}`,
  columns: {
    what: "Of people",
    naive: "Against the reference",
    likelihood: "Likelihood %",
    bayesian: "With beliefs %",
    strip: "hollow: believed; full: after",
    stripLikelihood: "by likelihood",
  },
  rows: { sensitivity: "with the condition, found", specificity: "without it, cleared" },
  prevalence: "Share with the condition",
  everybody: "everybody",
  how: (bayesian: boolean, naive: boolean, level: number) =>
    [
      ...(naive ? ["Against the reference: as if that never erred."] : []),
      ...(bayesian
        ? [
            `With beliefs: the middle of what is plausible, with ${statedPercent(level)}${THIN}% limits; likelihood: no belief, same model.`,
          ]
        : []),
    ].join(" "),
  couplingsCaption: (title: string) => `Errors in common: ${title}`,
  couplingColumns: {
    between: { pairs: "Covariance of", random_effect: "Correlation of" },
    diseased: "With the condition",
    nondiseased: "Without it",
    likelihood: "likelihood",
    bayesian: "with beliefs",
  },
  densities: (title: string) => `Beliefs before and after the data: ${title}`,
  densityColumns: {
    quantity: "Quantity",
    before: "Believed before",
    after: "After the data",
    p: "Agreement, p",
  },
  densityHow:
    "Where the curve is hardly narrower than the dashed line, the data added little and the answer is the belief.",
  source: (source: string, day: string | null) =>
    `Beliefs: ${source}${day === null ? "" : `, entered ${day}`}.`,
  checks: "Checks of the model: who was tested, fit, other beliefs",
  chainsFolded: "Checks of the drawing: chains, ranks, effective draws",
  patternsCaption: (title: string) => `People seen and people expected by pattern of results: ${title}`,
  patternColumns: {
    population: "Population",
    observed: "Seen",
    likelihood: "Expected, likelihood",
    bayesian: "Expected, with beliefs",
    p: "p",
  },
  patternHow: (level: number) =>
    `Expected with beliefs: mean and ${statedPercent(level)}${THIN}% range of repetitions of the study. p: how often a repetition is as far off.`,
  testedCaption: (title: string) => `What is known of each test: ${title}`,
  testedColumns: {
    test: "Test",
    reactive: "Reactive",
    nonreactive: "Non-reactive",
    invalid: "Invalid",
    outsideWindow: "Outside the window",
    indeterminate: "Indeterminate",
    notDone: "Not done",
  },
  testedHow: "Invalid, indeterminate and missing results count as not done: the other tests still speak.",
  otherCaption: (title: string) => `Under other beliefs: ${title}`,
  otherColumns: { beliefs: "Beliefs", largest: "Largest shift" },
  otherHow:
    "Medians, in percent; shared errors as they are. Largest shift: in standard deviations of the answer as stated. What moves much was believed, not measured.",
  alternatives: {
    as_stated: "as stated",
    half_weight: "half the weight",
    double_weight: "double the weight",
    flat_accuracy: "nothing believed of the tests",
    flat_prevalence: "nothing believed of the prevalence",
  },
  flatOf: (parameter: string) => `nothing believed of ${parameter}`,
  chainsCaption: (title: string) => `How well the chains agree: ${title}`,
  chainColumns: {
    quantity: "Quantity",
    rHat: "R-hat",
    bulk: "Effective draws, middle",
    tail: "Effective draws, tails",
    error: "Error from drawing, points",
  },
  chainHow: "R-hat near 1 and many effective draws: where the chains began no longer matters.",
  drawn: (chains: number, draws: number, warmup: number) =>
    `${sentence(counted(chains, "chain", "chains"))} of ${count(draws)} draws each, after ${count(warmup)} thrown away.`,
  traces: (title: string) => `Paths of the chains: ${title}`,
  tracesHow: (shown: number) =>
    `The ${numberWord(shown)} quantities that mix worst. Every chain should wander over the whole shaded band.`,
  ranks: (title: string) => `Ranks of the draws by chain: ${title}`,
  ranksHow: "Bars near the dotted line everywhere: no chain stays apart from the others.",
  rankColumns: { quantity: "Quantity", chain: (number: number) => `Chain ${number}` },
  rankCell: (least: string, most: string) => `${least}–${most}`,
  traceColumns: { quantity: "Quantity", chain: (number: number) => `Chain ${number}, middle` },
  /** Within a sentence. */
  quantity: {
    sensitivity: (test: string) => `the sensitivity of ${test}`,
    specificity: (test: string) => `the specificity of ${test}`,
    prevalence: (label: string) => `the share with the condition, ${label},`,
    diseased: (between: string | null) =>
      `the covariance with the condition${between === null ? "" : ` of ${between}`}`,
    nondiseased: (between: string | null) =>
      `the covariance without it${between === null ? "" : ` of ${between}`}`,
  },
  parameter: {
    sensitivity: (test: string) => `${test}: sensitivity`,
    specificity: (test: string) => `${test}: specificity`,
    prevalence: (label: string) => `share with the condition, ${label}`,
    diseased: (between: string | null) =>
      `shared errors, with the condition${between === null ? "" : ` (${between})`}`,
    nondiseased: (between: string | null) =>
      `shared errors, without it${between === null ? "" : ` (${between})`}`,
  },
};

/** A p-value in a sentence: "= 0.43", "< 0.001". */
function told(p: number): string {
  const text = pValue(p);
  return /^[<>]/.test(text) ? text : `=\u00a0${text}`;
}
