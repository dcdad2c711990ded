import { recompute } from "../../../methods/algorithms/at-prevalences.ts";
import { layOut } from "../../../methods/algorithms/followed.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import type { FollowedAlgorithm, TwoWayMap } from "../document.ts";
import { boundsOf } from "../pairs.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { followedOrNot, pairsDependence } from "./sweeps.ts";

const PREVALENCES = [0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.08, 0.12, 0.2, 0.3];
/** Error correlations among the truly negative, as far as the kits allow them. */
const CORRELATIONS = [0, 0.02, 0.05, 0.08, 0.12, 0.2, 0.3, 0.4];

/** PPV over prevalence and error correlation, for algorithms whose positives have two reactive results. */
export function twoWayOf(worktop: AlgorithmWorktop): TwoWayMap[] {
  if (worktop.file.dependence?.kind === "shared") return [];
  return worktop.followed.flatMap((followed) => {
    const [one, other, third] = followed.steps;
    const two = one?.reactive === other?.id && other?.reactive === "positive" && third === undefined;
    if (one === undefined || other === undefined || !two || one.kit === other.kit) return [];
    return [mapOf(worktop, followed, one.kit, other.kit)];
  });
}

function mapOf(
  worktop: AlgorithmWorktop,
  followed: FollowedAlgorithm,
  first: string,
  second: string,
): TwoWayMap {
  const { file } = worktop;
  const { most } = boundsOf(file, followed.analyte, first, second).nondiseased;
  const retest = worktop.retestOf(followed, file.channels[0] as FileChannel);
  const kits = worktop.kitsOf(followed.analyte, followed.kits);
  const plan = layOut(kits, { steps: [...followed.steps], retest });
  const stated = pairsDependence(worktop, followed);
  const isPair = (pair: { readonly first: string; readonly second: string }) =>
    [first, second].every((id) => id === pair.first || id === pair.second);
  const wanted = file.targets.ppv;
  const cells = CORRELATIONS.filter((phi) => phi <= most).flatMap((phi) => {
    const pairs = stated.pairs.map((pair) => (isPair(pair) ? { ...pair, nondiseased: phi } : pair));
    const found = followedOrNot(plan, { kind: "pairs", pairs });
    return (found === null ? [] : recompute(found, PREVALENCES)).map(({ prevalence, ppv }) => ({
      prevalence,
      phi,
      ppv,
      reaches: wanted === undefined ? null : ppv !== null && ppv >= wanted,
    }));
  });
  return { algorithm: followed.algorithm, first, second, cells };
}
