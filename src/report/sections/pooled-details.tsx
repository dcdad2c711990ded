import type { Estimate } from "../../core/estimate.ts";
import type { Pooled } from "../../evaluation/document.ts";
import { MEASURES, type MeasureName } from "../../evaluation/measures.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { cellTitle, termsOf, worded } from "../names.ts";
import { Chart } from "../parts/chart.tsx";
import { Notes } from "../parts/notes.tsx";
import { NumberInterval, PercentInterval, PercentLimits } from "../parts/numbers.tsx";
import { type Column, DataTable } from "../parts/table.tsx";
import { middleOf, nounOf, pInWords, pooledFigure, pooledGroupTitle } from "../pooled-names.ts";
import type { PooledProps } from "./across-sites.tsx";

/** What stands behind the middle: the spread, the summary plot, the middle without each group, people left out. */
export function PooledDetails({ report, pooled, explained }: PooledProps) {
  const { sites: words } = report.words;
  const noun = nounOf(report, pooled.by.stratum);
  return (
    <>
      <LevelsText report={report} pooled={pooled} />
      <LeftOutText report={report} pooled={pooled} />
      <details class="printed">
        <summary>{words.spreadTitle(noun)}</summary>
        <SpreadTable report={report} pooled={pooled} />
        <Notes report={report} notes={pooled.notes.filter(({ path }) => !SAID_ELSEWHERE.test(path))} />
      </details>
      <PlotPart report={report} pooled={pooled} explained={explained} />
      <WithoutPart report={report} pooled={pooled} explained={explained} />
    </>
  );
}

/** Approximations are not shown; what is said of single fits stands in their table. */
const SAID_ELSEWHERE = /\.approximate\.|^influence\.without|^bivariate\.shrunken|^bivariate\.hierarchical/;

function LevelsText({ report, pooled }: Pick<PooledProps, "report" | "pooled">) {
  const { covariate, bivariate } = pooled;
  const tested = bivariate?.covariate;
  if (covariate === null || tested == null) return null;
  const p = tested.both.p === null ? null : pInWords(tested.both.p);
  return <p>{report.words.sites.levels({ covariate: report.words.grammar.inline(covariate.title), p })}</p>;
}

function LeftOutText({ report, pooled }: Pick<PooledProps, "report" | "pooled">) {
  const { sites: words, reasons } = report.words;
  const sums = new Map<string, number>();
  for (const { label, reason, people } of pooled.leftOut) {
    const name = worded(reasons, reason);
    const where = label === null ? name : `${pooledGroupTitle(report, pooled, label)}: ${name}`;
    sums.set(where, (sums.get(where) ?? 0) + people);
  }
  if (sums.size === 0) return null;
  return <p class="how">{words.leftOut([...sums].map(([reason, people]) => ({ reason, people })))}</p>;
}

interface Line {
  readonly measure: MeasureName;
  readonly middle: ReturnType<typeof middleOf>;
}

function SpreadTable({ report, pooled }: Pick<PooledProps, "report" | "pooled">) {
  const { sites: words, grammar } = report.words;
  const heads = words.spreadColumns(nounOf(report, pooled.by.stratum));
  const terms = termsOf(report, pooled.analyte);
  const correlation = pooled.bivariate?.betweenStudies.correlation;
  const columns: Column<Line>[] = [
    { head: heads.measure, heading: true, cell: ({ measure }) => grammar.sentence(terms[measure]) },
    {
      head: heads.together,
      kind: "number",
      cell: ({ measure }) => <PercentInterval report={report} of={pooled.together[measure]} />,
    },
    {
      head: heads.middle,
      kind: "number",
      cell: ({ middle }) => <PercentInterval report={report} of={middle.summary} />,
    },
    {
      head: heads.elsewhere,
      kind: "number",
      cell: ({ middle }) => <PercentLimits report={report} of={middle.prediction} />,
    },
    {
      head: heads.spread,
      kind: "number",
      cell: ({ measure }) => (
        <NumberInterval report={report} of={spreadOf(pooled, measure)} format={formats.statistic} />
      ),
    },
    {
      head: heads.model,
      cell: ({ measure }) => {
        const model = pooled.preferred[measure];
        return model === null ? "" : words.models[model];
      },
    },
  ];
  return (
    <DataTable
      report={report}
      caption={words.spreadCaption(cellTitle(report, pooled))}
      columns={columns}
      groups={[{ rows: MEASURES.map((measure) => ({ measure, middle: middleOf(pooled, measure) })) }]}
      note={words.spreadHow(correlation?.value == null ? null : correlationText(report, correlation))}
    />
  );
}

function spreadOf({ preferred, bivariate, univariate }: Pooled, measure: MeasureName): Estimate {
  const none = { value: null, lower: null, upper: null };
  if (preferred[measure] === "bivariate") return bivariate?.betweenStudies[measure] ?? none;
  return univariate?.[measure].binomial.betweenSd ?? none;
}

function correlationText(report: Report, { value, lower, upper }: Estimate): string {
  const { sites: words } = report.words;
  const span =
    lower === null || upper === null ? null : words.span(formats.statistic(lower), formats.statistic(upper));
  return words.correlation(formats.statistic(value ?? 0), span);
}

type Group = Pooled["groups"][number] & { readonly drawnIn: Record<MeasureName, Estimate> | null };

function PlotPart({ report, pooled }: PooledProps) {
  const { sites: words, grammar } = report.words;
  const name = pooledFigure(pooled);
  if (!report.figures.has(name)) return null;
  const caption = words.plotCaption(cellTitle(report, pooled));
  const terms = termsOf(report, pooled.analyte);
  const rows = pooled.groups.map((group, at): Group => {
    const found = pooled.bivariate?.shrunken[at];
    return { ...group, drawnIn: found === undefined ? null : found };
  });
  const columns: Column<Group>[] = [
    {
      head: words.plotColumns.group,
      heading: true,
      cell: ({ label }) => pooledGroupTitle(report, pooled, label),
    },
    { head: words.plotColumns.people, kind: "number", cell: ({ people }) => formats.count(people) },
    ...MEASURES.flatMap((measure): Column<Group>[] => [
      {
        head: `${grammar.sentence(terms[measure])}, %`,
        kind: "number",
        cell: (group) => <PercentInterval report={report} of={group[measure]} />,
      },
      {
        head: words.plotColumns.drawnIn(terms[measure]),
        kind: "number",
        cell: ({ drawnIn }) =>
          drawnIn === null ? "" : <PercentInterval report={report} of={drawnIn[measure]} />,
      },
    ]),
  ];
  return (
    <details class="printed">
      <summary>{words.plotTitle}</summary>
      <Chart report={report} name={name} label={caption}>
        <DataTable
          report={report}
          caption={caption}
          columns={columns}
          groups={[{ rows }]}
          note={words.plotHow}
        />
      </Chart>
    </details>
  );
}

type Without = NonNullable<Pooled["influence"]>["without"][number];

function WithoutPart({ report, pooled, explained }: PooledProps) {
  const { sites: words, grammar } = report.words;
  const { influence } = pooled;
  if (influence === null || influence.whole.sensitivity.value === null) return null;
  const noun = nounOf(report, pooled.by.stratum);
  const heads = words.withoutColumns;
  const terms = termsOf(report, pooled.analyte);
  const rows = influence.without.toSorted((one, other) => (other.distance ?? -1) - (one.distance ?? -1));
  const changes = rows.some(({ changesVerdict }) => changesVerdict);
  const columns: Column<Without>[] = [
    {
      head: heads.group,
      heading: true,
      cell: ({ label }) =>
        label === "" ? <i>{words.withoutNobody}</i> : pooledGroupTitle(report, pooled, label),
    },
    ...MEASURES.map(
      (measure): Column<Without> => ({
        head: `${grammar.sentence(terms[measure])}, %`,
        kind: "number",
        cell: (row) => <PercentInterval report={report} of={row[measure]} />,
      }),
    ),
    {
      head: heads.moves,
      kind: "number",
      cell: ({ distance }) => (distance === null ? "" : formats.statistic(distance)),
    },
    ...(changes
      ? [
          {
            head: heads.verdict,
            cell: ({ changesVerdict }: Without) => (changesVerdict ? <b>{words.withoutChanges}</b> : ""),
          },
        ]
      : []),
  ];
  const farthest = influence.farthest === null ? null : pooledGroupTitle(report, pooled, influence.farthest);
  return (
    <details class="printed">
      <summary>{words.withoutTitle(noun)}</summary>
      <DataTable
        report={report}
        lead={words.withoutLead(farthest)}
        caption={words.withoutCaption(cellTitle(report, pooled))}
        columns={columns}
        groups={[{ rows: [wholeOf(influence)] }, { rows }]}
        {...(explained ? { note: words.withoutHow } : {})}
      />
    </details>
  );
}

/** The middle of all groups, as the first row. */
function wholeOf({ whole }: NonNullable<Pooled["influence"]>): Without {
  return {
    ...whole,
    label: "",
    changesVerdict: false,
    distance: null,
    spread: { sensitivity: null, specificity: null, correlation: null },
    residual: { sensitivity: null, specificity: null },
  };
}
