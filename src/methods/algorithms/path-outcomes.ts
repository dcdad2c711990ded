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
  /** Of returning and then taking each path; all 0 where nobody is asked to return. */
  readonly second: readonly number[];
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
  const { paths, steps, kits, retest } = plan;
  const runs = paths.map(validRuns);
  const validity = paths.map((path) => validityOf(path, plan));
  const used = paths.map((path) => devicesOf(path, plan));
  const ends = { positive: 0, negative: 0, inconclusive: 0, lost: 0 };
  const second = paths.map(() => 0);
  const devices = kits.map(() => [0]);
  const first = paths.map(({ status }, at) => {
    const before = runs[at] as RunResult[];
    const here = (validity[at] as number) * joint(before);
    const asked = status === "inconclusive" && retest !== null;
    const returning = asked ? retest.share : 0;
    ends[asked ? "lost" : status] += here * (1 - returning);
    addDevices(devices, used[at] as number[][], here * (1 - returning));
    if (returning === 0) return here;
    const later = kits.map(() => [0]);
    paths.forEach((path, then) => {
      const valid = returning * (validity[at] as number) * (validity[then] as number);
      const both = valid * joint([...before, ...(runs[then] as RunResult[])]);
      second[then] = (second[then] as number) + both;
      ends[path.status] += both;
      addDevices(later, used[then] as number[][], both);
    });
    const together = later.map((one, kit) => convolved((used[at] as number[][])[kit] as number[], one));
    addDevices(devices, together, 1);
    return here;
  });
  const reached = reachedOf(plan, first);
  const again = reachedOf(plan, second);
  const runsAtStep = steps.map(
    (step, at) => ((reached[at] as number) + (again[at] as number)) * meanDevices(step, kitOf(plan, step)),
  );
  const returned = second.reduce((sum, part) => sum + part, 0);
  const within = (sum: number) => Math.min(1, sum);
  return {
    positive: within(ends.positive),
    negative: within(ends.negative),
    inconclusive: within(ends.inconclusive),
    lost: within(ends.lost),
    first,
    second,
    returned: within(returned),
    reached: reached.map(within),
    runsAtStep,
    devices,
  };
}

function kitOf(plan: PathPlan, step: Step): Kit {
  return plan.kits.find(({ id }) => id === step.kit) as Kit;
}

/** Probability that the steps of a path are valid, or not, as the path has them. */
function validityOf(path: Path, { steps, kits }: PathPlan): number {
  return path.parts.reduce((product, { step, kit, result }) => {
    const none = Math.pow((kits[kit] as Kit).invalid, (steps[step] as Step).again + 1);
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
      return used === 0 ? 0 : (Math.pow(invalid, used - 1) * (1 - invalid)) / (1 - Math.pow(invalid, most));
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

/** Adds distributions by kit, weighted. */
function addDevices(sums: number[][], parts: readonly (readonly number[])[], weight: number) {
  parts.forEach((distribution, kit) => {
    const into = sums[kit] as number[];
    distribution.forEach((part, devices) => {
      into[devices] = (into[devices] ?? 0) + weight * part;
    });
  });
}
