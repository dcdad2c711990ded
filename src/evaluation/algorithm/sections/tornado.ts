import { algorithmsTornado } from "../../../methods/algorithms/tornado.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import { shareOf } from "../centre.ts";
import type { FollowedAlgorithm, OutcomeTornado } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { costsOf } from "./uncertainty.ts";

/** What the PPV hangs on, for every algorithm in the first channel, with the cost of the main ones; for these, everywhere. */
export function tornadoSection(worktop: AlgorithmWorktop): OutcomeTornado[] {
  return worktop.file.channels.flatMap((channel, at) =>
    worktop.followed.flatMap((followed) => {
      const ppv = at === 0 || followed.main ? (["ppv"] as const) : [];
      const cost = at === 0 && followed.main ? (["cost"] as const) : [];
      return [...ppv, ...cost].map((outcome) => tornadoOf(worktop, channel, followed, outcome));
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
