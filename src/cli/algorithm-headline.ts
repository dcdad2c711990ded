import type { AlgorithmLine, Algorithms, BestAlgorithm } from "../evaluation/algorithm/document.ts";

/**
 * The answer of a file of algorithms in a few lines, the dependence first: what the main algorithm would do if errors
 * were independent, and what it does as stated; then which is best where, and what to order.
 */
export function algorithmHeadline(algorithms: Algorithms): string {
  const lines = [
    ...leadingLines(algorithms),
    ...algorithms.answer.best.flatMap((best) => bestLines(algorithms, best)),
    ...orderLines(algorithms),
  ];
  return lines.map((line) => `${line}\n`).join("");
}

const percent = (share: number | null) => (share === null ? "none" : `${shown(100 * share, 100)} %`);
const chance = (share: number | null) => (share === null ? "unknown" : shown(share, 1));

/** Two decimals; what is not quite nothing, or not quite all, is not rounded to it. */
function shown(number: number, all: number): string {
  const text = number.toFixed(2);
  if (number < all && text === all.toFixed(2)) return `over ${(all - 0.01).toFixed(2)}`;
  return number > 0 && text === "0.00" ? "under 0.01" : text;
}
const whole = (number: number) => Math.round(number).toLocaleString("en-GB");

/** The main algorithm of each analyte, in the channel that the page leads with. */
function leadingLines({ answer, file, algorithms, dependence }: Algorithms): string[] {
  const mains = answer.lines.filter((line) => line.main && line.channel === answer.leading.channel);
  return mains.flatMap((line) => {
    const title = algorithms.find(({ algorithm }) => algorithm === line.algorithm)?.title ?? line.algorithm;
    return [
      `${whose(file, line)}: ${title}`,
      `  ${dependenceLine(line, dependence.kind)}`,
      ...targetLine(answer.target, line),
    ];
  });
}

function dependenceLine(line: AlgorithmLine, kind: Algorithms["dependence"]["kind"]): string {
  const { value, lower, upper } = line.ppv;
  if (value === null) return "nobody ends positive";
  const range = lower === null || upper === null ? "" : ` (${percent(lower)} to ${percent(upper)})`;
  if (kind === "none" || line.independent.ppv === value) {
    const taken = kind === "independent" ? ", the kits' errors taken as independent" : "";
    return `${percent(value)} of positives are right${range}${taken}`;
  }
  return `if the kits' errors were independent ${percent(line.independent.ppv)} of positives would be right; with the dependence stated ${percent(value)}${range}`;
}

function targetLine(target: number | null, { chance: chances }: AlgorithmLine): string[] {
  if (target === null) return [];
  return [`  ${percent(target)} asked: reached with probability ${chance(chances.ppv)}`];
}

function bestLines({ answer, file }: Algorithms, best: BestAlgorithm): string[] {
  const asked = Object.values(file.targets).some((target) => target !== undefined && target !== false);
  if (!asked) return [];
  const { channel, cheapest, surest } = best;
  const start = `${whose(file, best)}:`;
  const surer = surest === null ? "" : `${surest} is the surest (${chance(best.surestChance)})`;
  if (cheapest === null) {
    return [`${start} no algorithm reaches the targets${surer === "" ? "" : `; ${surer}`}`];
  }
  const cost = answer.lines.find((line) => line.channel === channel && line.algorithm === cheapest)?.cost;
  const money =
    cost?.perClient.value === null || cost === undefined
      ? ""
      : ` at ${cost.perClient.value.toFixed(2)}${unitOf(file)} a client`;
  const first = `${start} ${cheapest} is the cheapest that reaches the targets${money}`;
  const own = best.cheapestChance === null ? "" : ` (probability ${chance(best.cheapestChance)})`;
  return [`${first}${own}${surer === "" || surest === cheapest ? "" : `; ${surer}`}`];
}

const unitOf = ({ costs }: Algorithms["file"]) => (costs === undefined ? "" : ` ${costs.unit}`);

/** The people and the analyte that a line speaks of. */
function whose(
  { analytes, channels }: Algorithms["file"],
  { analyte, channel }: { readonly analyte: string; readonly channel: string },
): string {
  const what = analytes.find(({ id }) => id === analyte)?.title ?? analyte;
  return `${what}, ${channels.find(({ id }) => id === channel)?.title ?? channel}`;
}

function orderLines({ stock, file }: Algorithms): string[] {
  const all = stock.filter(({ channel }) => channel === null || file.channels.length === 1);
  return all.map(({ kit, order }) => {
    const { kits, packs } = order.values.ordered;
    const title = file.kits.find(({ id }) => id === kit)?.title ?? kit;
    return `order for a year: ${title}: ${whole(kits ?? 0)} kits, ${whole(packs ?? 0)} packs`;
  });
}
