import { randomBeta, randomGamma } from "d3-random";
import { randomStream } from "../../core/random.ts";
import { isBlind, PARTS, uses } from "./completed.ts";
import { type Cell, MEASURES, type Measure, peopleIn } from "./fields.ts";

const JEFFREYS = 0.5;

/**
 * Draws of every measure from the posterior of the completed table: how people spread over the cells, and the
 * share of diseased in each cell, with Jeffreys priors. A measure that needs a cell without verified people
 * has no draws. Draw number r has the random stream (seed, r) to itself.
 *
 * @param cells cells with people; those without say nothing and are passed over
 */
export function drawnMeasures(
  cells: readonly Cell[],
  draws: number,
  seed: number,
): Partial<Record<Measure, Float64Array>> {
  const filled = cells.filter((cell) => peopleIn(cell) > 0);
  const measures = MEASURES.filter((measure) => isDrawn(filled, measure));
  const found = Object.fromEntries(measures.map((measure) => [measure, new Float64Array(draws)]));
  for (let draw = 0; draw < draws; draw += 1) {
    const random = randomStream(seed, draw);
    const gamma = randomGamma.source(random);
    const beta = randomBeta.source(random);
    const drawn = filled.map((cell) => {
      const people = gamma(peopleIn(cell) + JEFFREYS)();
      const share = beta(cell.diseased + JEFFREYS, cell.nondiseased + JEFFREYS)();
      return { diseased: people * share, nondiseased: people * (1 - share) };
    });
    for (const measure of measures) {
      const { top, rest } = PARTS[measure];
      let above = 0;
      let below = 0;
      for (const [at, { result }] of filled.entries()) {
        const [up, down] = [top[result], rest[result]];
        if (up !== undefined) above += drawn[at]?.[up] ?? 0;
        if (down !== undefined) below += drawn[at]?.[down] ?? 0;
      }
      (found[measure] as Float64Array)[draw] = above / (above + below);
    }
  }
  return found;
}

/** Every result that the measure uses was seen, and somebody of every cell that it uses was verified. */
function isDrawn(filled: readonly Cell[], measure: Measure): boolean {
  const used = filled.filter(({ result }) => uses(measure, result));
  return used.length > 0 && !used.some(isBlind);
}
