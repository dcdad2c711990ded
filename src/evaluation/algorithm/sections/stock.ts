import { type Note, note } from "../../../core/note.ts";
import type { OutcomesValues } from "../../../methods/algorithms/outcomes-fields.ts";
import { stock } from "../../../methods/algorithms/stock.ts";
import type { FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import { centreOf, levelsOf, shareOf } from "../centre.ts";
import type { AlgorithmOutcome, FollowedAlgorithm, KitStock } from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { sharedStart } from "./together.ts";

/** Prevalences looked at where it is uncertain: the middles of so many equal parts of what it may be. */
const LEVELS = 20;

interface Runs {
  readonly runs: number;
  readonly probability: number;
}
type Situation = readonly Runs[];

/** Devices of each kit that the main algorithms use up in a year: for each channel, and for all together. */
export function stockSection(worktop: AlgorithmWorktop, outcomes: readonly AlgorithmOutcome[]): KitStock[] {
  const { file } = worktop;
  const main = worktop.followed.filter((one) => one.main);
  const ids = file.kits.map(({ id }) => id).filter((id) => main.some(({ kits }) => kits.includes(id)));
  const byChannel = new Map(
    file.channels.map((channel) => [
      channel.id,
      new Map(ids.map((id) => [id, situationsOf(worktop, outcomes, channel, id)])),
    ]),
  );
  const situations = (channel: FileChannel, id: string) => byChannel.get(channel.id)?.get(id) as Situation[];
  const single = file.channels.flatMap((channel) =>
    ids.map((id) => orderOf(worktop, channel.id, id, channel.clients, situations(channel, id))),
  );
  if (file.channels.length < 2) return single;
  const clients = file.channels.reduce((sum, channel) => sum + channel.clients, 0);
  const all = ids.map((id) => {
    const levels = Math.max(...file.channels.map((channel) => situations(channel, id).length));
    const mixed = Array.from({ length: levels }, (_, level) =>
      mixtureOf(
        file.channels.map((channel) => {
          const own = situations(channel, id);
          return { weight: channel.clients / clients, runs: own[own.length === 1 ? 0 : level] ?? [] };
        }),
      ),
    );
    return orderOf(worktop, null, id, clients, mixed);
  });
  return [...single, ...all];
}

const SHARED =
  "a device that shows both analytes is counted once; what the second analyte needs besides is counted by its mean, and taken to say nothing of the first";

function orderOf(
  worktop: AlgorithmWorktop,
  channel: string | null,
  id: string,
  clients: number,
  situations: readonly Situation[],
): KitStock {
  const { waste, pack, price } = worktop.kit(id);
  const order = worktop.ask(
    stock,
    {
      clients,
      situations: situations.map((perPerson) => ({ weight: 1, perPerson: [...perPerson] })),
      waste,
      packSize: pack,
    },
    { stockOutRisk: worktop.file.order.risk },
  );
  const { packs } = order.values.ordered;
  const money = packs === null ? null : packs * pack * centreOf(moneyAsked(price));
  const notes: Note[] = [];
  if (channel === null && situations.length > 1) {
    notes.push(
      note("together", "order", "prevalences are taken to be high, or low, in all channels at once"),
    );
  }
  if (sharedStart(worktop)?.kit === id) notes.push(note("shared_device", "order", SHARED));
  return { channel, kit: id, clients, order, money, notes };
}

function moneyAsked({
  value,
  low,
  high,
}: {
  value?: number | undefined;
  low?: number | undefined;
  high?: number | undefined;
}) {
  return low !== undefined && high !== undefined
    ? { kind: "range" as const, low, high }
    : { kind: "value" as const, value: value ?? 0 };
}

/** Devices of a kit per person, one situation for each prevalence that there may be. */
function situationsOf(
  worktop: AlgorithmWorktop,
  outcomes: readonly AlgorithmOutcome[],
  channel: FileChannel,
  id: string,
): Situation[] {
  const users = worktop.followed.filter(({ main, kits }) => main && kits.includes(id));
  const start = sharedStart(worktop);
  const each = users.map((followed, at) => {
    const found = outcomes.find((one) => one.channel === channel.id && one.algorithm === followed.algorithm);
    const { values } = (found as AlgorithmOutcome).outcome;
    const shared = start?.kit === id && at > 0 ? start.runs : 0;
    return bySituation(channel, followed, values, id, shared);
  });
  const levels = Math.max(...each.map((situations) => situations.length));
  return Array.from({ length: levels }, (_, level) =>
    each
      .map((situations) => situations[situations.length === 1 ? 0 : level] ?? [])
      .reduce((sum, one) => sumOf(sum, one)),
  );
}

/**
 * What one algorithm uses. Of the second analyte on one device only what it uses beyond the device that both share
 * is counted: its mean, as whole devices, spread no wider than it must be.
 */
function bySituation(
  channel: FileChannel,
  { analyte }: FollowedAlgorithm,
  { byTruth }: OutcomesValues,
  id: string,
  shared: number,
): Situation[] {
  const known = shareOf(channel.prevalence[analyte] ?? {});
  const of = (truth: "diseased" | "nondiseased") =>
    (byTruth[truth].runs.find(({ kit }) => kit === id)?.distribution ?? []).map((one) => ({
      runs: one.runs,
      probability: one.probability ?? 0,
    }));
  const levels = levelsOf(known, LEVELS);
  const mixed = levels.map((prevalence) =>
    mixtureOf([
      { weight: prevalence, runs: of("diseased") },
      { weight: 1 - prevalence, runs: of("nondiseased") },
    ]),
  );
  if (shared === 0) return mixed;
  return mixed.map((situation) => {
    const mean = situation.reduce((sum, { runs, probability }) => sum + runs * probability, 0);
    return spreadOf(Math.max(0, mean - shared));
  });
}

function spreadOf(mean: number): Situation {
  const whole = Math.floor(mean + 1e-12);
  const rest = Math.max(0, mean - whole);
  return [
    { runs: whole, probability: 1 - rest },
    { runs: whole + 1, probability: rest },
  ];
}

function mixtureOf(parts: readonly { readonly weight: number; readonly runs: Situation }[]): Situation {
  const sums = new Map<number, number>();
  for (const { weight, runs } of parts) {
    for (const one of runs) sums.set(one.runs, (sums.get(one.runs) ?? 0) + weight * one.probability);
  }
  return inOrder(sums);
}

/** Devices of two analytes together, the one's saying nothing of the other's. */
function sumOf(first: Situation, second: Situation): Situation {
  const sums = new Map<number, number>();
  for (const one of first) {
    for (const other of second) {
      const runs = one.runs + other.runs;
      sums.set(runs, (sums.get(runs) ?? 0) + one.probability * other.probability);
    }
  }
  return inOrder(sums);
}

function inOrder(sums: ReadonlyMap<number, number>): Situation {
  const total = [...sums.values()].reduce((sum, one) => sum + one, 0);
  return [...sums]
    .map(([runs, probability]) => ({ runs, probability: Math.min(1, probability / total) }))
    .sort((one, other) => one.runs - other.runs);
}
