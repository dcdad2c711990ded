import type { Estimate } from "../../../core/estimate.ts";
import { PairedForest, type PairedGroup, type PairedSummary } from "../../figures/paired-forest.tsx";
import * as formats from "../../formats.ts";
import { Drawing } from "../../parts/drawing.tsx";
import { Section } from "../../parts/section.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { MEASURES, measureName, pInWords, spanOf, toldOf } from "../names.ts";

/** Every study with both measures as strips, by kind; the summaries below. */
export function Studies({ report }: PoolSectionProps) {
  const { studiesPart: words } = report.words.pool;
  const { pooling } = report;
  const asked = (measure: (typeof MEASURES)[number]) =>
    pooling.answer.criteria.find((criterion) => criterion.measure === measure)?.atLeast;
  return (
    <Section report={report} id="studies">
      <p>
        {words.lead} {alike(report)}
      </p>
      <Drawing label={words.caption}>
        <PairedForest
          caption={words.caption}
          study={words.study}
          titles={words.titles}
          groups={groupsOf(report)}
          summary={overall(report)}
          criterion={{ sensitivity: asked("sensitivity"), specificity: asked("specificity") }}
          inWords={(summary, prediction) => inWords(report, summary, prediction)}
          howToRead={words.howToRead(
            pooling.answer.basis !== null,
            pooling.answer.levels.length > 0,
            pooling.answer.criteria.length > 0,
          )}
        />
      </Drawing>
      <p>
        {words.together(
          MEASURES.map((measure) => {
            const { value, span } = toldOf(report, pooling.answer[measure].together);
            return words.share(measureName(report, measure), span === null ? value : `${value} (${span})`);
          }),
        )}
      </p>
    </Section>
  );
}

/** Could all studies have one true value? */
function alike(report: PoolReport): string {
  const { studiesPart: words } = report.words.pool;
  const parts = MEASURES.flatMap((measure) => {
    const p = report.pooling.answer[measure].alikeP;
    return p === null ? [] : [words.alike(measureName(report, measure), pInWords(p))];
  });
  return parts.length === 0 ? "" : words.alikeLead(report.words.grammar.listed(parts));
}

function groupsOf(report: PoolReport): PairedGroup[] {
  const { studies, answer } = report.pooling;
  const { studiesPart: words } = report.words.pool;
  const rowsOf = (kind: string | null, all: boolean) =>
    studies
      .filter(({ level }) => all || level === kind)
      .map(({ study, sensitivity, specificity }) => ({ label: study, sensitivity, specificity }));
  if (answer.levels.length === 0) return [{ title: null, rows: rowsOf(null, true), summary: null }];
  const known = answer.levels.map((level) => ({
    title: level.level,
    rows: rowsOf(level.level, false),
    summary: {
      label: words.summaryOf(level.level),
      sensitivity: level.sensitivity,
      specificity: level.specificity,
    },
  }));
  const others = rowsOf(null, false);
  return others.length === 0 ? known : [...known, { title: words.noKind, rows: others, summary: null }];
}

function overall(report: PoolReport): PairedSummary | null {
  const { answer } = report.pooling;
  if (answer.basis === null) return null;
  return {
    label: report.words.pool.studiesPart.summary,
    sensitivity: answer.sensitivity,
    specificity: answer.specificity,
  };
}

function inWords(report: PoolReport, summary: Estimate, prediction: Estimate): string {
  const { strip } = report.words.pool.answer;
  if (summary.value === null) return strip.missing;
  const place = spanOf(report, prediction);
  const middle = strip.estimate(formats.percentWithRange(summary) ?? "");
  return place === null ? middle : `${middle}, ${strip.prediction(place)}`;
}
