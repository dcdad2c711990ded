import type { LatentData, LatentGroup } from "./latent-data.ts";
import { fromLogit, type LatentLayout } from "./latent-layout.ts";
import { type ClassTable, classTables } from "./latent-tables.ts";

/** P(results | class) of one pattern that may lack tests: the complete patterns added up. */
export function summed(cells: Float64Array, complete: Int32Array): number {
  let sum = 0;
  for (let k = 0; k < complete.length; k += 1) sum += cells[complete[k] as number] as number;
  return sum;
}

/** The log-likelihood (without the multinomial constant) and its slope by every unknown. */
export function latentLikelihood(
  theta: Float64Array,
  data: LatentData,
  layout: LatentLayout,
): { logLikelihood: number; gradient: Float64Array } {
  const tables = classTables(theta, data, layout);
  const gradient = new Float64Array(layout.size);
  const weights = tables.map(({ cells }) => new Float64Array(cells.length));
  let logLikelihood = 0;
  for (const { population, cells } of data.groups) {
    const place = layout.prevalence(population);
    const present = fromLogit(theta[place] as number);
    const absent = fromLogit(-(theta[place] as number));
    for (const { people, complete } of cells) {
      if (people === 0) continue;
      const diseased = summed(tables[0].cells, complete);
      const nondiseased = summed(tables[1].cells, complete);
      const probability = present * diseased + absent * nondiseased;
      if (!(probability > 0)) return { logLikelihood: Number.NEGATIVE_INFINITY, gradient };
      logLikelihood += people * Math.log(probability);
      const each = people / probability;
      gradient[place] = (gradient[place] as number) + each * present * absent * (diseased - nondiseased);
      for (let k = 0; k < complete.length; k += 1) {
        const x = complete[k] as number;
        addTo(weights[0] as Float64Array, x, each * present);
        addTo(weights[1] as Float64Array, x, each * absent);
      }
    }
  }
  tables.forEach(({ slopes }, condition) => {
    for (const { place, by } of slopes) {
      gradient[place] = (gradient[place] as number) + inner(by, weights[condition] as Float64Array);
    }
  });
  return { logLikelihood, gradient };
}

/** The slope of P(pattern) by every unknown, over sqrt(P): rows whose squares add up to the information. */
export function informationRows(theta: Float64Array, data: LatentData, layout: LatentLayout): Float64Array[] {
  const tables = classTables(theta, data, layout);
  return data.groups.flatMap((group) => rowsOf(group, theta, layout, tables));
}

function rowsOf(
  { population, people, cells }: LatentGroup,
  theta: Float64Array,
  layout: LatentLayout,
  tables: readonly [ClassTable, ClassTable],
): Float64Array[] {
  const place = layout.prevalence(population);
  const present = fromLogit(theta[place] as number);
  const absent = fromLogit(-(theta[place] as number));
  return cells.map(({ complete }) => {
    const row = new Float64Array(layout.size);
    const [diseased, nondiseased] = [summed(tables[0].cells, complete), summed(tables[1].cells, complete)];
    const probability = present * diseased + absent * nondiseased;
    if (!(probability > 0)) return row;
    const scale = Math.sqrt(people / probability);
    row[place] = scale * present * absent * (diseased - nondiseased);
    tables.forEach(({ slopes }, condition) => {
      const share = condition === 0 ? present : absent;
      for (const { place: unknown, by } of slopes) row[unknown] = scale * share * summed(by, complete);
    });
    return row;
  });
}

function addTo(values: Float64Array, place: number, more: number): void {
  values[place] = (values[place] as number) + more;
}

function inner(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k += 1) sum += (a[k] as number) * (b[k] as number);
  return sum;
}
