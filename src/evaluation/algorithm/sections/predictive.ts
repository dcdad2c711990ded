import type { OutcomesValues } from "../../../methods/algorithms/outcomes-fields.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import type { AlgorithmPredictive, FollowedAlgorithm } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { outcomeOf } from "./outcomes.ts";

const LOWEST = 0.0005;
const HIGHEST = 0.6;
const STEPS = 60;

/** Predictive values over the prevalence, after each reactive result and in the end. */
export function predictiveSection(worktop: AlgorithmWorktop): AlgorithmPredictive[] {
  const { file } = worktop;
  return worktop.followed.map((followed) => {
    const { algorithm, analyte } = followed;
    const own = file.channels.map((channel) => worktop.prevalenceOf(channel, analyte));
    const prevalences = gridWith(own);
    const { values } = outcomeOf(worktop, followed, file.channels[0] as FileChannel, prevalences);
    const tests = reactiveWay(followed);
    const counts = tests.map((_, at) => allReactive(values, tests.slice(0, at + 1)));
    return {
      algorithm,
      analyte,
      tests,
      points: values.at.map(({ prevalence, ppv, npv }, at) => ({
        prevalence,
        afterReactive: counts.map((chance) => among(prevalence, chance)),
        ppv,
        npv,
        independentPpv: values.independent.at[at]?.ppv ?? null,
        independentNpv: values.independent.at[at]?.npv ?? null,
      })),
      reachesTarget: {
        stated: reachedFrom(values.byTruth, file.targets.ppv),
        independent: reachedFrom(independentEnds(values), file.targets.ppv),
      },
    };
  });
}

/** Evenly spaced on the logarithm, and the channels' own. */
function gridWith(own: readonly number[]): number[] {
  const step = Math.log(HIGHEST / LOWEST) / STEPS;
  const even = Array.from({ length: STEPS + 1 }, (_, at) =>
    Number((LOWEST * Math.exp(step * at)).toPrecision(6)),
  );
  return [...new Set([...even, ...own])].sort((one, other) => one - other);
}

/** The steps of somebody who is reactive each time, until the first pass ends. */
function reactiveWay({ steps }: FollowedAlgorithm): AlgorithmPredictive["tests"] {
  const way: AlgorithmPredictive["tests"] = [];
  for (let step = steps[0]; step !== undefined; step = stepOf(steps, step.reactive)) {
    way.push({ step: step.id, kit: step.kit });
  }
  return way;
}

const stepOf = (steps: FollowedAlgorithm["steps"], id: string) => steps.find((step) => step.id === id);

interface ByTruth {
  readonly diseased: number;
  readonly nondiseased: number;
}

/** Probability of being reactive at each of the first steps. */
function allReactive({ paths }: OutcomesValues, tests: AlgorithmPredictive["tests"]): ByTruth {
  const begun = paths.filter(({ steps }) =>
    tests.every(({ step }, at) => steps[at]?.step === step && steps[at]?.result === "reactive"),
  );
  const sum = (truth: keyof ByTruth) => begun.reduce((total, path) => total + (path[truth] ?? 0), 0);
  return { diseased: sum("diseased"), nondiseased: sum("nondiseased") };
}

function among(prevalence: number, { diseased, nondiseased }: ByTruth): number | null {
  const right = prevalence * diseased;
  const all = right + (1 - prevalence) * nondiseased;
  return all > 0 ? right / all : null;
}

interface Positive {
  readonly diseased: { readonly positive: number | null };
  readonly nondiseased: { readonly positive: number | null };
}

/**
 * The prevalence p at which p s / (p s + (1 - p) f) is the PPV wanted, s and f being the shares of the truly positive
 * and negative that end positive: wanted f / (wanted f + (1 - wanted) s). `null` where nobody ends positive.
 */
function reachedFrom({ diseased, nondiseased }: Positive, wanted: number | undefined): number | null {
  const [right, wrong] = [diseased.positive ?? 0, nondiseased.positive ?? 0];
  if (wanted === undefined || right === 0) return null;
  return (wanted * wrong) / (wanted * wrong + (1 - wanted) * right);
}

/** Shares ending positive if errors were independent, out of two of the PPVs: their odds are linear in those of p. */
function independentEnds({ independent }: OutcomesValues): Positive {
  const right = independent.net.sensitivity ?? 0;
  const at = independent.at.find(
    ({ prevalence, ppv }) => ppv !== null && ppv > 0 && prevalence > 0 && prevalence < 1,
  );
  if (at === undefined || at.ppv === null) return { diseased: { positive: 0 }, nondiseased: { positive: 0 } };
  const odds = at.prevalence / (1 - at.prevalence);
  const wrong = (odds * right * (1 - at.ppv)) / at.ppv;
  return { diseased: { positive: right }, nondiseased: { positive: wrong } };
}
