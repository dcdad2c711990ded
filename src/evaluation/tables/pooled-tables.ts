import type { Cell, Table } from "../csv.ts";
import type { Evaluation, Pooled } from "../document.ts";
import { MEASURES } from "../measures.ts";
import { CELL_COLUMNS, cellColumns, ESTIMATE_COLUMNS, estimateColumns } from "./columns.ts";

/** Groups pooled, where the study file asks for it. */
export function pooledTables({ pooled }: Evaluation): Table[] {
  return pooled.length === 0 ? [] : [groupsTable(pooled), modelsTable(pooled), criteriaTable(pooled)];
}

/** Each group: what was seen, and the same drawn towards the other groups. */
function groupsTable(cells: readonly Pooled[]): Table {
  const rows = cells.flatMap((cell) =>
    cell.groups.flatMap((group, place) =>
      MEASURES.map((measure): Cell[] => {
        const drawn = cell.bivariate?.shrunken[place]?.[measure];
        return [
          ...cellColumns(cell),
          cell.by.stratum,
          group.label,
          group.level,
          measure,
          ...estimateColumns(group[measure]),
          drawn?.value ?? null,
          drawn?.lower ?? null,
          drawn?.upper ?? null,
        ];
      }),
    ),
  );
  const columns = [
    ...CELL_COLUMNS,
    ...["by", "group", "level", "measure"],
    ...ESTIMATE_COLUMNS,
    ...["shrunken", "shrunken_lower", "shrunken_upper"],
  ];
  return { name: "pooled_groups", columns, rows };
}

/** Each measure over all groups: by simple sums, by both models, and what another group may see. */
function modelsTable(cells: readonly Pooled[]): Table {
  const rows = cells.flatMap((cell) =>
    MEASURES.flatMap((measure): Cell[][] => {
      const { bivariate, univariate, together, preferred } = cell;
      const head = (by: string): Cell[] => [...cellColumns(cell), cell.by.stratum, measure, by];
      const sums = [...head("sums"), null, ...estimateColumns(together[measure]), null, null, null, null];
      const found: Cell[][] = [sums];
      if (bivariate !== null) {
        const { lower, upper } = bivariate.prediction[measure];
        found.push([
          ...head("bivariate"),
          preferred[measure] === "bivariate",
          ...estimateColumns(bivariate.summary[measure].proportion),
          lower,
          upper,
          bivariate.betweenStudies[measure].value,
          null,
        ]);
      }
      if (univariate !== null) {
        const { binomial, equality } = univariate[measure];
        found.push([
          ...head("univariate"),
          preferred[measure] === "univariate",
          ...estimateColumns(binomial.profile),
          binomial.prediction.lower,
          binomial.prediction.upper,
          binomial.betweenSd.value,
          equality.p,
        ]);
      }
      return found;
    }),
  );
  const columns = [
    ...CELL_COLUMNS,
    ...["by", "measure", "model", "preferred"],
    ...ESTIMATE_COLUMNS,
    ...["predicted_lower", "predicted_upper", "between_sd", "equality_p"],
  ];
  return { name: "pooled", columns, rows };
}

function criteriaTable(cells: readonly Pooled[]): Table {
  const rows = cells.flatMap((cell) =>
    cell.criteria.map((judged): Cell[] => [
      ...cellColumns(cell),
      cell.by.stratum,
      judged.criterion,
      judged.measure,
      judged.threshold,
      judged.direction,
      judged.naive,
      judged.summary,
      judged.newGroup.verdict,
      judged.newGroup.chance,
      judged.by,
    ]),
  );
  const columns = [
    ...CELL_COLUMNS,
    ...["by", "criterion", "measure", "threshold", "direction", "naive", "summary", "new_group"],
    ...["chance_new_group_meets", "model"],
  ];
  return { name: "pooled_criteria", columns, rows };
}
