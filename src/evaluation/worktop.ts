import type * as v from "valibot";
import type { ProportionEstimate } from "../core/estimate.ts";
import { type Computed, compute, type Method } from "../core/method.ts";
import { taskNumber } from "../core/random.ts";
import { interval } from "../methods/proportion/interval.ts";
import type { PairedSet, StudyRecords } from "../records/model.ts";
import type { Study } from "../records/study.ts";
import { type Tally, tally } from "../records/tallies.ts";
import type { Treatment } from "../records/treatment.ts";

/** What every section works with: the records, the plan, and one way to call a method. */
export interface Worktop {
  readonly records: StudyRecords;
  readonly study: Study;
  /** The interval that the study file chose. */
  readonly interval: Study["interval"];
  /** The treatments of the primary analysis. */
  readonly treatment: Treatment;
  /** Runs a method and remembers that it was used. */
  readonly compute: typeof compute;
  /** A set counted under the treatments of the primary analysis, or under others. */
  tally(set: PairedSet, changed?: Partial<Treatment>): Tally;
  /** A proportion with the study's interval. */
  proportion(count: number, total: number): ProportionEstimate;
  /** Seed of one random result: of the study's seed and the place, so that no two share their draws. */
  seedOf(place: string): number;
  /** Every method used so far, by id. */
  used(): { id: string; version: number }[];
}

export function worktopFor(records: StudyRecords): Worktop {
  const { study } = records;
  const used = new Map<string, number>();
  const known = new Map<string, ProportionEstimate>();
  const tallies = new Map<PairedSet, Map<string, Tally>>();
  const primary: Treatment = {
    invalid: study.treatment.invalid,
    outsideWindow: study.treatment.outside_window,
  };
  const run = <
    Input extends v.GenericSchema,
    Options extends v.GenericSchema,
    Values extends v.GenericSchema,
  >(
    method: Method<Input, Options, Values>,
    input: v.InferInput<Input>,
    options?: v.InferInput<Options>,
  ): Computed<v.InferOutput<Input>, v.InferOutput<Options>, v.InferOutput<Values>> => {
    used.set(method.id, method.version);
    return compute(method, input, options);
  };
  return {
    records,
    study,
    interval: study.interval,
    treatment: primary,
    compute: run,
    tally(set, changed) {
      const treatment = { ...primary, ...changed };
      const key = `${treatment.invalid} ${treatment.outsideWindow}`;
      const counted = tallies.get(set) ?? new Map<string, Tally>();
      tallies.set(set, counted);
      const found = counted.get(key) ?? tally(set, treatment);
      counted.set(key, found);
      return found;
    },
    proportion(count, total) {
      const key = `${count}/${total}`;
      const found = known.get(key) ?? run(interval, { count, total }, study.interval).values.proportion;
      known.set(key, found);
      return found;
    },
    seedOf: (place) => (study.seed ^ taskNumber(place)) >>> 0,
    used: () =>
      [...used].map(([id, version]) => ({ id, version })).sort((one, other) => (one.id < other.id ? -1 : 1)),
  };
}
