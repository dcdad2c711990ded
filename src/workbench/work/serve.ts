import { type JobName, jobs } from "./jobs/index.ts";
import { faultOf, type Reply, type Request } from "./messages.ts";
import type { Tell } from "./step.ts";

/** The part of a worker's global scope that serving needs. */
export interface WorkerScope {
  postMessage(reply: Reply): void;
  onmessage: ((event: { readonly data: Request }) => void) | null;
}

type AnyJob = (ask: unknown, tell: Tell) => Promise<unknown>;

/** Runs one job here, in the worker or in the page. */
export function runJob(job: JobName, ask: unknown, tell: Tell): Promise<unknown> {
  return (jobs[job] as AnyJob)(ask, tell);
}

/** The worker's side: one request after the other, each answered once. */
export function serve(scope: WorkerScope): void {
  let last: Promise<void> = Promise.resolve();
  scope.onmessage = ({ data }) => {
    last = last.then(() => answer(scope, data));
  };
}

async function answer(scope: WorkerScope, { id, job, ask }: Request): Promise<void> {
  const tell: Tell = async (step) => scope.postMessage({ id, kind: "step", step });
  try {
    scope.postMessage({ id, kind: "given", given: await runJob(job, ask, tell) });
  } catch (error) {
    scope.postMessage({ id, kind: "fault", fault: faultOf(error) });
  }
}
