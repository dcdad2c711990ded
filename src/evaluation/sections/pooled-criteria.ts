import type { Estimate } from "../../core/estimate.ts";
import { bivariate } from "../../methods/pooling/bivariate.ts";
import { univariate } from "../../methods/pooling/univariate.ts";
import { verdictOf } from "../../methods/proportion/criterion.ts";
import { tCdf } from "../../numeric/student-t.ts";
import type { Pooled } from "../document.ts";
import { type AccuracyAnswer, criterionHead } from "../judged-cells.ts";
import { type Told, toldOf } from "../pooled-told.ts";
import type { Worktop } from "../worktop.ts";

type Judged = Pooled["criteria"][number];
type Models = Parameters<typeof toldOf>[0];
type Studies = readonly (Pooled["groups"][number]["counts"] & { readonly label: string })[];

const ABSENT: Estimate = { value: null, lower: null, upper: null };

/** One criterion held against the middle of the groups, and against what another group may see. */
export function pooledCriterion(
  worktop: Worktop,
  asked: AccuracyAnswer,
  studies: Studies,
  models: Models,
): Judged {
  const { threshold, direction } = asked.answer;
  const told = toldOf(models, asked.answer.measure);
  const summary = told === null ? ABSENT : summaryUnder(worktop, asked, studies, told);
  const prediction = told?.prediction ?? ABSENT;
  return {
    ...criterionHead(asked),
    summary: verdictOf(summary, threshold, direction),
    summaryEstimate: told?.summary ?? ABSENT,
    newGroup: {
      prediction,
      verdict: verdictOf(prediction, threshold, direction),
      chance: told === null ? null : chanceOf(told, threshold, direction),
    },
    by: told?.by ?? null,
  };
}

/** The limits that the criterion's rule asks for. */
function summaryUnder(
  worktop: Worktop,
  { criterion, answer: { measure } }: AccuracyAnswer,
  studies: Studies,
  { by, summary }: Told,
): Pick<Estimate, "lower" | "upper"> {
  if (criterion.rule === "point") return { lower: summary.value, upper: summary.value };
  if (criterion.rule === "interval") return summary;
  // One-sided limits at a level are the limits of a two-sided interval with twice the error.
  const level = 2 * worktop.interval.level - 1;
  if (by === "bivariate") {
    const { values } = worktop.compute(
      bivariate,
      { studies: [...studies], covariate: null, likelihood: { kind: "binomial" } },
      { level, interval: "profile", spread: "none" },
    );
    return values.summary[measure].proportion;
  }
  const counted = studies.map(({ label, truePositives, falsePositives, falseNegatives, trueNegatives }) =>
    measure === "sensitivity"
      ? { label, count: truePositives, total: truePositives + falseNegatives }
      : { label, count: trueNegatives, total: trueNegatives + falsePositives },
  );
  const { values } = worktop.compute(univariate, { studies: counted, correction: "zero_cells" }, { level });
  return values.binomial.profile;
}

/** By the distribution that the prediction interval comes from: t with the groups less 2 degrees of freedom. */
function chanceOf(
  { logit, error, between, groups }: Told,
  threshold: number,
  direction: Judged["direction"],
): number | null {
  if (logit === null || error === null || between === null || groups < 3) return null;
  const spread = Math.sqrt(Math.pow(error, 2) + Math.pow(between, 2));
  const figure = Math.log(threshold / (1 - threshold));
  if (spread === 0) return (direction === "at_least" ? logit >= figure : logit <= figure) ? 1 : 0;
  const away = (direction === "at_least" ? logit - figure : figure - logit) / spread;
  if (!Number.isFinite(away)) return away > 0 ? 1 : 0;
  return tCdf(away, groups - 2);
}
