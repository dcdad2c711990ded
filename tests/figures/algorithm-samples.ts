import type { TreePath, TreeStep } from "../../src/report/figures/algorithm-layout.ts";

/** Invented numbers for drawing: layouts are tested with them, never statistics. */

interface KitSample {
  readonly se: number;
  readonly sp: number;
  readonly invalid: number;
}

const KITS: Readonly<Record<string, KitSample>> = {
  "Kit Q": { se: 0.96, sp: 0.994, invalid: 0.011 },
  "Kit V": { se: 0.985, sp: 0.99, invalid: 0.006 },
  "Laboratory immunoassay with neutralisation": { se: 0.999, sp: 0.998, invalid: 0 },
};

/** Every way through the steps if the kits err independently, with people expected of 10,000. */
export function samplePaths(steps: readonly TreeStep[], prevalence: number): TreePath[] {
  const byId = new Map(steps.map((step) => [step.id, step]));
  const follow = (next: string, path: TreePath): TreePath[] => {
    const step = byId.get(next);
    if (step === undefined) return [path];
    const { se, sp, invalid } = KITS[step.kit] as KitSample;
    const none = invalid ** (step.again + 1);
    return (["reactive", "nonreactive", "invalid"] as const).flatMap((result) => {
      const share = (reactive: number) =>
        result === "invalid" ? none : (1 - none) * (result === "reactive" ? reactive : 1 - reactive);
      return follow(step[result], {
        steps: [...path.steps, { step: step.id, result }],
        diseased: path.diseased * share(se),
        nondiseased: path.nondiseased * share(1 - sp),
      });
    });
  };
  const all = 10_000;
  return follow(steps[0]?.id ?? "", {
    steps: [],
    diseased: all * prevalence,
    nondiseased: all * (1 - prevalence),
  });
}

const step = (
  id: string,
  kit: string,
  reactive: string,
  nonreactive: string,
  again = 1,
  invalid = "inconclusive",
): TreeStep => ({ id, kit, reactive, nonreactive, invalid, again });

export const SINGLE = [step("a1", "Kit Q", "positive", "negative")];
export const SERIAL = [
  step("a1", "Kit Q", "a2", "negative"),
  step("a2", "Kit V", "a3", "inconclusive"),
  step("a3", "Laboratory immunoassay with neutralisation", "positive", "inconclusive", 0),
];
export const PARALLEL = [
  step("a1", "Kit Q", "positive", "a2", 0),
  step("a2", "Kit V", "positive", "negative", 0),
];
export const MAJORITY = [
  step("a1", "Kit Q", "a2", "b2", 0),
  step("a2", "Kit V", "positive", "a3", 0),
  step("a3", "Laboratory immunoassay with neutralisation", "positive", "negative", 0),
  step("b2", "Kit V", "b3", "negative", 0),
  step("b3", "Laboratory immunoassay with neutralisation", "positive", "negative", 0),
];
/** The last step is reached by two ways. */
export const JOINED = [
  step("a1", "Kit Q", "a2", "b2", 0),
  step("a2", "Kit V", "positive", "c3", 0),
  step("b2", "Kit V", "c3", "negative", 0),
  step("c3", "Laboratory immunoassay with neutralisation", "positive", "inconclusive", 0),
];
export const EIGHT = Array.from({ length: 8 }, (_, at) =>
  step(`t${at + 1}`, at % 2 === 0 ? "Kit Q" : "Kit V", at === 7 ? "positive" : `t${at + 2}`, "inconclusive"),
);
