import type { AlgorithmFile, FileChannel } from "../../../records/algorithm/algorithm-schema.ts";
import type {
  AlgorithmLine,
  AlgorithmOutcome,
  AlgorithmsAnswer,
  BestAlgorithm,
  DrawnUncertainty,
  FollowedAlgorithm,
} from "../document.ts";
import type { AlgorithmWorktop } from "../worktop.ts";
import { costOf } from "./costs.ts";
import { minutesOf } from "./minutes.ts";

/** What is found of every algorithm in every channel, and which is best where. */
export function answerSection(
  worktop: AlgorithmWorktop,
  outcomes: readonly AlgorithmOutcome[],
  uncertainty: readonly DrawnUncertainty[],
): AlgorithmsAnswer {
  const { channels, targets } = worktop.file;
  const lines = channels.flatMap((channel) =>
    worktop.followed.map((followed) => lineOf(worktop, channel, followed, outcomes, uncertainty)),
  );
  const main = worktop.followed.find((one) => one.main) as FollowedAlgorithm;
  const leading = { channel: (channels[0] as FileChannel).id, algorithm: main.algorithm };
  const best = channels.flatMap((channel) =>
    worktop.file.analytes.map(({ id }) => bestOf(worktop, lines, channel.id, id)),
  );
  return { target: targets.ppv ?? null, leading, lines, best };
}

function lineOf(
  worktop: AlgorithmWorktop,
  channel: FileChannel,
  followed: FollowedAlgorithm,
  outcomes: readonly AlgorithmOutcome[],
  uncertainty: readonly DrawnUncertainty[],
): AlgorithmLine {
  const { algorithm, analyte, main } = followed;
  const found = outcomes.find((one) => one.channel === channel.id && one.algorithm === algorithm);
  const { values } = (found as AlgorithmOutcome).outcome;
  const [at, alone] = [values.at[0], values.independent.at[0]];
  if (at === undefined || alone === undefined) throw new Error("an outcome at no prevalence");
  const drawn = drawnOf(uncertainty, analyte, channel.id, algorithm);
  const per100000 = peopleOf(at.perPeople);
  const perYear = scaled(per100000, channel.clients / 100_000);
  const kits = at.runs.map(({ kit, perPerson }) => ({ kit, perPerson: perPerson ?? 0 }));
  const minutes = minutesOf(worktop.file, followed, values, at.prevalence);
  const cost = costOf(worktop, channel, followed, { per100000, kits });
  const meets = judged(worktop.file, followed, at, minutes.most);
  return {
    channel: channel.id,
    algorithm,
    analyte,
    main,
    prevalence: at.prevalence,
    sensitivity: { value: values.net.sensitivity, ...limits(drawn?.sensitivity) },
    specificity: { value: values.net.specificity, ...limits(drawn?.specificity) },
    ppv: { value: at.ppv, ...limits(drawn?.at.ppv) },
    npv: { value: at.npv, ...limits(drawn?.at.npv) },
    independent: {
      sensitivity: values.independent.net.sensitivity,
      specificity: values.independent.net.specificity,
      ppv: alone.ppv,
      npv: alone.npv,
    },
    chance: chancesOf(worktop.file, drawn),
    meets,
    per100000,
    perYear,
    cost: { ...cost.values, perClient: { value: cost.perClient, ...limits(drawn?.at.cost) } },
    minutes,
    kits,
    notes: cost.notes,
  };
}

type Drawn = ReturnType<typeof drawnOf>;

/** One algorithm in one channel, as drawn. */
function drawnOf(
  uncertainty: readonly DrawnUncertainty[],
  analyte: string,
  channel: string,
  algorithm: string,
) {
  const one = uncertainty.find((drawn) => drawn.analyte === analyte && drawn.channels.includes(channel));
  const values = one?.drawn.values.algorithms.find(({ id }) => id === algorithm);
  const at = values?.at.find(({ label }) => label === channel);
  return values === undefined || at === undefined ? null : { ...values, at };
}

interface Limits {
  readonly lower: number | null;
  readonly upper: number | null;
}

const limits = (drawn: Limits | undefined) => ({ lower: drawn?.lower ?? null, upper: drawn?.upper ?? null });

function chancesOf({ targets }: AlgorithmFile, drawn: Drawn): AlgorithmLine["chance"] {
  const reaches = drawn?.at.reaches;
  const asked = [targets.ppv, targets.npv, targets.most_inconclusive].some((target) => target !== undefined);
  return {
    ppv: reaches?.ppv?.value ?? null,
    npv: reaches?.npv?.value ?? null,
    inconclusive: reaches?.inconclusive?.value ?? null,
    all: asked ? (reaches?.all.value ?? null) : null,
    best: drawn?.at.best.value ?? null,
  };
}

interface Reached {
  readonly ppv: number | null;
  readonly npv: number | null;
  readonly inconclusive: number | null;
  readonly lost: number | null;
}

function judged(
  { targets, kits }: AlgorithmFile,
  { steps, kits: used }: FollowedAlgorithm,
  at: Reached,
  most: number | null,
): AlgorithmLine["meets"] {
  const { ppv, npv, most_inconclusive, most_minutes, different_antigens } = targets;
  const undecided = (at.inconclusive ?? 0) + (at.lost ?? 0);
  const repeated = new Set(steps.map(({ kit }) => kit)).size < onOnePath(steps);
  const antigens = used.map((id) => kits.find((kit) => kit.id === id)?.antigens ?? `only ${id}`);
  const meets = {
    ppv: ppv === undefined ? null : at.ppv !== null && at.ppv >= ppv,
    npv: npv === undefined ? null : at.npv !== null && at.npv >= npv,
    inconclusive: most_inconclusive === undefined ? null : undecided <= most_inconclusive,
    minutes: most_minutes === undefined ? null : most !== null && most <= most_minutes,
    antigens: different_antigens === true ? !repeated && new Set(antigens).size === antigens.length : null,
  };
  return { ...meets, all: Object.values(meets).every((one) => one !== false) };
}

/** The most steps that somebody may pass. */
function onOnePath(steps: FollowedAlgorithm["steps"]): number {
  const longest = (id: string): number => {
    const step = steps.find((one) => one.id === id);
    if (step === undefined) return 0;
    return 1 + Math.max(...[step.reactive, step.nonreactive, step.invalid].map(longest));
  };
  return longest(steps[0]?.id ?? "");
}

/** Chances nearer to each other than this are alike: the draws can hardly tell them apart. */
const AS_SURE = 0.005;

function bestOf(
  { file }: AlgorithmWorktop,
  lines: readonly AlgorithmLine[],
  channel: string,
  analyte: string,
): BestAlgorithm {
  const own = lines.filter((line) => line.channel === channel && line.analyte === analyte);
  const price = (line: AlgorithmLine) => line.cost.perClient.value ?? Number.POSITIVE_INFINITY;
  const asked = Object.values(file.targets).some((target) => target !== undefined && target !== false);
  const [cheapest] = own.filter(({ meets }) => meets.all).sort((one, other) => price(one) - price(other));
  const fit = own.filter(
    ({ chance, meets }) => chance.all !== null && meets.minutes !== false && meets.antigens !== false,
  );
  const highest = Math.max(...fit.map(({ chance }) => chance.all ?? 0));
  const [surest] = fit
    .filter(({ chance }) => (chance.all ?? 0) >= highest - AS_SURE)
    .sort((one, other) => price(one) - price(other));
  return {
    channel,
    analyte,
    cheapest: asked ? (cheapest?.algorithm ?? null) : null,
    cheapestChance: asked ? (cheapest?.chance.all ?? null) : null,
    surest: surest?.algorithm ?? null,
    surestChance: surest?.chance.all ?? null,
  };
}

type People = AlgorithmLine["per100000"];

function peopleOf(expected: { readonly [Key in keyof People]: number | null }): People {
  return {
    truePositives: expected.truePositives ?? 0,
    falsePositives: expected.falsePositives ?? 0,
    missed: expected.missed ?? 0,
    trueNegatives: expected.trueNegatives ?? 0,
    inconclusive: expected.inconclusive ?? 0,
    lost: expected.lost ?? 0,
  };
}

function scaled(people: People, by: number): People {
  return {
    truePositives: people.truePositives * by,
    falsePositives: people.falsePositives * by,
    missed: people.missed * by,
    trueNegatives: people.trueNegatives * by,
    inconclusive: people.inconclusive * by,
    lost: people.lost * by,
  };
}
