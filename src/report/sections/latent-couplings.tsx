import type { LatentClass } from "../../evaluation/document.ts";
import type { Report } from "../context.ts";
import type * as formats from "../formats.ts";
import { type Column, DataTable } from "../parts/table.tsx";
import { couplingTitle, medianOf, smallWithRange } from "../reference-names.ts";

interface Line {
  readonly name: string;
  readonly likelihood: Both | null;
  readonly bayesian: Both | null;
}
interface Both {
  readonly diseased: formats.Limits;
  readonly nondiseased: formats.Limits;
}

/** How far tests err together, where the model allows them to. */
export function LatentCouplings({ report, model }: { report: Report; model: LatentClass }) {
  const { latent: words, page } = report.words;
  const lines = linesOf(model);
  if (lines.length === 0 || model.dependence === "independent") return null;
  const { couplingColumns: columns } = words;
  const number = (of: formats.Limits | undefined) =>
    of === undefined ? "" : (smallWithRange(of) ?? page.notEstimable);
  const column = (by: "likelihood" | "bayesian", among: keyof Both): Column<Line> => ({
    head: `${columns[among]}, ${columns[by]}`,
    kind: "number",
    cell: (line) => number(line[by]?.[among]),
  });
  const by = (["likelihood", "bayesian"] as const).filter((way) => model[way] !== null);
  return (
    <DataTable
      report={report}
      caption={words.couplingsCaption(model.title)}
      columns={[
        { head: columns.between[model.dependence], heading: true, cell: ({ name }) => name },
        ...by.flatMap((way) => [column(way, "diseased"), column(way, "nondiseased")]),
      ]}
      groups={[{ rows: lines }]}
    />
  );
}

function linesOf(model: LatentClass): Line[] {
  const number = Math.max(model.likelihood?.couplings.length ?? 0, model.bayesian?.couplings.length ?? 0);
  return Array.from({ length: number }, (_, place) => {
    const likelihood = model.likelihood?.couplings[place];
    const bayesian = model.bayesian?.couplings[place];
    return {
      name: couplingTitle(model, place),
      likelihood:
        likelihood === undefined
          ? null
          : { diseased: likelihood.diseased.estimate, nondiseased: likelihood.nondiseased.estimate },
      bayesian:
        bayesian === undefined
          ? null
          : { diseased: medianOf(bayesian.diseased), nondiseased: medianOf(bayesian.nondiseased) },
    };
  });
}
