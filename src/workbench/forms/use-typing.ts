import { useEffect, useRef, useState } from "preact/hooks";

/** Time without a key after which what was typed is taken over. */
const PAUSE_MILLISECONDS = 250;

interface Typing {
  readonly text: string;
  readonly type: (text: string) => void;
  /** Takes over at once: Enter was pressed. */
  readonly finish: () => void;
  /** The field is left. */
  readonly leave: () => void;
}

/**
 * What stands in a field while it is typed into. It is taken over after a short pause; text that comes from
 * outside meanwhile (undo, say) takes its place.
 *
 * @param pause milliseconds without a key after which it is taken over; `null`: only when it is finished
 * @param take takes a text over; gives back how the field's value reads from then on, e.g. `0.5` for `0.50`
 */
export function useTyping(
  given: string,
  take: (text: string) => string,
  pause: number | null = PAUSE_MILLISECONDS,
): Typing {
  const [typed, setTyped] = useState({ text: given, over: given });
  const pending = useRef<{
    readonly text: string;
    readonly timer: ReturnType<typeof setTimeout> | undefined;
  } | null>(null);
  const taking = useRef(take);
  taking.current = take;
  const finish = (): void => {
    const { current } = pending;
    if (current === null) return;
    clearTimeout(current.timer);
    pending.current = null;
    const { text } = current;
    setTyped({ text, over: taking.current(text) });
  };
  useEffect(() => () => finish(), []);
  return {
    // What was typed stays as typed ("0.50") until the value becomes another.
    text: typed.over === given ? typed.text : given,
    type(text) {
      if (pending.current !== null) clearTimeout(pending.current.timer);
      setTyped({ text, over: given });
      // A click takes over first, and not the blur before it: a page that moved between press and release of
      // the button would lose the click.
      if (pending.current === null) document.addEventListener("click", finish, { capture: true, once: true });
      pending.current = { text, timer: pause === null ? undefined : setTimeout(finish, pause) };
    },
    finish,
    leave: () => {
      if (pause === null) finish();
    },
  };
}
