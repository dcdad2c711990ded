import { statedPercent, THIN } from "../../formats.ts";
import { criteria, enrolment, precision, together } from "./plan-criteria.ts";
import { agreement, comparisons, effort, stopping, whatIf } from "./plan-studies.ts";

const methods = {
  lead: "How the numbers came about, for whoever wants to defend or to repeat them.",
  topics: (facts: { level: number; interval: string; seed: number }) => [
    {
      term: "Verdicts",
      text: `The same as in the evaluation report: a criterion is met when the whole two-sided ${statedPercent(facts.level)}${THIN}% ${facts.interval} interval lies on its right side, unless the criterion states a rule of its own.`,
    },
    {
      term: "Power",
      text: "The exact probability that the verdict will be “met”, added up over every result that meets it. No normal approximation, unless a line says formula or textbook.",
    },
    {
      term: "Number needed",
      text: "The number of people from which on every larger one has the power wanted, as far as was looked. Where people of one site are alike it is raised by the design effect.",
    },
    {
      term: "Enrolment",
      text: "Who is positive, and who is lost, is a matter of chance. Where the prevalence is uncertain the chance is averaged over it; where only a range is given the worse end counts.",
    },
    {
      term: "Random numbers",
      text: `Whatever is simulated starts from seed ${facts.seed}: the same plan and seed give the same page. Numbers needed are never simulated.`,
    },
  ],
};

const cautions = {
  lead: "What this plan is, and what it is not.",
  items: [
    "This is a reckoning for planning only. It finds out about, and treats, nobody; it is not a medical device.",
    "The study needs a protocol, the approval of an ethics committee and, where the law asks for it, of the regulator, before anybody is enrolled.",
    "The national testing guideline holds in the study too: whoever takes part gets the tests, results, counselling and care that it asks for, from licensed practitioners. No study result replaces the reference.",
    "Every number hangs on what was expected. Expected values that are hoped for rather than known make a study too small.",
    "The criteria, the interval and the rule are fixed here, before the first result. Changing them afterwards makes the power meaningless.",
    "Power is counted for people who are independent, then raised by a design effect that is itself a guess. Readers, lots and devices add variation that is not counted here.",
    "The chance of enough people speaks of chance alone: not of sites that open late, of refusals, of a season, or of people who are easier to find.",
    "Choosing people so that more positives come (an enriched sample) makes the study shorter and its predictive values worthless; it can flatter sensitivity too.",
    "Criteria quoted from other documents bear the document and the day on which they were entered, and may have changed since.",
    "A rule for stopping early must stand in the protocol, with who looks and when. Looking without a rule makes false passes likelier.",
    "Let a statistician review the plan before it is filed.",
    "No kit, reader or company is endorsed. Names in the demonstration plan are invented.",
    "This program has not been validated under ISO 13485, IEC 62304 or 21 CFR 11. Whoever needs validated records keeps their own.",
    "A formula or figure marked “cited from memory” waits for someone to check it against its source.",
  ],
} as const;

const provenance = {
  lead: "Which files this plan was made from. The same files and software give the same page, byte for byte; the planning document is embedded in this page and can be read back.",
  planHash: "Plan and kit file together, SHA-256",
  format: "Planning document",
};

/** The words of every section of a plan's page. */
export const planParts = {
  criteria,
  precision,
  enrolment,
  together,
  comparisons,
  agreement,
  stopping,
  whatIf,
  effort,
  methods,
  cautions,
  provenance,
};
