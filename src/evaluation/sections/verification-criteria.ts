import { criterionVerdict, verdictOf } from "../../methods/proportion/criterion.ts";
import type { BoundsValues } from "../../methods/verification/bounds.ts";
import { type SensitivityValues, sensitivity } from "../../methods/verification/sensitivity.ts";
import { judgedBy } from "../criteria.ts";
import type { Verification } from "../document.ts";
import { type AccuracyAnswer, criterionHead } from "../judged-cells.ts";
import type { Worktop } from "../worktop.ts";

type Judged = Verification["criteria"][number];
type Verdict = Judged["naive"];

export interface VerificationQuestion extends Pick<Verification, "strata" | "oddsRatio" | "corrected"> {
  readonly bounds: BoundsValues;
}

/** One criterion on the corrected accuracy, in the extreme cases, and if verification hung on the condition. */
export function verificationCriterion(
  worktop: Worktop,
  asked: AccuracyAnswer,
  question: VerificationQuestion,
): Judged {
  const { measure } = asked.answer;
  const { lowest, highest } = question.bounds[measure];
  const curve = alongOddsRatios(worktop, asked, question);
  const told = curve !== null && curve.verdict !== "not_estimable";
  return {
    ...criterionHead(asked),
    corrected: told ? curve.verdict : onEstimate(asked, question.corrected[measure]),
    lowest: onCounts(worktop, asked, lowest),
    highest: onCounts(worktop, asked, highest),
    verdictHolds: told ? curve.verdictHolds : null,
    axes: {
      both: axisOf(curve?.axes.both),
      reactive: axisOf(curve?.axes.reactive),
      nonreactive: axisOf(curve?.axes.nonreactive),
    },
  };
}

/** `null` where the criterion demands all or nothing, which no curve in log odds can tell. */
function alongOddsRatios(
  worktop: Worktop,
  { criterion, answer }: AccuracyAnswer,
  { strata, oddsRatio }: VerificationQuestion,
): SensitivityValues | null {
  const { measure, threshold, direction } = answer;
  if (threshold <= 0 || threshold >= 1) return null;
  const { level } = worktop.interval;
  return worktop.compute(
    sensitivity,
    { strata, criterion: { measure, threshold, direction } },
    {
      level: criterion.rule === "one_sided" ? 2 * level - 1 : level,
      rule: criterion.rule === "point" ? "point" : "interval",
      lowest: oddsRatio.from,
      highest: oddsRatio.to,
    },
  ).values;
}

/** Where log odds have no limits: by those of the corrected estimate, two-sided ones for a one-sided rule too. */
function onEstimate(
  { criterion, answer }: AccuracyAnswer,
  { value, lower, upper }: Verification["corrected"]["sensitivity"],
): Verdict {
  const limits = criterion.rule === "point" ? { lower: value, upper: value } : { lower, upper };
  return verdictOf(limits, answer.threshold, answer.direction);
}

function onCounts(
  worktop: Worktop,
  { criterion, answer }: AccuracyAnswer,
  { count, total }: BoundsValues["sensitivity"]["lowest"],
): Verdict {
  if (total === 0) return "not_estimable";
  const { threshold, direction } = answer;
  const { options } = judgedBy(worktop.interval, criterion);
  return criterionVerdict({ count, total, threshold, direction }, options);
}

const NOWHERE = { points: [], borders: [], holds: { from: null, to: null } };

function axisOf(axis: SensitivityValues["axes"]["both"] | undefined): Judged["axes"]["both"] {
  if (axis === undefined) return NOWHERE;
  const { points, borders, holds } = axis;
  return {
    points: points.map(({ oddsRatio, estimate, verdict }) => ({ oddsRatio, estimate, verdict })),
    borders,
    holds,
  };
}
