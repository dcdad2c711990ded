import { randomNormal } from "d3-random";
import { randomStream } from "../../../src/core/random.ts";
import type { Kit, Step } from "../../../src/methods/algorithms/model.ts";

/** Draws the valid results of one person: told the kit, says whether the next run of it is reactive. */
export type PersonResults = (kit: string) => boolean;

interface Ended {
  readonly status: string;
  readonly devices: Readonly<Record<string, number>>;
}

/**
 * Simulated people, device by device, with nothing of the project's but its random numbers.
 *
 * @param person called once for each person, for the results of one and the same person in both passes
 */
export function byPeople(
  algorithm: { kits: readonly Kit[]; steps: readonly Step[]; retest: { share: number } | null },
  person: (uniform: () => number, normal: () => number) => PersonResults,
  people: number,
  seed: number,
) {
  const uniform = randomStream(seed);
  const normal = randomNormal.source(uniform)();
  const ends: Record<string, number> = { positive: 0, negative: 0, inconclusive: 0, lost: 0 };
  const devices = Object.fromEntries(algorithm.kits.map(({ id }) => [id, { sum: 0, squares: 0 }]));
  for (let at = 0; at < people; at += 1) {
    const end = onePerson(algorithm, person(uniform, normal), uniform);
    ends[end.status] = (ends[end.status] ?? 0) + 1;
    for (const [kit, used] of Object.entries(end.devices)) {
      const sums = devices[kit] as { sum: number; squares: number };
      sums.sum += used;
      sums.squares += used ** 2;
    }
  }
  const means = Object.fromEntries(
    Object.entries(devices).map(([kit, { sum, squares }]) => {
      const mean = sum / people;
      return [kit, { mean, error: Math.sqrt(Math.max(0, squares / people - mean ** 2) / people) }];
    }),
  );
  return { ends, means };
}

function onePerson(
  { kits, steps, retest }: Parameters<typeof byPeople>[0],
  results: PersonResults,
  uniform: () => number,
): Ended {
  const devices: Record<string, number> = {};
  const pass = () => {
    let next = steps[0]?.id ?? "";
    for (;;) {
      const step = steps.find(({ id }) => id === next);
      if (step === undefined) return next;
      const kit = kits.find(({ id }) => id === step.kit) as Kit;
      let valid = false;
      for (let device = 0; device <= step.again && !valid; device += 1) {
        devices[kit.id] = (devices[kit.id] ?? 0) + 1;
        valid = uniform() >= kit.invalid;
      }
      if (!valid) next = step.invalid;
      else next = results(kit.id) ? step.reactive : step.nonreactive;
    }
  };
  const first = pass();
  if (first !== "inconclusive" || retest === null) return { status: first, devices };
  if (uniform() >= retest.share) return { status: "lost", devices };
  return { status: pass(), devices };
}
