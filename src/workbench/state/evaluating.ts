import { filesOf } from "../study/folder.ts";
import type { Running } from "../work/desk.ts";
import type { Core } from "./core.ts";
import { type State, workOf } from "./state.ts";
import { sameStudy } from "./work.ts";

/** Evaluates the present work; a newer one stops the older. The old report stays until the new one stands. */
export class Evaluating {
  readonly #core: Core;
  #running: Running<"evaluateStudy"> | null = null;

  constructor(core: Core) {
    this.#core = core;
  }

  /** Begins anew, unless what the page shows is of the present work's study. */
  async begin(): Promise<void> {
    const work = workOf(this.#core.get());
    this.stop();
    if (work.files.size === 0) return this.#core.set({ reading: null, shown: null });
    const { reading } = this.#core.get();
    if (reading !== null && sameStudy(reading.of, work)) return;
    const ask = { files: filesOf(work.files), explored: work.explored };
    const given = await this.#core.run("evaluateStudy", ask, "reading", (running) => {
      this.#running = running;
    });
    if (given === null || !sameStudy(workOf(this.#core.get()), work)) return;
    const { found, report } = given;
    const shown = report === null ? {} : { shown: { ...report, of: work } };
    this.#core.set({
      trouble: null,
      reading: { ...found, of: work },
      ...shown,
      ...this.#arrived(report !== null),
    });
  }

  stop(): void {
    this.#running?.stop();
    this.#running = null;
  }

  /** The report is announced; a study that can't be read shows why. */
  #arrived(readable: boolean): Partial<State> {
    const { words } = this.#core;
    if (readable) return { announced: words.bench.reportStands };
    const { view } = this.#core.get();
    return { announced: words.bench.notReadable, view: view === "report" ? "study" : view };
  }
}
