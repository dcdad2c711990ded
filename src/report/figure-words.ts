import type { Report } from "./context.ts";
import { FIGURE_WORDS, type FigureWords } from "./figures/words.ts";
import { speaksOfAgreement, termsOf, worded } from "./names.ts";

/** The words of the drawn figures for one analyte: they follow its reference, as the page does. */
export function figureWords(report: Report, analyte: string): FigureWords {
  const terms = termsOf(report, analyte);
  const { reasons, grammar } = report.words;
  const { reference } = FIGURE_WORDS.flow;
  return {
    ...FIGURE_WORDS,
    flow: {
      ...FIGURE_WORDS.flow,
      reference: {
        ...reference,
        positive: grammar.sentence(terms.positive),
        negative: grammar.sentence(terms.negative),
        indeterminate: `${terms.reference} indeterminate`,
        not_done: `${terms.reference} not done`,
      },
      reason: (code: string) => worded(reasons, code),
    },
    fourfold: {
      ...FIGURE_WORDS.fourfold,
      reference: grammar.sentence(terms.reference),
      four: {
        "reactive/positive": terms.truePositive,
        "reactive/negative": terms.falsePositive,
        "nonreactive/positive": terms.falseNegative,
        "nonreactive/negative": terms.trueNegative,
      },
    },
    forest: {
      ...FIGURE_WORDS.forest,
      counts: speaksOfAgreement(report, analyte)
        ? report.words.answer.columns.countsAgreement
        : report.words.answer.columns.counts,
    },
  };
}
