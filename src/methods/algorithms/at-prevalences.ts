import type { FollowedAlgorithm } from "./followed.ts";
import type { At, Net } from "./outcomes-fields.ts";
import type { TruthOutcome } from "./path-outcomes.ts";

/**
 * An algorithm at other prevalences, without following its paths anew: quick enough to move with a pointer.
 *
 * @param followed    what `followAlgorithm` gives
 * @param prevalences 0..1, in the order wanted
 * @param people      number of people that `perPeople` speaks of
 * @returns one entry for each prevalence; a predictive value is `null` where nobody ends with that status
 */
export function recompute(
  followed: FollowedAlgorithm,
  prevalences: readonly number[],
  people = 100_000,
): At[] {
  const { diseased, nondiseased, plan } = followed;
  const runs = plan.kits.map(({ id }, kit) => ({
    kit: id,
    diseased: meanOf(diseased.devices[kit] ?? []),
    nondiseased: meanOf(nondiseased.devices[kit] ?? []),
  }));
  return prevalences.map((prevalence): At => {
    const mixed = (of: (truth: TruthOutcome) => number) =>
      prevalence * of(diseased) + (1 - prevalence) * of(nondiseased);
    const inconclusive = mixed((truth) => truth.inconclusive);
    const lost = mixed((truth) => truth.lost);
    return {
      prevalence,
      ...predictiveValues(diseased, nondiseased, prevalence),
      positive: mixed(({ positive }) => positive),
      negative: mixed(({ negative }) => negative),
      inconclusive,
      lost,
      runs: runs.map((one) => ({
        kit: one.kit,
        perPerson: prevalence * one.diseased + (1 - prevalence) * one.nondiseased,
      })),
      perPeople: {
        truePositives: people * prevalence * diseased.positive,
        falsePositives: people * (1 - prevalence) * nondiseased.positive,
        missed: people * prevalence * diseased.negative,
        trueNegatives: people * (1 - prevalence) * nondiseased.negative,
        inconclusive: people * inconclusive,
        lost: people * lost,
      },
    };
  });
}

/** Bayes' rule on what an algorithm ends with. */
export function predictiveValues(
  diseased: Pick<TruthOutcome, "positive" | "negative">,
  nondiseased: Pick<TruthOutcome, "positive" | "negative">,
  prevalence: number,
): { ppv: number | null; npv: number | null } {
  const right = (present: number, absent: number) =>
    present + absent > 0 ? present / (present + absent) : null;
  return {
    ppv: right(prevalence * diseased.positive, (1 - prevalence) * nondiseased.positive),
    npv: right((1 - prevalence) * nondiseased.negative, prevalence * diseased.negative),
  };
}

/** An algorithm taken as one test. */
export function netOf({ diseased, nondiseased }: FollowedAlgorithm): Net {
  const decided = (right: number, wrong: number) => (right + wrong > 0 ? right / (right + wrong) : null);
  return {
    sensitivity: diseased.positive,
    specificity: nondiseased.negative,
    sensitivityDecided: decided(diseased.positive, diseased.negative),
    specificityDecided: decided(nondiseased.negative, nondiseased.positive),
  };
}

/**
 * How many devices of a kit one person uses, at a prevalence: what `algorithms.stock` takes as `perPerson`.
 * @param kit        place of the kit in the list of kits
 * @param prevalence 0..1
 * @returns probabilities of 0, 1, 2, … devices, numbers that never occur left out
 */
export function devicesAt(
  { diseased, nondiseased }: FollowedAlgorithm,
  kit: number,
  prevalence: number,
): { runs: number; probability: number }[] {
  const [present, absent] = [diseased.devices[kit] ?? [], nondiseased.devices[kit] ?? []];
  return Array.from({ length: Math.max(present.length, absent.length) }, (_, runs) => ({
    runs,
    probability: prevalence * (present[runs] ?? 0) + (1 - prevalence) * (absent[runs] ?? 0),
  })).filter(({ probability }) => probability > 0);
}

/** Mean of a distribution given as probabilities of 0, 1, 2, … */
export function meanOf(distribution: readonly number[]): number {
  return distribution.reduce((sum, probability, number) => sum + number * probability, 0);
}
