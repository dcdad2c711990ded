import type { Matrix } from "./weights.ts";

/** Costs closer than this are the same: without it, rounding could send items round in circles. */
const SAME = 1e-12;

interface Plan {
  readonly left: number[];
  readonly wanted: number[];
  readonly moved: number[][];
  readonly costs: Matrix;
}

interface Route {
  readonly steps: readonly { readonly row: number; readonly column: number; readonly back: boolean }[];
  readonly amount: number;
}

/**
 * The largest weighted agreement that two readers could reach who use each category as often as these
 * did: the best of all tables with the given row and column totals.
 *
 * Items are moved from rows to columns along the cheapest route left (a cost is 1 - weight), undoing
 * earlier moves where that pays, until all are placed: the transport problem, solved exactly.
 *
 * @param rows, columns totals of the table, with equal sums
 * @param weights agreement weights, 0..1
 * @returns sum of weight times count over the best table: at most the number of items
 */
export function largestAgreement(
  rows: readonly number[],
  columns: readonly number[],
  weights: Matrix,
): number {
  const plan: Plan = {
    left: [...rows],
    wanted: [...columns],
    moved: rows.map(() => columns.map(() => 0)),
    costs: weights.map((row) => row.map((weight) => 1 - weight)),
  };
  for (let route = cheapestRoute(plan); route !== null; route = cheapestRoute(plan)) follow(plan, route);
  return plan.moved.reduce(
    (total, row, index) =>
      total + row.reduce((inner, count, column) => inner + count * (weights[index]?.[column] ?? 0), 0),
    0,
  );
}

function follow({ left, wanted, moved }: Plan, { steps, amount }: Route): void {
  for (const { row, column, back } of steps) {
    (moved[row] as number[])[column] = (moved[row]?.[column] ?? 0) + (back ? -amount : amount);
  }
  const start = steps[0]?.row ?? 0;
  const end = steps.at(-1)?.column ?? 0;
  left[start] = (left[start] ?? 0) - amount;
  wanted[end] = (wanted[end] ?? 0) - amount;
}

/** Bellman and Ford: rows to columns at a cost, columns back to rows they were served from at a gain. */
function cheapestRoute(plan: Plan): Route | null {
  const { left, wanted } = plan;
  const rowCost = left.map((count) => (count > 0 ? 0 : Number.POSITIVE_INFINITY));
  const columnCost = wanted.map(() => Number.POSITIVE_INFINITY);
  const rowFrom = left.map(() => -1);
  const columnFrom = wanted.map(() => -1);
  while (relax(plan, rowCost, columnCost, rowFrom, columnFrom));
  let end = -1;
  columnCost.forEach((cost, column) => {
    if ((wanted[column] ?? 0) > 0 && cost < (columnCost[end] ?? Number.POSITIVE_INFINITY)) end = column;
  });
  return end < 0 ? null : routeTo(plan, end, rowFrom, columnFrom);
}

function relax(
  { moved, costs }: Plan,
  rowCost: number[],
  columnCost: number[],
  rowFrom: number[],
  columnFrom: number[],
): boolean {
  let changed = false;
  costs.forEach((line, row) => {
    line.forEach((cost, column) => {
      if ((rowCost[row] ?? 0) + cost < (columnCost[column] ?? 0) - SAME) {
        columnCost[column] = (rowCost[row] ?? 0) + cost;
        columnFrom[column] = row;
        changed = true;
      }
      if ((moved[row]?.[column] ?? 0) > 0 && (columnCost[column] ?? 0) - cost < (rowCost[row] ?? 0) - SAME) {
        rowCost[row] = (columnCost[column] ?? 0) - cost;
        rowFrom[row] = column;
        changed = true;
      }
    });
  });
  return changed;
}

function routeTo(plan: Plan, end: number, rowFrom: readonly number[], columnFrom: readonly number[]): Route {
  const steps: { row: number; column: number; back: boolean }[] = [];
  let amount = plan.wanted[end] ?? 0;
  let column = end;
  for (;;) {
    const row = columnFrom[column] as number;
    steps.unshift({ row, column, back: false });
    const before = rowFrom[row] as number;
    if (before < 0) return { steps, amount: Math.min(amount, plan.left[row] ?? 0) };
    steps.unshift({ row, column: before, back: true });
    amount = Math.min(amount, plan.moved[row]?.[before] ?? 0);
    column = before;
  }
}
