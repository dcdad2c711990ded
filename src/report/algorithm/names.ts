import type { AlgorithmLine, FollowedAlgorithm } from "../../evaluation/algorithm/document.ts";
import type { FileChannel } from "../../records/algorithm/algorithm-schema.ts";
import * as formats from "../formats.ts";
import type { AlgorithmReport } from "./context.ts";

export function kitTitle({ algorithms }: AlgorithmReport, id: string): string {
  return algorithms.file.kits.find((kit) => kit.id === id)?.title ?? id;
}

/**
 * A kit's title without what follows a comma or a bracket, for places where many kits are named: "Kit Q" of
 * "Kit Q, dual cassette (invented)". The whole title where that would name two kits alike.
 */
export function kitName(report: AlgorithmReport, id: string): string {
  const short = (title: string) => /^[^,(]*/.exec(title)?.[0].trim() ?? title;
  const title = kitTitle(report, id);
  const name = short(title);
  const alike = report.algorithms.file.kits.filter((kit) => short(kit.title) === name);
  return alike.length > 1 || name === "" ? title : name;
}

export function channelOf({ algorithms }: AlgorithmReport, id: string): FileChannel | undefined {
  return algorithms.file.channels.find((channel) => channel.id === id);
}

export function channelTitle(report: AlgorithmReport, id: string): string {
  return channelOf(report, id)?.title ?? id;
}

export function followedOf({ algorithms }: AlgorithmReport, id: string): FollowedAlgorithm | undefined {
  return algorithms.algorithms.find(({ algorithm }) => algorithm === id);
}

export function algorithmTitle(report: AlgorithmReport, id: string): string {
  return followedOf(report, id)?.title ?? id;
}

/** The same with the analyte where there are several: two may have algorithms of one title. */
export function algorithmOf(report: AlgorithmReport, id: string): string {
  const followed = followedOf(report, id);
  if (followed === undefined || !severalAnalytes(report)) return algorithmTitle(report, id);
  return report.words.algorithm.forAnalyte(followed.title, testedTitle(report, followed.analyte));
}

export function testedTitle({ algorithms }: AlgorithmReport, id: string): string {
  return algorithms.file.analytes.find((analyte) => analyte.id === id)?.title ?? id;
}

/** Whether several analytes are tested for: otherwise none need be named. */
export function severalAnalytes({ algorithms }: AlgorithmReport): boolean {
  return algorithms.file.analytes.length > 1;
}

/** "Kit Q and Kit V", "Kit Q and a repeat of it". */
export function pairTitle(report: AlgorithmReport, first: string, second: string): string {
  const { algorithm } = report.words;
  return first === second
    ? algorithm.repeatOf(kitName(report, first))
    : algorithm.twoKits(kitName(report, first), kitName(report, second));
}

/** The line of the answer that the page leads with. */
export function leadingLine({ algorithms }: AlgorithmReport): AlgorithmLine | undefined {
  const { lines, leading } = algorithms.answer;
  return (
    lines.find((line) => line.channel === leading.channel && line.algorithm === leading.algorithm) ?? lines[0]
  );
}

/** Whether independence makes no other PPV of a line: a single kit, or a file that assumes it. */
export function sameIfIndependent({ ppv, independent }: AlgorithmLine): boolean {
  if (ppv.value === null || independent.ppv === null) return true;
  return Math.abs(independent.ppv - ppv.value) < 1e-9;
}

/** Of 100: as many decimals as keep it from being 0 or 100 that it is not. */
export function ofHundred(share: number): string {
  return formats.percent(share, formats.percentDecimals({ value: share, lower: null, upper: null }));
}

/** Money in the file's own unit. */
export function money(report: AlgorithmReport, amount: number): string {
  return report.words.algorithm.money(formats.ratio(amount), unitOf(report));
}

export function unitOf({ algorithms, words }: AlgorithmReport): string {
  return algorithms.file.costs?.unit ?? words.algorithm.noUnit;
}

/** Whether anything of the file costs anything. */
export function hasPrices({ algorithms }: AlgorithmReport): boolean {
  return algorithms.answer.lines.some(({ cost }) => (cost.perClient.value ?? 0) > 0);
}
