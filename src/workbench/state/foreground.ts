import type { Desk, Running } from "../work/desk.ts";
import type { Ask, Give, JobName } from "../work/jobs/index.ts";
import { JobFault, JobStopped } from "../work/messages.ts";
import { type JobStep, whole } from "../work/step.ts";
import type { State, Trouble } from "./state.ts";

/** The jobs that the user waits for: their steps are shown, and they can be stopped. */
export class Foreground {
  readonly #desk: Desk;
  readonly #set: (change: Partial<State>) => void;
  readonly #running = new Set<Running<JobName>>();

  constructor(desk: Desk, set: (change: Partial<State>) => void) {
    this.#desk = desk;
    this.#set = set;
  }

  /**
   * Runs a job and shows how far it is. A fault becomes the page's trouble.
   *
   * @param first the step to show until the job tells one
   * @param started receives the running job, to stop it alone
   * @returns `null` where the job was stopped or came to a fault
   */
  async run<Name extends JobName>(
    job: Name,
    ask: Ask<Name>,
    first: JobStep["step"],
    started: (running: Running<Name>) => void = () => {},
  ): Promise<Give<Name> | null> {
    this.#set({ task: whole(first) });
    const running = this.#desk.run(job, ask, (task) => this.#set({ task }));
    this.#running.add(running);
    started(running);
    try {
      return await running.given;
    } catch (error) {
      if (!(error instanceof JobStopped)) this.#set({ trouble: troubleOf(error) });
      return null;
    } finally {
      this.#running.delete(running);
      if (this.#running.size === 0) this.#set({ task: null });
    }
  }

  /** Stops everything that the user waits for; the page keeps what it shows. */
  stop(): void {
    for (const running of [...this.#running]) running.stop();
  }
}

/** What came of a job, as the page tells it. */
function troubleOf(error: unknown): Trouble {
  if (error instanceof JobFault) return { kind: error.fault.kind, detail: error.fault.message };
  return { kind: "program", detail: String(error) };
}
