import type { Estimate } from "../core/estimate.ts";
import type { Pooling, PoolWarning } from "../evaluation/pool/document.ts";
import {
  percentDecimals,
  percentRange,
  percentSigned,
  probability,
  statedPercent,
} from "../report/formats.ts";
import { en } from "../report/words/en.ts";

const MEASURES = ["sensitivity", "specificity"] as const;
const KINDS_SHOWN = 4;

/**
 * The answer of a pooling in a few lines: what to know first; both measures at the middle of the studies and in a
 * place not studied; each kind of study where the kinds differ; criteria; rows left out.
 */
export function poolHeadline(pooling: Pooling): string {
  const lines = [
    ...pooling.answer.warnings.map((warning) => `mind: ${warningLine(pooling, warning)}`),
    ...MEASURES.map((measure) => measureLine(pooling, measure)),
    ...kindLines(pooling),
    ...criterionLines(pooling),
    ...pooling.leftOut.map(
      ({ study, row, column, expected, received }) =>
        `left out: row ${row}${study === null ? "" : `, ${study}`}${column === null ? "" : `, column ${column}`}: expected ${expected}, received ${received}`,
    ),
  ];
  return lines.map((line) => `${line.replaceAll(/[\u00a0\u202f]/g, " ")}\n`).join("");
}

function shown(of: Estimate): string {
  if (of.value === null) return "not estimable";
  const decimals = percentDecimals(of);
  const limits = percentRange(of, decimals);
  return `${percentSigned(of.value, decimals)}${limits === null ? "" : ` (${limits})`}`;
}

function measureLine({ answer, studies }: Pooling, measure: (typeof MEASURES)[number]): string {
  const { summary, prediction, together } = answer[measure];
  if (summary.value === null) return `${measure}: no summary; all people together ${shown(together)}`;
  const place = percentRange(prediction);
  const middle = `${measure}: ${shown(summary)} in the middle of ${studies.length} studies`;
  return place === null ? middle : `${middle}; a new place ${place} %`;
}

function kindLines({ answer }: Pooling): string[] {
  const differing = answer.warnings.find(({ code }) => code === "levels_differ");
  if (differing === undefined) return [];
  return differing.measures.flatMap((measure) =>
    answer.levels
      .slice(0, KINDS_SHOWN)
      .map((level) => `  ${measure}, ${level.level}: ${shown(level[measure].summary)}`),
  );
}

function criterionLines({ answer }: Pooling): string[] {
  return answer.criteria.map(({ measure, atLeast, summary, chance }) => {
    const place = chance === null ? "" : `; a new place reaches it with probability ${probability(chance)}`;
    return `${en.codes.verdicts[summary]}: ${measure}, asked at least ${statedPercent(atLeast)} %${place}`;
  });
}

function warningLine({ file, studies, answer, leftOut }: Pooling, { code, measures, message }: PoolWarning) {
  const { warnings } = en.pool;
  const named = measures.join(" and ");
  const facts: Record<PoolWarning["code"], string> = {
    no_summary: message,
    not_converged: warnings.not_converged.text(),
    boundary: warnings.boundary.text(measures, []),
    few_studies: `${studies.length} studies tell little of how much places differ`,
    levels_differ: `studies differ by ${file.covariate ?? ""}${named === "" ? "" : `, in ${named}`}: one summary hides it`,
    studies_differ: `studies differ in ${named} more than chance explains`,
    verdict_hangs_on_one: answer.criteria
      .filter(({ changedBy }) => changedBy.length > 0)
      .map((one) => `without ${one.changedBy[0]} the verdict on ${one.measure} would be another`)
      .join("; "),
    left_out: `${leftOut.length} of ${leftOut.length + studies.length} rows could not be used`,
  };
  return facts[code].replace(/\.$/, "");
}
