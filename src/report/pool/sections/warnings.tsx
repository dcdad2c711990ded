import type { PoolWarning } from "../../../evaluation/pool/document.ts";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { measureName, pInWords, spanOf, toldOf } from "../names.ts";

interface Item {
  readonly label: string;
  readonly text: string;
}

/** What to know before the figures, gravest first; nothing where there is nothing. */
export function Warnings({ report }: PoolSectionProps) {
  const { warnings: words } = report.words.pool;
  const items = report.pooling.answer.warnings.map((warning) => itemOf(report, warning));
  if (items.length === 0) return null;
  return (
    <div class="care pooled">
      <h3 id="care">{words.heading}</h3>
      <ul>
        {items.map(({ label, text }) => (
          <li key={label}>
            <b>{label}.</b> {text}
          </li>
        ))}
      </ul>
    </div>
  );
}

function itemOf(report: PoolReport, { code, measures, message }: PoolWarning): Item {
  const { warnings: words } = report.words.pool;
  const { pooling } = report;
  switch (code) {
    case "no_summary": {
      const alone = pooling.answer.basis === "univariate";
      return { label: words.no_summary.label, text: words.no_summary.text(message, alone) };
    }
    case "not_converged":
      return { label: words.not_converged.label, text: words.not_converged.text() };
    case "boundary": {
      const still = measures.map((measure) => measureName(report, measure));
      return { label: words.boundary.label, text: words.boundary.text(still, aloneOf(report)) };
    }
    case "few_studies":
      return { label: words.few_studies.label, text: words.few_studies.text(pooling.studies.length) };
    case "levels_differ":
      return levelsItem(report, measures);
    case "studies_differ":
      return { label: words.studies_differ.label, text: differing(report, measures) };
    case "verdict_hangs_on_one":
      return { label: words.verdict_hangs_on_one.label, text: hanging(report) };
    case "left_out": {
      const { leftOut, studies } = pooling;
      const all = leftOut.length + studies.length;
      return { label: words.left_out.label, text: words.left_out.text(leftOut.length, all) };
    }
  }
}

/** Each measure pooled by itself, where both together end on a border. */
function aloneOf(report: PoolReport): string[] {
  const { boundary } = report.words.pool.warnings;
  return (["sensitivity", "specificity"] as const).flatMap((measure) => {
    const { proportion } = report.pooling.univariate[measure].values.binomial;
    if (proportion.value === null) return [];
    return [boundary.alone(measureName(report, measure), toldOf(report, proportion))];
  });
}

function levelsItem(report: PoolReport, measures: PoolWarning["measures"]): Item {
  const { levels_differ: words } = report.words.pool.warnings;
  const { covariate } = report.pooling;
  const p = covariate?.values.covariate?.both.p ?? 1;
  const both = (["sensitivity", "specificity"] as const).filter(
    (measure) => measures.length === 0 || measures.includes(measure),
  );
  const names = both.map((measure) => measureName(report, measure));
  return {
    label: words.label,
    text: words.text(report.pooling.file.covariate ?? "", names, pInWords(p)),
  };
}

/** How far apart the studies that saw such people lie. */
function differing(report: PoolReport, measures: PoolWarning["measures"]): string {
  const { studies_differ: words } = report.words.pool.warnings;
  return words.text(
    measures.flatMap((measure) => {
      const seen = report.pooling.studies.map((study) => study[measure].value).filter((one) => one !== null);
      if (seen.length === 0) return [];
      const span = spanOf(report, { value: null, lower: Math.min(...seen), upper: Math.max(...seen) });
      return span === null ? [] : [words.part(measureName(report, measure), span)];
    }),
  );
}

const NAMED = 3;

function hanging(report: PoolReport): string {
  const { verdict_hangs_on_one: words } = report.words.pool.warnings;
  return words.text(
    report.pooling.answer.criteria
      .filter(({ changedBy }) => changedBy.length > 0)
      .map(({ measure, changedBy }) =>
        words.part(
          measureName(report, measure),
          changedBy.slice(0, NAMED),
          Math.max(0, changedBy.length - NAMED),
        ),
      ),
  );
}
