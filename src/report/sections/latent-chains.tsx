import type { LatentClass } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { Chart } from "../parts/chart.tsx";
import { DataTable } from "../parts/table.tsx";
import { modelFigure, rHatText, slowest, type Unknown, unknownsOf } from "../reference-names.ts";

/** How well the chains agree: folded, and left out of print; the sentence above says what it comes to. */
export function LatentChains({ report, model }: { report: Report; model: LatentClass }) {
  const { latent: words, grammar } = report.words;
  const { bayesian } = model;
  if (bayesian === null) return null;
  const unknowns = unknownsOf(report, model);
  const { chainColumns: columns } = words;
  const whole = (value: number | null) => (value === null ? "" : formats.count(Math.round(value)));
  return (
    <details class="aside">
      <summary>{words.chainsFolded}</summary>
      <DataTable
        report={report}
        caption={words.chainsCaption(model.title)}
        lead={words.drawn(
          bayesian.search.chains ?? 0,
          bayesian.search.draws ?? 0,
          bayesian.search.warmup ?? 0,
        )}
        columns={[
          { head: columns.quantity, heading: true, cell: ({ title }) => grammar.sentence(title) },
          { head: columns.rHat, kind: "number", cell: ({ posterior }) => rHatText(posterior.rHat) },
          { head: columns.bulk, kind: "number", cell: ({ posterior }) => whole(posterior.bulkEffective) },
          { head: columns.tail, kind: "number", cell: ({ posterior }) => whole(posterior.tailEffective) },
          { head: columns.error, kind: "number", cell: errorText },
        ]}
        groups={[{ rows: unknowns }]}
        note={words.chainHow}
      />
      <ChainChart report={report} model={model} kind="traces" rows={slowest(unknowns)} />
      <ChainChart report={report} model={model} kind="ranks" rows={unknowns} />
    </details>
  );
}

/** The error of the mean from drawing: hundredths, as the shares are; two significant digits. */
function errorText({ posterior }: Unknown): string {
  const { monteCarloError: error } = posterior;
  return error === null ? "" : formats.significantPercent(error);
}

interface ChartProps {
  readonly report: Report;
  readonly model: LatentClass;
  readonly kind: "traces" | "ranks";
  readonly rows: readonly Unknown[];
}

function ChainChart({ report, model, kind, rows }: ChartProps) {
  const { latent: words, grammar } = report.words;
  const caption = words[kind](model.title);
  const columns = words[kind === "traces" ? "traceColumns" : "rankColumns"];
  const figure = modelFigure(kind, model);
  if (!report.figures.has(figure)) return null;
  const chains = Math.max(0, ...rows.map(({ posterior }) => posterior.trace.length));
  return (
    <>
      <p class="lead">{kind === "traces" ? words.tracesHow(rows.length) : words.ranksHow}</p>
      <Chart report={report} name={figure} label={caption}>
        <DataTable
          report={report}
          caption={caption}
          columns={[
            { head: columns.quantity, heading: true, cell: ({ title }) => grammar.sentence(title) },
            ...Array.from({ length: chains }, (_, chain) => ({
              head: columns.chain(chain + 1),
              kind: "number" as const,
              cell: (one: Unknown) =>
                kind === "traces" ? middleText(one, chain) : spreadText(report, one, chain),
            })),
          ]}
          groups={[{ rows }]}
        />
      </Chart>
    </>
  );
}

/** The median of a chain's thinned draws. */
function middleText({ posterior, kind }: Unknown, chain: number): string {
  const sorted = [...(posterior.trace[chain] ?? [])].sort((one, other) => one - other);
  const middle = sorted[Math.floor(sorted.length / 2)];
  if (middle === undefined) return "";
  if (kind === "number") return formats.fixed(middle, 4);
  return formats.percentSigned(middle, formats.percentDecimals({ value: middle, lower: null, upper: null }));
}

/** Fewest and most draws in a twentieth. */
function spreadText(report: Report, { posterior }: Unknown, chain: number): string {
  const bins = posterior.ranks[chain] ?? [];
  if (bins.length === 0) return "";
  return report.words.latent.rankCell(formats.count(Math.min(...bins)), formats.count(Math.max(...bins)));
}
