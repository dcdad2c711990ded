import type { Estimate } from "../../core/estimate.ts";
import type { Pooled } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import { figureWords } from "../figure-words.ts";
import { PairedForest, type PairedGroup, type PairedSummary } from "../figures/paired-forest.tsx";
import * as formats from "../formats.ts";
import { cellTitle, termsOf } from "../names.ts";
import { Drawing } from "../parts/drawing.tsx";
import { middleOf, nounOf, pooledGroupTitle, spanOf } from "../pooled-names.ts";
import type { PooledProps } from "./across-sites.tsx";

/** Every group with both measures as strips, by kind where there are kinds; the middle of all in the last row. */
export function PooledForest({ report, pooled }: PooledProps) {
  const { sites: words } = report.words;
  if (pooled.groups.length === 0) return null;
  const noun = nounOf(report, pooled.by.stratum);
  const caption = words.forestCaption(cellTitle(report, pooled), noun);
  const terms = termsOf(report, pooled.analyte);
  const asked = (measure: Pooled["criteria"][number]["measure"]) =>
    pooled.criteria.find((one) => one.measure === measure)?.threshold;
  return (
    <Drawing label={caption}>
      <PairedForest
        caption={caption}
        study={pooled.by.title}
        titles={{
          sensitivity: words.percentHead(terms.sensitivity),
          specificity: words.percentHead(terms.specificity),
        }}
        groups={groupsOf(report, pooled)}
        summary={overall(report, pooled)}
        criterion={{ sensitivity: asked("sensitivity"), specificity: asked("specificity") }}
        inWords={(middle, elsewhere) =>
          words.inWords(formats.percentWithRange(middle) ?? "", spanOf(report, elsewhere), noun)
        }
        howToRead={words.forestHow(noun, pooled.criteria.length > 0)}
        words={figureWords(report, pooled.analyte)}
      />
    </Drawing>
  );
}

function overall(report: Report, pooled: Pooled): PairedSummary | null {
  const [sensitivity, specificity] = [middleOf(pooled, "sensitivity"), middleOf(pooled, "specificity")];
  if (sensitivity.summary.value === null && specificity.summary.value === null) return null;
  const label = report.words.sites.middleOf(nounOf(report, pooled.by.stratum));
  return { label, sensitivity, specificity };
}

const UNKNOWN: Estimate = { value: null, lower: null, upper: null };

function groupsOf(report: Report, pooled: Pooled): PairedGroup[] {
  const { sites: words } = report.words;
  const rowsOf = (level: string | null) =>
    pooled.groups
      .filter((group) => pooled.covariate === null || group.level === level)
      .map(({ label, sensitivity, specificity }) => ({
        label: pooledGroupTitle(report, pooled, label),
        sensitivity,
        specificity,
      }));
  if (pooled.covariate === null) return [{ title: null, rows: rowsOf(null), summary: null }];
  const levels = [...new Set(pooled.groups.map(({ level }) => level))];
  return levels.map((level) => {
    const found = pooled.bivariate?.covariate?.levels.find(({ label }) => label === level);
    const middle = (of: { readonly proportion: Estimate }) => ({
      summary: of.proportion,
      prediction: UNKNOWN,
    });
    return {
      title: level ?? words.noLevel,
      rows: rowsOf(level),
      summary:
        found === undefined || found.sensitivity.proportion.value === null
          ? null
          : {
              label: words.middleOfLevel(found.label),
              sensitivity: middle(found.sensitivity),
              specificity: middle(found.specificity),
            },
    };
  });
}
