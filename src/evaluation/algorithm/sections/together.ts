import { centreOf, moneyOf, shareOf } from "../centre.ts";
import type { AlgorithmLine, AlgorithmsAnswer, FollowedAlgorithm, TwoAnalytes } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";

/** The device with which the main algorithms of both analytes begin. */
export interface SharedStart {
  readonly kit: string;
  readonly algorithms: readonly [FollowedAlgorithm, FollowedAlgorithm];
  /** Devices per person that serve both: the first, and repeats of an invalid one. */
  readonly runs: number;
}

/** `null` unless there are two analytes whose main algorithms begin with the same kit. */
export function sharedStart({ file, followed, kit }: AlgorithmWorktop): SharedStart | null {
  const [one, other] = followed.filter((algorithm) => algorithm.main);
  const [first, second] = [one?.steps[0], other?.steps[0]];
  if (one === undefined || other === undefined || file.analytes.length < 2) return null;
  if (first === undefined || second === undefined || first.kit !== second.kit) return null;
  const invalid = centreOf(shareOf(kit(first.kit).invalid));
  const again = Math.min(first.again, second.again);
  const runs = Array.from({ length: again + 1 }, (_, run) => Math.pow(invalid, run)).reduce(
    (sum, part) => sum + part,
    0,
  );
  return { kit: first.kit, algorithms: [one, other], runs };
}

/** What is saved where one device shows both analytes: it is used, and paid, once. */
export function togetherSection(worktop: AlgorithmWorktop, { lines }: AlgorithmsAnswer): TwoAnalytes | null {
  const start = sharedStart(worktop);
  if (start === null) return null;
  const { file, kit } = worktop;
  const price = centreOf(moneyOf(kit(start.kit)));
  const perClient = file.costs?.per_client ?? 0;
  const channels = file.channels.map(({ id }) => {
    const own = start.algorithms.map(
      ({ algorithm }) =>
        lines.find((line) => line.channel === id && line.algorithm === algorithm) as AlgorithmLine,
    );
    const devicesApart = own.reduce((sum, line) => sum + devicesOf(line, start.kit), 0);
    const costApart = own.reduce((sum, line) => sum + (line.cost.perClient.value ?? 0), 0);
    const cost = costApart - start.runs * price - perClient;
    return {
      channel: id,
      sharedRuns: start.runs,
      devicesApart,
      devices: devicesApart - start.runs,
      costApart,
      cost,
      savedPer100000: (costApart - cost) * 100_000,
    };
  });
  return { kit: start.kit, algorithms: start.algorithms.map(({ algorithm }) => algorithm), channels };
}

function devicesOf({ kits }: AlgorithmLine, id: string): number {
  return kits.find(({ kit }) => kit === id)?.perPerson ?? 0;
}
