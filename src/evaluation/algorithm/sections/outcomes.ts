import { algorithmsOutcomes } from "../../../methods/algorithms/outcomes.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import type { AlgorithmFlow, AlgorithmOutcome, FollowedAlgorithm } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";

/** People that natural frequencies speak of. */
const PEOPLE = 10_000;
const TRUTHS = ["diseased", "nondiseased"] as const;
const RESULTS = ["reactive", "nonreactive", "invalid"] as const;
const STATUSES = ["positive", "negative", "inconclusive"] as const;
const ENDS = [...STATUSES, "lost"] as const;
type Outcome = AlgorithmOutcome["outcome"];

/** What every algorithm does in every channel, each with its numbers at their centre. */
export function outcomesSection(worktop: AlgorithmWorktop): AlgorithmOutcome[] {
  return worktop.file.channels.flatMap((channel) =>
    worktop.followed.map((followed): AlgorithmOutcome => {
      const outcome = outcomeOf(worktop, followed, channel, [
        worktop.prevalenceOf(channel, followed.analyte),
      ]);
      const flow = flowOf(outcome, followed);
      return { channel: channel.id, algorithm: followed.algorithm, flow, outcome };
    }),
  );
}

/** One algorithm among a channel's people, at any prevalences. */
export function outcomeOf(
  worktop: AlgorithmWorktop,
  followed: FollowedAlgorithm,
  channel: FileChannel,
  prevalences: readonly number[],
): Outcome {
  return worktop.ask(algorithmsOutcomes, {
    kits: worktop.kitsOf(followed.analyte, followed.kits),
    steps: [...followed.steps],
    retest: worktop.retestOf(followed, channel),
    dependence: worktop.dependenceOf([followed]),
    prevalences: [...prevalences],
  });
}

function flowOf({ input, values }: Outcome, { steps }: FollowedAlgorithm): AlgorithmFlow {
  const prevalence = input.prevalences[0] ?? 0;
  const weight = { diseased: PEOPLE * prevalence, nondiseased: PEOPLE * (1 - prevalence) };
  const people = (share: (truth: (typeof TRUTHS)[number]) => number) => ({
    diseased: weight.diseased * share("diseased"),
    nondiseased: weight.nondiseased * share("nondiseased"),
  });
  const onWay = (step: string, result: string) => (truth: (typeof TRUTHS)[number]) =>
    values.paths.reduce(
      (sum, path) =>
        path.steps.some((one) => one.step === step && one.result === result) ? sum + (path[truth] ?? 0) : sum,
      0,
    );
  const ended = (status: string) => (truth: (typeof TRUTHS)[number]) =>
    values.paths.reduce((sum, path) => (path.status === status ? sum + (path[truth] ?? 0) : sum), 0);
  const { secondPass, byTruth, runsAtStep } = values;
  const ends = wholeEnds(
    ENDS.flatMap((end) => TRUTHS.map((truth) => weight[truth] * (byTruth[truth][end] ?? 0))),
  );
  return {
    people: PEOPLE,
    diseased: ends.reduce((sum, end) => sum + end.diseased, 0),
    nondiseased: ends.reduce((sum, end) => sum + end.nondiseased, 0),
    steps: steps.map((step) => ({
      step: step.id,
      kit: step.kit,
      ...people((truth) => runsAtStep.find((one) => one.step === step.id)?.[truth] ?? 0),
      leads: RESULTS.map((result) => ({ result, next: step[result], ...people(onWay(step.id, result)) })),
    })),
    firstEnds: STATUSES.map((status) => ({ status, ...people(ended(status)) })),
    returning: secondPass === null ? null : people((truth) => secondPass[truth] ?? 0),
    ends,
  };
}

/** Whole people that add up to all: rounded down, and those left given to the largest remainders, first come first. */
function wholeEnds(expected: readonly number[]): AlgorithmFlow["ends"] {
  const whole = expected.map(Math.floor);
  const left = PEOPLE - whole.reduce((sum, people) => sum + people, 0);
  const byRemainder = expected
    .map((people, at) => ({ at, remainder: people - Math.floor(people) }))
    .sort((one, other) => other.remainder - one.remainder || one.at - other.at);
  for (const { at } of byRemainder.slice(0, left)) whole[at] = (whole[at] ?? 0) + 1;
  return ENDS.map((end, place) => ({
    end,
    diseased: whole[2 * place] ?? 0,
    nondiseased: whole[2 * place + 1] ?? 0,
  }));
}
