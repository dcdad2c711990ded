import type { Joint, RunResult } from "./dependence.ts";
import type { Kit, Retest, Status, Step } from "./model.ts";
import type { Path } from "./paths.ts";

/** An algorithm laid out path by path. */
export interface PathPlan {
  readonly kits: readonly Kit[];
  readonly steps: readonly Step[];
  readonly retest: Retest;
  readonly paths: readonly Path[];
}

/** What becomes of people of one truth. Probabilities; positive + negative + inconclusive + lost = 1. */
export interface TruthOutcome extends Readonly<Record<Status, number>> {
  readonly lost: number;
  /** Of each path in the first pass, in the order of the plan's paths. */
  readonly first: readonly number[];
  /** Of returning and then taking each path; `null` where nobody is asked to return. */
  readonly second: readonly number[] | null;
  /** Of returning. */
  readonly returned: number;
  /** By step: coming to it in the first pass, and the mean number of devices there in both passes. */
  readonly reached: readonly number[];
  readonly runsAtStep: readonly number[];
  /** By kit: probabilities of 0, 1, 2, … devices for one person, both passes. */
  readonly devices: readonly (readonly number[])[];
}

/** The valid runs of a path: an invalid one says nothing of the others. */
export function validRuns(path: Path): RunResult[] {
  return path.parts.flatMap(({ kit, result }) =>
    result === "invalid" ? [] : [{ kit, reactive: result === "reactive" }],
  );
}

/**
 * Adds up an algorithm's paths among people of one truth. Exact, but for what the joint probabilities are.
 *
 * A step is invalid with the kit's share of invalid runs to the power of its repeats plus one, whatever else
 * happens; the valid results of a path have their joint probability. In the second pass the valid runs of
 * both passes are taken together: it is the same person.
 *
 * @param joint probability of valid results among people of this truth
 */
export function followPaths(plan: PathPlan, joint: Joint): TruthOutcome {
  const { paths, steps, retest } = plan;
  const runs = paths.map(validRuns);
  const validity = paths.map((path) => validityOf(path, plan));
  const first = paths.map((_, at) => (validity[at] as number) * joint(runs[at] as RunResult[]));
  const used = paths.map((path) => devicesOf(path, plan));
  const ends = { positive: 0, negative: 0, inconclusive: 0, lost: 0 };
  const second = retest === null ? null : paths.map(() => 0);
  const devices = plan.kits.map(() => [0]);
  paths.forEach(({ status }, at) => {
    const here = first[at] as number;
    const share = status === "inconclusive" && retest !== null ? retest.share : 0;
    const stays = status === "inconclusive" && retest !== null ? "lost" : status;
    ends[stays] += here * (1 - share);
    const mine = used[at] as number[][];
    mine.forEach((one, kit) => {
      addTo(devices[kit] as number[], one, here * (1 - share));
    });
    if (second === null || share === 0) return;
    const before = runs[at] as RunResult[];
    const again = paths.map(
      (_, then) =>
        share *
        (validity[at] as number) *
        (validity[then] as number) *
        joint([...before, ...(runs[then] as RunResult[])]),
    );
    const later = plan.kits.map(() => [0]);
    paths.forEach((path, then) => {
      const both = again[then] as number;
      second[then] = (second[then] as number) + both;
      ends[path.status] += both;
      (used[then] as number[][]).forEach((one, kit) => {
        addTo(later[kit] as number[], one, both);
      });
    });
    later.forEach((one, kit) => {
      addTo(devices[kit] as number[], convolved(mine[kit] as number[], one), 1);
    });
  });
  const reached = reachedOf(plan, first);
  const twice = second === null ? null : reachedOf(plan, second);
  const runsAtStep = steps.map(
    (step, at) => ((reached[at] as number) + (twice?.[at] ?? 0)) * meanDevices(step, kitOf(plan, step)),
  );
  const returned = (second ?? []).reduce((sum, part) => sum + part, 0);
  return { ...ends, first, second, returned, reached, runsAtStep, devices };
}

function kitOf(plan: PathPlan, step: Step): Kit {
  return plan.kits.find(({ id }) => id === step.kit) as Kit;
}

/** Probability that the steps of a path are valid, or not, as the path has them. */
function validityOf(path: Path, { steps, kits }: PathPlan): number {
  return path.parts.reduce((product, { step, kit, result }) => {
    const none = (kits[kit] as Kit).invalid ** ((steps[step] as Step).again + 1);
    return product * (result === "invalid" ? none : 1 - none);
  }, 1);
}

/** By kit: probabilities of 0, 1, 2, … devices for a person on this path. */
function devicesOf(path: Path, { steps, kits }: PathPlan): number[][] {
  const devices: number[][] = kits.map(() => [1]);
  for (const { step, kit, result } of path.parts) {
    const { invalid } = kits[kit] as Kit;
    const { again } = steps[step] as Step;
    const most = again + 1;
    const here = Array.from({ length: most + 1 }, (_, used) => {
      if (result === "invalid") return used === most ? 1 : 0;
      return used === 0 ? 0 : (invalid ** (used - 1) * (1 - invalid)) / (1 - invalid ** most);
    });
    devices[kit] = convolved(devices[kit] as number[], here);
  }
  return devices;
}

/** Mean devices used at a step by those who come to it: the first, and each repeat if all before were invalid. */
function meanDevices({ again }: Step, { invalid }: Kit): number {
  let [mean, needed] = [0, 1];
  for (let device = 0; device <= again; device += 1) {
    mean += needed;
    needed *= invalid;
  }
  return mean;
}

function reachedOf({ paths, steps }: PathPlan, probabilities: readonly number[]): number[] {
  const reached = steps.map(() => 0);
  paths.forEach(({ parts }, at) => {
    for (const { step } of parts) {
      reached[step] = (reached[step] as number) + (probabilities[at] as number);
    }
  });
  return reached;
}

function convolved(one: readonly number[], other: readonly number[]): number[] {
  const sums = new Array<number>(one.length + other.length - 1).fill(0);
  one.forEach((here, at) => {
    other.forEach((there, by) => {
      sums[at + by] = (sums[at + by] as number) + here * there;
    });
  });
  return sums;
}

function addTo(sums: number[], parts: readonly number[], weight: number) {
  parts.forEach((part, at) => {
    sums[at] = (sums[at] ?? 0) + weight * part;
  });
}
