/** How far a job has come. Words for the steps stand in the words table. */
export interface JobStep {
  readonly step:
    | "reading"
    | "evaluating"
    | "drawing"
    | "writing"
    | "packing"
    | "planning"
    | "following"
    | "computing";
  /** Parts done of all; `null` where the step can't be divided. */
  readonly done: number | null;
  readonly of: number | null;
}

/**
 * Tells a step. To be awaited: where there is no worker, the page takes its turn meanwhile, and a job that
 * was stopped ends there.
 */
export type Tell = (step: JobStep) => Promise<void>;

export const whole = (step: JobStep["step"]): JobStep => ({ step, done: null, of: null });
