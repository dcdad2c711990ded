import type { Answer } from "../evaluation/document.ts";
import type { Report } from "./context.ts";
import { analyteTitle, kitTitle, specimenTitle, termsOf, toldReader } from "./names.ts";
import type { AnswerFacts, VerdictGroup } from "./words/en/answer.ts";

/** What a criterion's measure is called. */
export function measureWord(report: Report, answer: Pick<Answer, "analyte" | "measure">): string {
  if (answer.measure === "invalid_rate") return report.words.answer.invalidRate;
  return termsOf(report, answer.analyte)[answer.measure];
}

/** The specimen where it is not the study's primary one; it goes without saying otherwise. */
function unusualSpecimen(report: Report, type: string): string | null {
  return report.evaluation.study.specimens[0]?.type === type ? null : specimenTitle(report, type);
}

/** The kit where it is not the study's main one. */
function unusualKit(report: Report, id: string): string | null {
  return report.evaluation.kits[0]?.id === id ? null : kitTitle(report, id);
}

/** "Anti-HCV sensitivity on fingerstick blood". */
export function nameOf(report: Report, answer: Answer): string {
  const { words } = report;
  const name = words.answer.nameInSentence(
    analyteTitle(report, answer.analyte),
    measureWord(report, answer),
    unusualSpecimen(report, answer.specimen),
    unusualKit(report, answer.kit),
  );
  const reader = toldReader(report, answer.reader);
  return reader === null ? name : `${name} (${reader})`;
}

/** Verdicts by importance, for the first sentence of the report. */
export function verdictGroups(report: Report): VerdictGroup[] {
  const { answers } = report.evaluation;
  return (["primary", "secondary"] as const).flatMap((importance) => {
    const mine = answers.filter((answer) => answer.importance === importance);
    const named = (verdict: Answer["verdict"]) =>
      mine.filter((answer) => answer.verdict === verdict).map((answer) => nameOf(report, answer));
    const group = {
      importance,
      total: mine.length,
      met: named("met").length,
      notMet: named("not_met"),
      undecided: named("undecided"),
      notEstimable: named("not_estimable"),
    };
    return mine.length === 0 ? [] : [group];
  });
}

/** How the study file wants the criterion judged. */
function ruleOf(report: Report, { criterion }: Answer): AnswerFacts["rule"] {
  return report.evaluation.study.criteria.find(({ id }) => id === criterion)?.rule ?? "interval";
}

/** The chance that the further people settle it, either way, by what the data so far predict. */
function chanceOf(report: Report, { criterion, further }: Answer): number | null {
  const found = report.evaluation.assurance.find((one) => one.criterion === criterion);
  if (found === undefined || found.further !== further || found.predicted.undecided === null) return null;
  return 1 - found.predicted.undecided;
}

function factsOf(report: Report, answer: Answer): AnswerFacts {
  return {
    terms: termsOf(report, answer.analyte),
    measure: answer.measure,
    right: answer.estimate.count,
    total: answer.estimate.total,
    verdict: answer.verdict,
    direction: answer.direction,
    threshold: answer.threshold,
    further: answer.further,
    rule: ruleOf(report, answer),
    level: report.evaluation.study.interval.level,
    chance: chanceOf(report, answer),
    failuresIncluded: report.evaluation.study.treatment.invalid === "failure",
  };
}

/** A verdict that other treatments would give, and which: in words. */
export interface Flip {
  readonly verdict: string;
  readonly invalid: readonly string[];
  readonly window: readonly string[];
}

/** Verdicts that another treatment of invalid or untimely results would give. */
export function flipsOf(report: Report, answer: Answer): Flip[] {
  const { codes } = report.words;
  const invalid = answer.byInvalidTreatment.filter(({ verdict }) => verdict !== answer.verdict);
  const window = answer.byWindowTreatment.filter(({ verdict }) => verdict !== answer.verdict);
  const verdicts = [...new Set([...invalid, ...window].map(({ verdict }) => verdict))];
  return verdicts.map((verdict) => ({
    verdict: codes.verdicts[verdict],
    invalid: invalid
      .filter((one) => one.verdict === verdict)
      .map(({ treatment }) => codes.invalidTreatments[treatment]),
    window: window
      .filter((one) => one.verdict === verdict)
      .map(({ treatment }) => codes.windowTreatments[treatment]),
  }));
}

/** The plain sentences under a criterion: what was found, what would settle it, what would change it. */
export function sentencesOf(report: Report, answer: Answer): string[] {
  const facts = factsOf(report, answer);
  const further = report.words.answer.further(facts);
  const rule = answer.verdict === "not_estimable" ? null : report.words.answer.rule(facts);
  return [
    report.words.answer.plain(facts),
    ...(rule === null ? [] : [rule]),
    ...(further === null ? [] : [further]),
    ...flipsOf(report, answer).map(({ verdict, invalid, window }) =>
      report.words.answer.flip(verdict, invalid, window),
    ),
  ];
}
