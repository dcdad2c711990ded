import type { Estimate } from "../../../core/estimate.ts";
import type { PooledFit } from "../../../evaluation/pool/document.ts";
import * as formats from "../../formats.ts";
import { PercentInterval } from "../../parts/numbers.tsx";
import { Section } from "../../parts/section.tsx";
import { type Column, DataTable } from "../../parts/table.tsx";
import type { PoolReport, PoolSectionProps } from "../context.ts";
import { MEASURES, measureName } from "../names.ts";

const NONE: Estimate = { value: null, lower: null, upper: null };

/** One model: both measures, how much studies differ. */
interface Model {
  readonly name: string;
  readonly sensitivity: Estimate;
  readonly specificity: Estimate;
  readonly sdSensitivity: number | null;
  readonly sdSpecificity: number | null;
  readonly correlation: number | null;
}

/** The same studies by other models, side by side, folded. */
export function Models({ report }: PoolSectionProps) {
  const { models: words } = report.words.pool;
  return (
    <Section report={report} id="models">
      <p>{words.lead}</p>
      <details class="printed">
        <summary>{words.foldedTitle}</summary>
        <DataTable
          report={report}
          caption={words.caption}
          columns={columnsOf(report)}
          groups={[{ rows: modelsOf(report) }]}
          note={inconsistency(report)}
        />
      </details>
    </Section>
  );
}

function modelsOf(report: PoolReport): Model[] {
  const { names } = report.words.pool.models;
  const { bivariate, approximations, univariate } = report.pooling;
  return [
    fitted(names.binomial, bivariate),
    eachAlone(names.alone, (measure) => {
      const { proportion, betweenSd } = univariate[measure].values.binomial;
      return [proportion, betweenSd.value];
    }),
    ...approximations.map((fit) => fitted(nameOf(report, fit), fit)),
    eachAlone(names.dersimonianLaird, (measure) => {
      const model = univariate[measure].values.approximate?.models.dersimonianLaird;
      return [model?.natural.summary ?? NONE, model?.betweenSd ?? null];
    }),
    eachAlone(names.common, (measure) => [univariate[measure].values.common.proportion, null]),
  ];
}

function nameOf(report: PoolReport, { input }: PooledFit): string {
  return report.words.pool.models.names[input.likelihood.kind];
}

function fitted(name: string, { values }: PooledFit): Model {
  const { summary, betweenStudies } = values;
  return {
    name,
    sensitivity: summary.sensitivity.proportion,
    specificity: summary.specificity.proportion,
    sdSensitivity: betweenStudies.sensitivity.value,
    sdSpecificity: betweenStudies.specificity.value,
    correlation: betweenStudies.correlation.value,
  };
}

function eachAlone(
  name: string,
  of: (measure: (typeof MEASURES)[number]) => readonly [Estimate, number | null],
): Model {
  const [sensitivity, sdSensitivity] = of("sensitivity");
  const [specificity, sdSpecificity] = of("specificity");
  return { name, sensitivity, specificity, sdSensitivity, sdSpecificity, correlation: null };
}

function columnsOf(report: PoolReport): Column<Model>[] {
  const { columns } = report.words.pool.models;
  const number = (head: string, of: (model: Model) => number | null): Column<Model> => ({
    head,
    kind: "number",
    cell: (model) => {
      const value = of(model);
      return value === null ? "" : formats.statistic(value);
    },
  });
  return [
    { head: columns.model, heading: true, cell: ({ name }) => name },
    {
      head: columns.sensitivity,
      kind: "number",
      cell: ({ sensitivity }) => <PercentInterval report={report} of={sensitivity} />,
    },
    {
      head: columns.specificity,
      kind: "number",
      cell: ({ specificity }) => <PercentInterval report={report} of={specificity} />,
    },
    number(columns.sdSensitivity, ({ sdSensitivity }) => sdSensitivity),
    number(columns.sdSpecificity, ({ sdSpecificity }) => sdSpecificity),
    number(columns.correlation, ({ correlation }) => correlation),
  ];
}

function inconsistency(report: PoolReport): string {
  const { models: words } = report.words.pool;
  const parts = MEASURES.flatMap((measure) => {
    const share = report.pooling.univariate[measure].values.approximate?.heterogeneity.iSquared;
    if (share === null || share === undefined) return [];
    return [words.inconsistencyPart(measureName(report, measure), formats.percentSigned(share, 0))];
  });
  return parts.length === 0 ? "" : words.inconsistency(parts);
}
