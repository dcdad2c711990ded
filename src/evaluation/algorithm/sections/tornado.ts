import { algorithmsTornado } from "../../../methods/algorithms/tornado.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import { shareOf } from "../centre.ts";
import type { FollowedAlgorithm, OutcomeTornado } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { costsOf } from "./uncertainty.ts";

/** What the PPV hangs on, for every algorithm; and the cost of the main ones. */
export function tornadoSection(worktop: AlgorithmWorktop): OutcomeTornado[] {
  return worktop.file.channels.flatMap((channel) =>
    worktop.followed.flatMap((followed) => {
      const outcomes = followed.main ? (["ppv", "cost"] as const) : (["ppv"] as const);
      return outcomes.map((outcome) => tornadoOf(worktop, channel, followed, outcome));
    }),
  );
}

function tornadoOf(
  worktop: AlgorithmWorktop,
  channel: FileChannel,
  followed: FollowedAlgorithm,
  outcome: "ppv" | "cost",
): OutcomeTornado {
  const { analyte, algorithm, kits, steps } = followed;
  const asked = {
    kits: worktop.uncertainKitsOf(analyte, kits),
    steps: [...steps],
    retest: worktop.retestOf(followed, channel),
    dependence: worktop.dependenceOf([followed]),
    prevalence: shareOf(channel.prevalence[analyte] ?? {}),
    costs: costsOf(worktop.file),
    outcome,
  };
  const moved = worktop.ask(algorithmsTornado, asked, { level: worktop.file.level });
  return { channel: channel.id, algorithm, moved };
}
