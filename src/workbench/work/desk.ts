import type { Ask, Give, JobName } from "./jobs/index.ts";
import { faultOf, JobFault, JobStopped, type Reply, type Request } from "./messages.ts";
import { runJob } from "./serve.ts";
import type { JobStep, Tell } from "./step.ts";

/** The part of a Worker that the desk needs. */
export interface WorkerLike {
  postMessage(request: Request): void;
  terminate(): void;
  onmessage: ((event: { readonly data: Reply }) => void) | null;
  onerror: ((event: unknown) => void) | null;
}

export interface Running<Name extends JobName> {
  /** Rejects with `JobFault`, or with `JobStopped` after `stop()`. */
  readonly given: Promise<Give<Name>>;
  stop(): void;
}

type Outcome = { readonly given: unknown } | { readonly error: Error };

interface Pending {
  readonly request: Request;
  readonly onStep: (step: JobStep) => void;
  readonly settle: (outcome: Outcome) => void;
}

/**
 * Where jobs are handed in. They run in a worker, one after the other; to stop one ends the worker and starts
 * another, which takes over what still waits. Without a worker they run in the page, which takes its turn at
 * each step that a job tells.
 */
export class Desk {
  readonly #start: () => WorkerLike | null;
  readonly #pause: () => Promise<void>;
  readonly #pending = new Map<number, Pending>();
  #worker: WorkerLike | null = null;
  #inPage = false;
  #answered = false;
  #count = 0;

  /**
   * @param start a new worker, or `null` where there can't be one
   * @param pause gives the page its turn
   */
  constructor(start: () => WorkerLike | null, pause: () => Promise<void>) {
    this.#start = start;
    this.#pause = pause;
  }

  /** Whether jobs run in the page itself, since no worker could be started. */
  get inPage(): boolean {
    return this.#inPage;
  }

  run<Name extends JobName>(
    job: Name,
    ask: Ask<Name>,
    onStep: (step: JobStep) => void = () => {},
  ): Running<Name> {
    const id = ++this.#count;
    const request = { id, job, ask } as Request;
    const given = new Promise<Give<Name>>((resolve, reject) => {
      const settle = (outcome: Outcome) =>
        "error" in outcome ? reject(outcome.error) : resolve(outcome.given as Give<Name>);
      this.#pending.set(id, { request, onStep, settle });
    });
    this.#send(request);
    return { given, stop: () => this.#stop(id) };
  }

  #send(request: Request): void {
    if (this.#worker === null && !this.#inPage) this.#worker = this.#begin();
    if (this.#worker === null) void this.#runInPage(request);
    else this.#worker.postMessage(request);
  }

  #begin(): WorkerLike | null {
    const worker = this.#start();
    if (worker === null) {
      this.#inPage = true;
      return null;
    }
    worker.onmessage = ({ data }) => this.#receive(data);
    worker.onerror = (event) => this.#fallen(event);
    return worker;
  }

  #receive(reply: Reply): void {
    this.#answered = true;
    if (reply.kind === "step") this.#pending.get(reply.id)?.onStep(reply.step);
    else if (reply.kind === "given") this.#settle(reply.id, { given: reply.given });
    else this.#settle(reply.id, { error: new JobFault(reply.fault) });
  }

  /** A worker that never answered can't run here at all; one that did fell over, and its job with it. */
  #fallen(event: unknown): void {
    this.#worker?.terminate();
    this.#worker = null;
    if (!this.#answered) this.#inPage = true;
    const first = [...this.#pending.keys()][0];
    if (this.#answered && first !== undefined) {
      this.#settle(first, { error: new JobFault(faultOf(errorOf(event))) });
    }
    this.#sendAll();
  }

  #stop(id: number): void {
    if (!this.#pending.has(id)) return;
    this.#settle(id, { error: new JobStopped() });
    if (this.#worker === null) return;
    this.#worker.terminate();
    this.#worker = null;
    this.#sendAll();
  }

  #sendAll(): void {
    for (const { request } of [...this.#pending.values()]) this.#send(request);
  }

  #settle(id: number, outcome: Outcome): void {
    const pending = this.#pending.get(id);
    this.#pending.delete(id);
    pending?.settle(outcome);
  }

  async #runInPage({ id, job, ask }: Request): Promise<void> {
    const tell: Tell = async (step) => {
      this.#pending.get(id)?.onStep(step);
      await this.#pause();
      if (!this.#pending.has(id)) throw new JobStopped();
    };
    try {
      this.#settle(id, { given: await runJob(job, ask, tell) });
    } catch (error) {
      this.#settle(id, { error: error instanceof JobStopped ? error : new JobFault(faultOf(error)) });
    }
  }
}

function errorOf(event: unknown): Error {
  const message = event !== null && typeof event === "object" && "message" in event ? event.message : event;
  return new Error(String(message));
}
