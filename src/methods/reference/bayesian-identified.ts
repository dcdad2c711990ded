import type { BayesianValues } from "./bayesian-fields.ts";
import type { BayesianModel } from "./bayesian-model.ts";
import type { Unknown } from "./bayesian-unknowns.ts";
import { untold } from "./latent-identified.ts";
import { MOST_SHARED } from "./latent-tables.ts";

/** Could these people, without priors, tell all unknowns apart at the posterior means? */
export function identifiedAt(
  model: BayesianModel,
  unknowns: readonly Unknown[],
  means: readonly number[],
): BayesianValues["identified"] {
  const { data, layout } = model;
  const theta = new Float64Array(layout.size);
  const logit = (share: number) => Math.log(share / (1 - share));
  unknowns.forEach(({ kind, place, mirrored }, number) => {
    const mean = means[number] as number;
    if (kind === "share") theta[place] = logit(mirrored ? 1 - mean : mean);
    if (kind === "correlation") theta[place] = logit(mean / MOST_SHARED);
  });
  unknowns.forEach(({ kind, place }, number) => {
    if (kind !== "covariance") return;
    const condition = place < layout.dependence(1, 0) ? 0 : 1;
    const pair = data.pairs[place - layout.dependence(condition, 0)] as readonly [number, number];
    const [first, second] = pair.map((test) => theta[layout.reactive(condition, test)] as number);
    theta[place] = logOddsRatio(first as number, second as number, means[number] as number);
  });
  const rank = layout.size - untold(theta, data, layout).length;
  return { rank, unknowns: layout.size, byDataAlone: rank === layout.size };
}

/** Of the fourfold table with these logits as margins and this covariance, which is kept from its limits. */
function logOddsRatio(firstLogit: number, secondLogit: number, covariance: number): number {
  const first = 1 / (1 + Math.exp(-firstLogit));
  const second = 1 / (1 + Math.exp(-secondLogit));
  const tiny = 1e-6 * Math.min(first, second, 1 - first, 1 - second);
  const least = Math.max(0, first + second - 1) + tiny;
  const most = Math.min(first, second) - tiny;
  const both = Math.min(most, Math.max(least, first * second + covariance));
  return Math.log((both * (1 - first - second + both)) / ((first - both) * (second - both)));
}
