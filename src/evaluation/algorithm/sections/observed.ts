import { expectedDiscordance } from "../../../methods/algorithms/expected-discordance.ts";
import type { UncertainShare } from "../../../methods/algorithms/uncertain-fields.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import { centreOf, shareOf } from "../centre.ts";
import type { FollowedAlgorithm, ObservedDiscordance } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { twoKitDependenceOf } from "./dependence.ts";

/** A register's discordant results, held against what is to be expected. */
export function observedSection(worktop: AlgorithmWorktop): ObservedDiscordance[] {
  const { file } = worktop;
  return file.observed.map((observed, at): ObservedDiscordance => {
    const channel = file.channels.find(({ id }) => id === observed.channel) as FileChannel;
    const followed = worktop.followed.find(
      (one) => one.algorithm === observed.algorithm,
    ) as FollowedAlgorithm;
    const { analyte, steps } = followed;
    const first = steps[0]?.kit ?? "";
    const second = steps.find(({ id }) => id === steps[0]?.reactive)?.kit ?? "";
    const [one, other] = worktop.uncertainKitsOf(analyte, [first, second]);
    const asked = {
      first: accuracyOf(one),
      second: accuracyOf(other),
      dependence: twoKitDependenceOf(worktop, analyte, { first, second }),
      prevalence: centreOf(shareOf(channel.prevalence[analyte] ?? {})),
      observed: {
        tested: observed.tested,
        firstReactive: observed.first_reactive,
        secondNonreactive: observed.second_nonreactive,
      },
    };
    const options = { level: file.level, draws: file.draws, seed: worktop.seedOf(`observed ${at}`) };
    const discordance = worktop.ask(expectedDiscordance, asked, options);
    return { channel: channel.id, algorithm: followed.algorithm, first, second, discordance };
  });
}

interface Accuracy {
  readonly sensitivity: UncertainShare;
  readonly specificity: UncertainShare;
}

function accuracyOf(kit: Accuracy | undefined) {
  return {
    sensitivity: knownOf(kit?.sensitivity),
    specificity: knownOf(kit?.specificity),
  };
}

/** A range is taken at its middle: the method draws counts and beta distributions only. */
function knownOf(share: UncertainShare | undefined) {
  if (share === undefined) return { kind: "value" as const, value: 0 };
  return share.kind === "range" ? { kind: "value" as const, value: centreOf(share) } : share;
}
