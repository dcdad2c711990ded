import { runDevices } from "./devices.ts";
import { drawsOf } from "./draws.ts";
import { type Laboratory, runLaboratory } from "./laboratory.ts";
import { OPERATORS } from "./operators.ts";
import { enrolPeople } from "./people.ts";
import { readDevices } from "./readings.ts";
import { OPERATOR_DEVIATION, type Plan, SITE_DEVIATION, SITES } from "./scenario.ts";
import { makeVisits } from "./visits.ts";
import type { ByLine, Effects, World } from "./world.ts";

export interface Simulation {
  readonly seed: number;
  readonly plan: Plan;
  /** Only the first reader's lines: no second or optical reader, no typing, no laboratory. */
  readonly light?: boolean;
}

/**
 * The invented world of one seed: people, visits, devices, readings, reference results. Each stage
 * draws from a stream of its own, so that a light world has the same first readings as a full one.
 */
export function simulate({ seed, plan, light = false }: Simulation): World {
  const effects = drawEffects(seed);
  const people = enrolPeople(seed, plan);
  const visits = makeVisits(seed, people, plan.secondVisits);
  const devices = runDevices(seed, visits, plan.linesWithoutControl);
  const { readings, typed } = readDevices(seed, devices, effects, light);
  const laboratory = light ? NO_LABORATORY : runLaboratory(seed, visits, readings, plan);
  return { effects, people, visits, devices, readings, typed, ...laboratory };
}

const NO_LABORATORY: Laboratory = { runs: [], reference: new Map(), withoutReference: new Map() };

function drawEffects(seed: number): Effects {
  const draws = drawsOf(seed, "effects");
  const shift = (deviation: ByLine<number>): ByLine<number> => {
    const standard = draws.normal(0, 1);
    return { T1: standard * deviation.T1, T2: standard * deviation.T2 };
  };
  return {
    site: Object.fromEntries(SITES.map(({ id }) => [id, shift(SITE_DEVIATION)])) as Effects["site"],
    operator: new Map(OPERATORS.map(({ id }) => [id, shift(OPERATOR_DEVIATION)])),
  };
}
