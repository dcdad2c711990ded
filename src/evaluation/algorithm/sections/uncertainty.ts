import { algorithmsUncertain } from "../../../methods/algorithms/uncertain.ts";
import type { UncertainInput } from "../../../methods/algorithms/uncertain-input.ts";
import type { AlgorithmFile, FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import { shareOf } from "../centre.ts";
import type { DrawnUncertainty, FollowedAlgorithm } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";

/** How sure the answer is: all algorithms of an analyte put through the same draws, for every channel. */
export function uncertaintySection(worktop: AlgorithmWorktop): DrawnUncertainty[] {
  return worktop.file.analytes.flatMap(({ id: analyte }) =>
    alike(worktop, analyte).map((channels) => {
      const input = uncertainInput(worktop, analyte, channels);
      const { level } = worktop.file;
      const draws = drawsFor(worktop, analyte);
      const seed = worktop.seedOf(`${analyte} ${channels.map(({ id }) => id).join(" ")}`);
      const drawn = worktop.ask(algorithmsUncertain, input, { level, draws, seed });
      return { analyte, channels: channels.map(({ id }) => id), drawn };
    }),
  );
}

/** The more valid runs somebody may have, the longer pairs take: then fewer draws have to do. */
const FEWER_DRAWS = [
  { steps: 5, most: 2000 },
  { steps: 4, most: 3000 },
] as const;

function drawsFor({ file, followed }: AlgorithmWorktop, analyte: string): number {
  if (file.dependence?.kind !== "pairs") return file.draws;
  const own = followed.filter((one) => one.analyte === analyte);
  const longest = Math.max(...own.map(mostSteps));
  const fewer = FEWER_DRAWS.find(({ steps }) => longest >= steps);
  return Math.min(file.draws, fewer?.most ?? file.draws);
}

/** Steps on the longest way, both passes together. */
export function mostSteps({ steps, retested }: FollowedAlgorithm): number {
  const longest = (id: string): number => {
    const step = steps.find((one) => one.id === id);
    return step === undefined
      ? 0
      : 1 + Math.max(longest(step.reactive), longest(step.nonreactive), longest(step.invalid));
  };
  const once = longest(steps[0]?.id ?? "");
  return retested === null ? once : 2 * once;
}

/** Channels that can be drawn together: where people are tested anew, those with one share returning. */
function alike({ file, followed }: AlgorithmWorktop, analyte: string): FileChannel[][] {
  const retested = followed.some((one) => one.analyte === analyte && one.retested !== null);
  if (!retested) return [[...file.channels]];
  const groups = new Map<number, FileChannel[]>();
  for (const channel of file.channels) {
    const share = channel.return ?? 0;
    groups.set(share, [...(groups.get(share) ?? []), channel]);
  }
  return [...groups.values()];
}

/** What the methods that draw or vary are asked, of one analyte and channels with one share returning. */
export function uncertainInput(
  worktop: AlgorithmWorktop,
  analyte: string,
  channels: readonly FileChannel[],
): UncertainInput {
  const algorithms = worktop.followed.filter((one) => one.analyte === analyte);
  const kits = worktop.file.kits
    .map(({ id }) => id)
    .filter((id) => algorithms.some((one) => one.kits.includes(id)));
  return {
    kits: worktop.uncertainKitsOf(analyte, kits),
    algorithms: algorithms.map((one) => ({
      id: one.algorithm,
      steps: [...one.steps],
      retest: worktop.retestOf(one, channels[0] as FileChannel),
    })),
    dependence: worktop.dependenceOf(algorithms),
    prevalences: channels.map(({ id, prevalence }) => ({
      label: id,
      share: shareOf(prevalence[analyte] ?? {}),
    })),
    costs: costsOf(worktop.file),
    criteria: criteriaOf(worktop.file),
    objective: "cheapest",
    losses: null,
    people: 100_000,
  };
}

/** What testing costs besides the kits. */
export function costsOf({ costs }: AlgorithmFile): UncertainInput["costs"] {
  return {
    perPerson: { kind: "value", value: costs?.per_client ?? 0 },
    perInconclusive: { kind: "value", value: 0 },
  };
}

export function criteriaOf({ targets }: AlgorithmFile): UncertainInput["criteria"] {
  return {
    minimumPpv: targets.ppv ?? null,
    minimumNpv: targets.npv ?? null,
    mostInconclusive: targets.most_inconclusive ?? null,
  };
}
