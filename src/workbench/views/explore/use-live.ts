import { useEffect, useRef, useState } from "preact/hooks";

/** So long after the last move the report follows. */
const REST = 350;

/** A number that is being moved: shown at once, handed on when it rests. */
export interface Live {
  readonly value: number;
  move(value: number): void;
}

export function useLive(now: number, commit: (value: number) => void): Live {
  const [moved, setMoved] = useState<number | null>(null);
  const waiting = useRef<{ readonly timer: ReturnType<typeof setTimeout>; readonly value: number } | null>(
    null,
  );
  const last = useRef(commit);
  last.current = commit;
  const rest = () => {
    const resting = waiting.current;
    if (resting === null) return;
    waiting.current = null;
    clearTimeout(resting.timer);
    last.current(resting.value);
  };
  // What was moved is not lost when the controls leave the page.
  useEffect(() => rest, []);
  return {
    value: moved ?? now,
    move(value) {
      setMoved(value);
      if (waiting.current !== null) clearTimeout(waiting.current.timer);
      const timer = setTimeout(() => {
        rest();
        setMoved(null);
      }, REST);
      waiting.current = { timer, value };
    },
  };
}
