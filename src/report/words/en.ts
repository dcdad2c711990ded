import { accuracy, general, joint, predictive, typed } from "./en/accuracy.ts";
import { alarms, care } from "./en/alarms.ts";
import { algorithm } from "./en/algorithm.ts";
import { algorithmParts } from "./en/algorithm-parts.ts";
import { answer } from "./en/answer.ts";
import { cautions } from "./en/cautions.ts";
import { checklist } from "./en/checklist.ts";
import { clusters } from "./en/clusters.ts";
import { codes, reasons } from "./en/codes.ts";
import { comparisons } from "./en/comparisons.ts";
import { decision } from "./en/decision.ts";
import { exploration } from "./en/exploration.ts";
import { flow, invalid, participants, queries, subgroups } from "./en/flow.ts";
import { detection, instrument } from "./en/instrument.ts";
import { methods, provenance } from "./en/methods.ts";
import { page, sections } from "./en/page.ts";
import { tenThousand } from "./en/people.ts";
import { plan } from "./en/plan.ts";
import { planParts } from "./en/plan-parts.ts";
import { closed, counted, inline, listed, numberWord, people, sentence } from "./en/plural.ts";
import { pool } from "./en/pool.ts";
import { poolParts } from "./en/pool-parts.ts";
import { prevalence } from "./en/prevalence.ts";
import { readers } from "./en/readers.ts";
import { reference } from "./en/reference.ts";
import { latent } from "./en/reference-latent.ts";
import { verifiedPeople } from "./en/reference-verified.ts";
import { referenceWarnings } from "./en/reference-warnings.ts";
import { sites } from "./en/sites.ts";
import { study } from "./en/study.ts";
import { terms } from "./en/terms.ts";
import { time } from "./en/time.ts";

/**
 * Every word of the report, in English. A translation is another object of this shape, handed to
 * `renderReport`; sentences that carry numbers are functions, so that each language bends its own.
 */
export const en = {
  language: "en",
  page,
  sections,
  terms,
  codes,
  reasons,
  answer,
  tenThousand,
  exploration,
  alarms,
  care,
  study,
  flow,
  participants,
  queries,
  accuracy,
  clusters,
  decision,
  reference: { ...reference, ...verifiedPeople },
  latent,
  referenceWarnings,
  joint,
  invalid,
  comparisons,
  subgroups,
  sites,
  predictive,
  prevalence,
  readers,
  time,
  typed,
  instrument,
  detection,
  methods,
  checklist,
  cautions,
  provenance,
  general,
  plan: { ...plan, ...planParts },
  algorithm: { ...algorithm, ...algorithmParts },
  pool: { ...pool, ...poolParts },
  grammar: { closed, counted, inline, listed, numberWord, people, sentence },
};

/** The shape of the words: any text may stand where English has a certain one. */
type Translatable<Part> = Part extends string
  ? string
  : Part extends (...facts: never[]) => unknown
    ? Part
    : { readonly [Key in keyof Part]: Translatable<Part[Key]> };

export type Words = Translatable<typeof en>;
