import type { IssueLog } from "../issues.ts";
import { named } from "../named.ts";
import { type Fault, fieldPlace, type YamlFile } from "../yaml-file.ts";
import { PRESET_KITS } from "./algorithm-fields.ts";
import type { AlgorithmFile, FileAlgorithm } from "./algorithm-schema.ts";
import { checkPairs } from "./check-pairs.ts";
import { checkSteps } from "./check-steps.ts";

const MOST_ALGORITHMS = 10;
const MOST_SEARCHED = 8;

/**
 * Faults between the fields of an algorithm file: names that nothing defines, names given twice, algorithms that
 * can't be followed, and values that contradict each other.
 */
export function checkAlgorithmFile(file: string, read: YamlFile<AlgorithmFile>, issues: IssueLog): void {
  const given = read.value;
  const faultOf =
    (rule: "unknown_name" | "wrong_field"): Fault =>
    (path, expected, received) =>
      issues.add(rule, fieldPlace(file, path, read.lineOf), expected, received, "value_ignored");
  const unknown = faultOf("unknown_name");
  const wrong = faultOf("wrong_field");
  checkUnique(given, unknown);
  checkAnalytes(given, unknown, wrong);
  given.algorithms.forEach((algorithm, at) => {
    checkAlgorithm(given, algorithm, ["algorithms", at], unknown, wrong);
  });
  checkMain(given, wrong);
  checkPairs(given, unknown, wrong);
  checkTargets(given, wrong);
  checkSearch(given, unknown, wrong);
  checkObserved(given, unknown, wrong);
}

function checkUnique(given: AlgorithmFile, fault: Fault): void {
  for (const field of ["analytes", "kits", "channels", "algorithms"] as const) {
    const names = given[field].map(({ id }) => id);
    names.forEach((name, at) => {
      if (names.indexOf(name) < at) fault([field, at, "id"], "each name once", name);
    });
  }
}

/** What kits show and channels expect are analytes of the file, and each is asked of somewhere. */
function checkAnalytes(
  { analytes, kits, channels, algorithms }: AlgorithmFile,
  unknown: Fault,
  wrong: Fault,
) {
  const ids = analytes.map(({ id }) => id);
  kits.forEach((kit, at) => {
    for (const id of Object.keys(kit.analytes)) {
      named(["kits", at, "analytes", id], id, ids, "an analyte of this file", unknown);
    }
  });
  channels.forEach(({ prevalence }, at) => {
    for (const id of Object.keys(prevalence)) {
      named(["channels", at, "prevalence", id], id, ids, "an analyte of this file", unknown);
    }
    for (const id of ids) {
      if (Object.hasOwn(prevalence, id)) continue;
      wrong(["channels", at, "prevalence"], `a prevalence of every analyte, ${id} too`, prevalence);
    }
  });
  ids.forEach((id, at) => {
    if (algorithms.some(({ analyte }) => analyte === id)) return;
    wrong(["analytes", at, "id"], "an analyte that an algorithm of this file is for", id);
  });
}

type Path = readonly (string | number)[];

function checkAlgorithm(
  given: AlgorithmFile,
  algorithm: FileAlgorithm,
  path: Path,
  unknown: Fault,
  wrong: Fault,
): void {
  const { analytes, kits, channels } = given;
  const { analyte, preset, retest_after } = algorithm;
  const ids = analytes.map(({ id }) => id);
  named([...path, "analyte"], analyte, ids, "an analyte of this file", unknown);
  const usable = kits.filter((kit) => Object.hasOwn(kit.analytes, analyte)).map(({ id }) => id);
  const what = `a kit of this file that shows ${analyte}`;
  (algorithm.kits ?? []).forEach((kit, at) => {
    named([...path, "kits", at], kit, usable, what, unknown);
  });
  if (preset !== undefined) checkPreset(algorithm, path, wrong);
  if (algorithm.steps !== undefined) {
    checkSteps(algorithm.steps, [...path, "steps"], { usable, what }, unknown, wrong);
    for (const field of ["discordant", "again"] as const) {
      if (algorithm[field] === undefined) continue;
      wrong([...path, field], "no such field beside steps, which say it themselves", algorithm[field]);
    }
  }
  if (retest_after === undefined) return;
  channels.forEach(({ id, return: share }, at) => {
    if (share !== undefined) return;
    const expected = `return, as algorithm ${algorithm.id} tests inconclusive people anew`;
    wrong(["channels", at], expected, id);
  });
}

function checkPreset({ preset, kits = [], discordant }: FileAlgorithm, path: Path, wrong: Fault): void {
  if (preset === undefined) return;
  const [least, most] = PRESET_KITS[preset];
  if (kits.length < least || kits.length > most) {
    const many = least === most ? `${least}` : `${least} to ${most}`;
    wrong([...path, "kits"], `${many} ${most === 1 ? "kit" : "kits"} for ${preset}`, kits);
  }
  if (discordant !== undefined && preset !== "serial_confirm") {
    wrong([...path, "discordant"], `no such field: only serial_confirm leaves it open`, discordant);
  }
}

function checkMain({ algorithms, analytes }: AlgorithmFile, fault: Fault): void {
  for (const { id } of analytes) {
    const own = algorithms.filter(({ analyte }) => analyte === id);
    if (own.length <= MOST_ALGORITHMS) continue;
    fault(["algorithms"], `at most ${MOST_ALGORITHMS} algorithms for one analyte`, own.length);
  }
  algorithms.forEach(({ analyte, main }, at) => {
    const first = algorithms.findIndex((other) => other.analyte === analyte && other.main === true);
    if (main === true && first < at) {
      fault(["algorithms", at, "main"], `one main algorithm for ${analyte}`, main);
    }
  });
}

/** Minutes can be asked of an algorithm only if every kit says its own. */
function checkTargets({ targets, kits }: AlgorithmFile, fault: Fault): void {
  if (targets.most_minutes === undefined) return;
  kits.forEach(({ id, minutes }, at) => {
    if (minutes === undefined) fault(["kits", at], "minutes, as the targets ask for them", id);
  });
}

function checkSearch({ search, kits }: AlgorithmFile, unknown: Fault, wrong: Fault): void {
  if (search === undefined) return;
  const ids = kits.map(({ id }) => id);
  const names = search.kits ?? ids;
  names.forEach((name, at) => {
    const path = ["search", "kits", at];
    named(path, name, ids, "a kit of this file", unknown);
    if (names.indexOf(name) < at) unknown(path, "each kit once", name);
  });
  if (search.kits === undefined && kits.length > MOST_SEARCHED) {
    wrong(["search"], `kits, at most ${MOST_SEARCHED}, as this file has more`, search);
  }
  kits.forEach(({ id, minutes }, at) => {
    if (minutes === undefined && names.includes(id))
      wrong(["kits", at], "minutes, as the search asks for them", id);
  });
}

function checkObserved({ observed, channels, algorithms }: AlgorithmFile, unknown: Fault, wrong: Fault) {
  observed.forEach((one, at) => {
    const path = ["observed", at];
    const places = channels.map(({ id }) => id);
    named([...path, "channel"], one.channel, places, "a channel of this file", unknown);
    const ids = algorithms.map(({ id }) => id);
    named([...path, "algorithm"], one.algorithm, ids, "an algorithm of this file", unknown);
    const algorithm = algorithms.find(({ id }) => id === one.algorithm);
    if (algorithm === undefined || testsReactiveAgain(algorithm)) return;
    const expected = "an algorithm that tests those who are reactive with another kit";
    wrong([...path, "algorithm"], expected, one.algorithm);
  });
}

function testsReactiveAgain({ preset, kits, steps }: FileAlgorithm): boolean {
  if (preset !== undefined) return preset !== "single" && kits?.[0] !== kits?.[1];
  const second = steps?.find(({ id }) => id === steps[0]?.reactive);
  return second !== undefined && second.kit !== steps?.[0]?.kit;
}
