import { useLayoutEffect, useRef } from "preact/hooks";
import type { Method } from "../../../core/method.ts";
import { methodPlace, readDraft } from "../../methods/method-draft.ts";
import { workOf } from "../../state/state.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";
import { AboutMethod } from "./about-method.tsx";
import { MethodForm } from "./method-form.tsx";
import { MethodResult } from "./method-result.tsx";

interface Props extends ViewProps {
  readonly method: Method;
}

/** One method: where to begin, its form, what came of it, and what is known of it beside. */
export function MethodPage({ method, store, words }: Props) {
  const text = useStore(store, (state) => workOf(state).drafts[methodPlace(method.id)]);
  const draft = readDraft(text);
  const { methods } = words;
  const heading = useRef<HTMLHeadingElement>(null);
  useLayoutEffect(() => begin(heading.current), []);
  return (
    <main class="methods">
      <p class="over">
        {methods.areas[method.id.split(".")[0] ?? ""]}{" "}
        <button type="button" class="plain" onClick={() => store.actions.openMethod(null)}>
          {methods.all}
        </button>
      </p>
      <h1 tabIndex={-1} ref={heading}>
        {method.title}
      </h1>
      <p class="sub">{method.question}</p>
      <div class="method-columns">
        <div>
          <Beginnings method={method} store={store} words={words} />
          {draft === null || text === undefined ? (
            <p class="how">{methods.noInput}</p>
          ) : (
            <>
              <MethodForm method={method} draft={draft} text={text} store={store} words={words} />
              <MethodResult method={method} draft={draft} text={text} store={store} words={words} />
            </>
          )}
        </div>
        <AboutMethod method={method} words={words} />
      </div>
    </main>
  );
}

/** The button that led here is gone: the focus goes to the heading, unless the whole part is hidden. */
function begin(heading: HTMLElement | null): void {
  if (heading === null || heading.closest("[hidden]") !== null) return;
  window.scrollTo(0, 0);
  if (document.activeElement === document.body) heading.focus({ preventScroll: true });
}

function Beginnings({ method, store, words }: Props) {
  const { methods } = words;
  return (
    <section class="method-begin" aria-label={methods.start}>
      <h2>{methods.start}</h2>
      <ul>
        {method.examples.map(({ name }, place) => (
          <li key={name}>
            <button
              type="button"
              class="plain"
              aria-label={methods.example(name)}
              onClick={() => store.actions.takeExample(method.id, place)}
            >
              {name}
            </button>
          </li>
        ))}
        <li>
          <button type="button" class="plain" onClick={() => store.actions.emptyMethod(method.id)}>
            {methods.empty}
          </button>
        </li>
      </ul>
    </section>
  );
}
