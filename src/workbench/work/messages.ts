import { InputError } from "../../core/input-error.ts";
import type { Ask, JobName } from "./jobs/index.ts";
import type { JobStep } from "./step.ts";

/** What the page sends to the worker. */
export type Request = {
  [Name in JobName]: { readonly id: number; readonly job: Name; readonly ask: Ask<Name> };
}[JobName];

/** What the worker sends back; `id` is the request's. */
export type Reply =
  | { readonly id: number; readonly kind: "step"; readonly step: JobStep }
  | { readonly id: number; readonly kind: "given"; readonly given: unknown }
  | { readonly id: number; readonly kind: "fault"; readonly fault: Fault };

/** An error as it passes between worker and page. */
export interface Fault {
  /** `input`: what was asked does not fit, the message says what; `program`: a fault of Fourfold. */
  readonly kind: "input" | "program";
  readonly message: string;
  /** For the report of a fault of the program. */
  readonly trace: string | null;
}

export function faultOf(error: unknown): Fault {
  if (error instanceof InputError) return { kind: "input", message: error.message, trace: null };
  const known = error instanceof Error ? error : new Error(String(error));
  return { kind: "program", message: known.message, trace: known.stack ?? null };
}

/** A job that came to a fault, on the page's side. */
export class JobFault extends Error {
  override readonly name = "JobFault";
  readonly fault: Fault;

  constructor(fault: Fault) {
    super(fault.message);
    this.fault = fault;
  }
}

/** A job that was stopped before its end, by the user or by a newer one. */
export class JobStopped extends Error {
  override readonly name = "JobStopped";
}
