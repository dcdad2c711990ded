import type { Rule } from "./cutoff-fields.ts";
import type { Rungs } from "./placements.ts";

/** What a cutoff does to the people it is tried on. */
export interface Judged {
  readonly sensitivity: number;
  readonly specificity: number;
}

export interface Chosen {
  /** Rungs up to this one are reactive; -1: nobody is. */
  readonly rung: number;
  /** Other cutoffs at which somebody's result changes and which the rule likes as much. */
  readonly equals: number;
}

/** Beneath this a difference of harms, or of counts to a limit, is rounding. */
const SLACK = 1e-9;

/** What the rule makes best: the higher the better, save for harm. */
export function objectiveOf(rule: Rule, { sensitivity, specificity }: Judged): number {
  if (rule.kind === "youden") return sensitivity + specificity - 1;
  if (rule.kind === "specificity_at_least") return sensitivity;
  if (rule.kind === "sensitivity_at_least") return specificity;
  const { prevalence, falseNegativeCost, falsePositiveCost } = rule;
  return (
    prevalence * (1 - sensitivity) * falseNegativeCost +
    (1 - prevalence) * (1 - specificity) * falsePositiveCost
  );
}

/**
 * The cutoff that the rule likes best among the rungs where somebody stands. Where several are as good, the one that
 * calls the fewest people reactive; under `sensitivity_at_least`, the one that calls the most.
 */
export function chooseCutoff(rungs: Rungs, rule: Rule): Chosen {
  const { positives, negatives, totalPositives, totalNegatives } = rungs;
  const worth = worthOf(rule, totalPositives, totalNegatives);
  const last = rule.kind === "sensitivity_at_least";
  let [rung, best, equals] = [-1, worth(0, 0), 0];
  let [truePositives, falsePositives] = [0, 0];
  for (let at = 0; at < positives.length; at += 1) {
    const [mine, others] = [positives[at] as number, negatives[at] as number];
    if (mine + others === 0) continue;
    truePositives += mine;
    falsePositives += others;
    const here = worth(truePositives, falsePositives);
    if (here > best) {
      best = here;
      rung = at;
      equals = 0;
    } else if (here === best && here > Number.NEGATIVE_INFINITY) {
      equals += 1;
      if (last) rung = at;
    }
  }
  return { rung, equals };
}

/** How much the rule likes counts of true and false positives: whole numbers, or harm to nine digits. */
function worthOf(rule: Rule, positives: number, negatives: number) {
  if (rule.kind === "youden") {
    return (truePositives: number, falsePositives: number) =>
      truePositives * negatives - falsePositives * positives;
  }
  if (rule.kind === "specificity_at_least") {
    const most = negatives * (1 - rule.least) + SLACK;
    return (truePositives: number, falsePositives: number) =>
      falsePositives <= most ? truePositives : Number.NEGATIVE_INFINITY;
  }
  if (rule.kind === "sensitivity_at_least") {
    const fewest = positives * rule.least - SLACK;
    return (truePositives: number, falsePositives: number) =>
      truePositives >= fewest ? -falsePositives : Number.NEGATIVE_INFINITY;
  }
  const gain = (rule.prevalence * rule.falseNegativeCost) / positives;
  const loss = ((1 - rule.prevalence) * rule.falsePositiveCost) / negatives;
  const step = SLACK * Math.min(gain, loss);
  return (truePositives: number, falsePositives: number) =>
    Math.round((truePositives * gain - falsePositives * loss) / step);
}

/** Sensitivity and specificity of a cutoff in some people. */
export function judgedAt(rungs: Rungs, rung: number): Judged {
  let [truePositives, falsePositives] = [0, 0];
  for (let at = 0; at <= rung; at += 1) {
    truePositives += rungs.positives[at] as number;
    falsePositives += rungs.negatives[at] as number;
  }
  return {
    sensitivity: truePositives / rungs.totalPositives,
    specificity: (rungs.totalNegatives - falsePositives) / rungs.totalNegatives,
  };
}
