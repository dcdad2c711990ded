import { secondsOf } from "./calendar.ts";
import { type Draws, drawsOf } from "./draws.ts";
import { ANALYTES, ASSAY, LINE_OF, type Plan, SITES } from "./scenario.ts";
import type { AnalyteId, ByAnalyte, ByLine, Reading, ReferenceRun, Result, Status, Visit } from "./world.ts";

export interface Laboratory {
  readonly runs: readonly ReferenceRun[];
  readonly reference: ReadonlyMap<Visit, ByAnalyte<Status>>;
  readonly withoutReference: ReadonlyMap<Visit, "pending" | "lost">;
}

/** The reference algorithm on everybody's plasma, blinded to the rapid results. */
export function runLaboratory(
  seed: number,
  visits: readonly Visit[],
  readings: readonly Reading[],
  plan: Plan,
): Laboratory {
  const draws = drawsOf(seed, "laboratory");
  const withoutReference = loseSome(draws, visits, plan);
  const reference = new Map<Visit, ByAnalyte<Status>>();
  const runs: ReferenceRun[] = [];
  for (const visit of visits) {
    if (withoutReference.has(visit)) {
      reference.set(visit, { hbsag: "not_done", anti_hcv: "not_done" });
      continue;
    }
    const bench = new Bench(draws, visit);
    const hbsag = testSurfaceAntigen(draws, bench, visit.person.has.hbsag);
    const anti_hcv = testAntibody(draws, bench, visit.person.has.anti_hcv);
    reference.set(visit, { hbsag, anti_hcv });
    runs.push(...bench.runs);
  }
  const known = venousResults(readings);
  return {
    runs: [...runs, ...retestSome(draws, reference, known).slice(0, plan.triggeredByIndex)],
    reference,
    withoutReference,
  };
}

/** One visit's plasma on the laboratory bench: numbers the runs and dates them. */
class Bench {
  readonly runs: ReferenceRun[] = [];
  private readonly day: number;
  constructor(
    draws: Draws,
    private readonly visit: Visit,
  ) {
    this.day = visit.day + draws.whole(1, 6);
  }

  record(
    analyte: AnalyteId,
    assay: string,
    step: number,
    result: ReferenceRun["result"],
    value: { value: number; unit: string } | null = null,
    suffix = "",
    triggeredByIndex = false,
  ): void {
    const day = this.day + step - 1;
    this.runs.push({
      specimen: this.visit.plasma.id,
      analyte,
      assay,
      step,
      runAt: secondsOf(day, 9 + 2 * step),
      run: `${assay}-${String(day).padStart(3, "0")}${suffix}`,
      result,
      value: value?.value ?? null,
      unit: value?.unit ?? null,
      lab: labOf(this.visit),
      triggeredByIndex,
    });
  }
}

function labOf(visit: Visit): string {
  return (SITES.find(({ id }) => id === visit.person.site) as (typeof SITES)[number]).lab;
}

/** Enzyme immunoassay; if reactive in duplicate; if repeatedly reactive neutralisation. */
function testSurfaceAntigen(draws: Draws, bench: Bench, has: boolean): Status {
  const assay = ASSAY.hbsag;
  const reactive = draws.chance(has ? assay.sensitivity : 1 - assay.specificity);
  bench.record("hbsag", "H-EIA", 1, reactive ? "reactive" : "nonreactive", signalToCutoff(draws, reactive));
  if (!reactive) {
    secondEnzymeAssay(draws, bench, "hbsag", has);
    return "negative";
  }
  const repeats = [1, 2].map(() => draws.chance(has ? assay.sensitivity : assay.repeatReactiveIfFalse));
  repeats.forEach((again, index) => {
    const value = signalToCutoff(draws, again);
    bench.record("hbsag", "H-EIA-DUP", 2, again ? "reactive" : "nonreactive", value, index === 0 ? "a" : "b");
  });
  if (!repeats.some(Boolean)) return "negative";
  const worked = draws.chance(assay.neutralisationValid);
  bench.record("hbsag", "H-NEUT", 3, !worked ? "failed" : has ? "reactive" : "nonreactive");
  if (!worked) return "indeterminate";
  return has ? "positive" : "negative";
}

/** Enzyme immunoassay; if reactive immunoblot. RNA describes viraemia and never decides the status. */
function testAntibody(draws: Draws, bench: Bench, has: boolean): Status {
  const assay = ASSAY.anti_hcv;
  const reactive = draws.chance(has ? assay.sensitivity : 1 - assay.specificity);
  bench.record(
    "anti_hcv",
    "C-EIA",
    1,
    reactive ? "reactive" : "nonreactive",
    signalToCutoff(draws, reactive),
  );
  if (!reactive) {
    secondEnzymeAssay(draws, bench, "anti_hcv", has);
    return "negative";
  }
  const blot = drawBlot(draws, has);
  bench.record("anti_hcv", "C-BLOT", 2, blot);
  if (blot === "reactive") {
    const viraemic = draws.chance(assay.viraemic);
    const value = { value: viraemic ? Math.round(Math.pow(10, draws.normal(5.7, 0.8))) : 0, unit: "IU/mL" };
    bench.record("anti_hcv", "C-RNA", 3, viraemic ? "reactive" : "nonreactive", value);
    return "positive";
  }
  return blot === "indeterminate" ? "indeterminate" : "negative";
}

function drawBlot(draws: Draws, has: boolean): "reactive" | "nonreactive" | "indeterminate" {
  const { blotPositiveIfTrue, blotIndeterminateIfTrue, blotIndeterminateIfFalse } = ASSAY.anti_hcv;
  const positive = has ? blotPositiveIfTrue : 0;
  const indeterminate = has ? blotIndeterminateIfTrue : blotIndeterminateIfFalse;
  return draws.weighted({
    reactive: positive,
    indeterminate,
    nonreactive: 1 - positive - indeterminate,
  });
}

/** A random tenth of the first assay's negatives is tested by a second one, for quality control. */
function secondEnzymeAssay(draws: Draws, bench: Bench, analyte: AnalyteId, has: boolean): void {
  if (!draws.chance(ASSAY.secondEnzymeShare)) return;
  const { sensitivity, specificity } = ASSAY[analyte];
  const reactive = draws.chance(has ? sensitivity : 1 - specificity);
  const assay = analyte === "hbsag" ? "H-EIA2" : "C-EIA2";
  bench.record(analyte, assay, 2, reactive ? "reactive" : "nonreactive", signalToCutoff(draws, reactive));
}

function signalToCutoff(draws: Draws, reactive: boolean): { value: number; unit: string } {
  const level = reactive ? Math.max(0.01, draws.normal(1.2, 0.5)) : Math.min(-0.02, draws.normal(-0.8, 0.25));
  return { value: Math.round(Math.pow(10, level) * 100) / 100, unit: "S/CO" };
}

function loseSome(draws: Draws, visits: readonly Visit[], plan: Plan): Map<Visit, "pending" | "lost"> {
  const firstVisits = visits.filter((visit) => visit.number === 1);
  const some = draws.sample(firstVisits, plan.pending + plan.lost);
  const lost = new Set(draws.sample(some, plan.lost));
  return new Map(some.map((visit) => [visit, lost.has(visit) ? "lost" : "pending"]));
}

function venousResults(readings: readonly Reading[]): Map<Visit, ByLine<Result>> {
  const venous = readings.filter(
    ({ reader, device }) => reader === "R1" && device.specimen.type === "venous_whole_blood",
  );
  return new Map(venous.map(({ device, result }) => [device.visit, result]));
}

/**
 * Planted: the second laboratory tests some specimens again because the rapid test was reactive,
 * first of all those whose reference status was not positive.
 */
function retestSome(
  draws: Draws,
  reference: ReadonlyMap<Visit, ByAnalyte<Status>>,
  known: ReadonlyMap<Visit, ByLine<Result>>,
): ReferenceRun[] {
  const reactive = [...reference].flatMap(([visit, status]) =>
    ANALYTES.filter((analyte) => known.get(visit)?.[LINE_OF[analyte]] === "reactive")
      .filter((analyte) => labOf(visit) === "REF-2" && visit.number === 1 && status[analyte] !== "not_done")
      .map((analyte) => ({ visit, analyte, discordant: status[analyte] !== "positive" })),
  );
  const oneEach = reactive.filter(
    ({ visit }, index) => reactive.findIndex((other) => other.visit === visit) === index,
  );
  const chosen = [...oneEach.filter((one) => one.discordant), ...oneEach.filter((one) => !one.discordant)];
  return chosen.flatMap(({ visit, analyte }) => {
    const bench = new Bench(draws, visit);
    const assay = analyte === "hbsag" ? "H-EIA2" : "C-EIA2";
    const { sensitivity, specificity } = ASSAY[analyte];
    const again = draws.chance(visit.person.has[analyte] ? sensitivity : 1 - specificity);
    const value = signalToCutoff(draws, again);
    bench.record(analyte, assay, 4, again ? "reactive" : "nonreactive", value, "t", true);
    return bench.runs;
  });
}
