import type { Io } from "./io.ts";

/** Tells on standard error what is being done; a step that took more than a second says how long. */
export interface Progress {
  step(text: string): void;
  end(): void;
}

const WORTH_TELLING = 1000;

export function progressOn(io: Io): Progress {
  let current: { readonly text: string; readonly since: number } | null = null;
  const end = () => {
    if (current === null) return;
    const took = io.now() - current.since;
    if (took > WORTH_TELLING) io.err(`${current.text}: ${(took / 1000).toFixed(1)} s\n`);
    current = null;
  };
  return {
    step(text) {
      end();
      current = { text, since: io.now() };
      io.err(`${text} …\n`);
    },
    end,
  };
}
