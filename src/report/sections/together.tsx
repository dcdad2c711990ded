import type { Decision } from "../../evaluation/document.ts";
import { nameOf } from "../answer-facts.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { Verdict } from "../parts/verdict.tsx";

/** How the criteria become one answer, in one plain sentence, with the probability that all hold. */
export function Together({ report, withJoint = true }: { report: Report; withJoint?: boolean }) {
  const { decision, answers } = report.evaluation;
  if (decision === null) return null;
  const changed = decision.criteria.flatMap(({ criterion, verdict }) => {
    const answer = answers.find((one) => one.criterion === criterion);
    if (answer === undefined || answer.verdict === verdict) return [];
    return [{ name: nameOf(report, answer), verdict }];
  });
  const pieces = report.words.decision.together({
    control: decision.control,
    primary: decision.criteria.length,
    overall: decision.overall,
    joint: withJoint ? probabilityText(decision.joint.independent) : null,
    bounds: boundsText(report, decision),
    changed,
  });
  return (
    <>
      {pieces.map((piece, place) =>
        typeof piece === "string" ? piece : <Verdict key={place} report={report} verdict={piece.verdict} />,
      )}
    </>
  );
}

const probabilityText = (value: number | null) => (value === null ? null : formats.probability(value));

function boundsText(report: Report, { joint }: Decision): string | null {
  const [lowest, highest] = [probabilityText(joint.lowest), probabilityText(joint.highest)];
  if (lowest === null || highest === null || lowest === highest) return null;
  return report.words.decision.bounds(lowest, highest);
}

/** The probability that all primary criteria are truly reached, with its bounds, as a sentence. */
export function jointText(report: Report, decision: Decision): string {
  const { decision: words, page } = report.words;
  const joint = probabilityText(decision.joint.independent) ?? page.notEstimable;
  return words.jointText(joint, boundsText(report, decision));
}
