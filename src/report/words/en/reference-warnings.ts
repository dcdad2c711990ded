import { count, pValue } from "../../formats.ts";
import { listed, sentence } from "./plural.ts";

type VerdictCode = "met" | "not_met" | "undecided" | "not_estimable";
const WORDS: Readonly<Record<VerdictCode, string>> = {
  met: "met",
  not_met: "not met",
  undecided: "undecided",
  not_estimable: "not estimable",
};

export interface HangsFacts {
  readonly name: string;
  readonly perfect: VerdictCode;
  readonly believed: VerdictCode;
  readonly throughout: VerdictCode | null;
}
export interface VerifiedFacts {
  readonly name: string;
  readonly naive: VerdictCode;
  readonly corrected: VerdictCode;
}

function hangs({ name, perfect, believed, throughout }: HangsFacts): string {
  if (perfect !== believed)
    return `${name} is ${WORDS[believed]} with the reference as stated, ${WORDS[perfect]} if it never erred`;
  return throughout === null
    ? `${name} is ${WORDS[believed]}, but not over all that is stated of the reference`
    : `${name} is ${WORDS[believed]}`;
}

function verified({ name, naive, corrected }: VerifiedFacts): string {
  return naive === corrected
    ? `${name} is ${WORDS[corrected]}, but not if verification hung on the condition itself`
    : `${name} is ${WORDS[naive]} by those who had the reference, ${WORDS[corrected]} once corrected`;
}

/** What a reader must know for want of a sure reference: on the first page, gravest first. */
export const referenceWarnings = {
  label: { reference: "Reference", model: "Model" },
  hangsOnReference: (facts: readonly HangsFacts[]) =>
    `A verdict hangs on what is true of the reference: ${facts.map(hangs).join("; ")}.`,
  partialVerification: (facts: readonly VerifiedFacts[]) =>
    `A verdict hangs on people who had no reference result: ${facts.map(verified).join("; ")}.`,
  notConverged: (models: readonly string[]) =>
    `The drawing of ${listed(models)} did not settle: do not use its figures.`,
  notIdentified: (models: readonly string[]) =>
    `The counts cannot tell the unknowns of ${listed(models)} apart: they give no estimate of their own.`,
  restsOnPriors: (models: readonly string[]) =>
    `The figures of ${listed(models)} rest on beliefs stated beforehand as well as on the data.`,
  priorConflict: (models: readonly string[], p: number | null) =>
    `In ${listed(models)} the data speak against what was believed${p === null ? "" : ` (p ${/^[<>]/.test(pValue(p)) ? "" : "= "}${pValue(p)})`}.`,
  poorFit: (models: readonly string[]) =>
    `${sentence(listed(models))} ${models.length === 1 ? "does not reproduce the table it was" : "do not reproduce the tables they were"} fitted to.`,
  discrepantOnly: (part: number, total: number | null) =>
    `Only people whose results differed were tested again: ${total === null ? count(part) : `${count(part)} of ${count(total)}`}. That favours the kit.`,
  model: (title: string) => `the model “${title}”`,
};
