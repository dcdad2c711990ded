import { useEffect, useMemo } from "preact/hooks";
import type { Method } from "../../../core/method.ts";
import { type Fault, faultsOf } from "../../forms/faults.ts";
import { sameValue } from "../../forms/same-value.ts";
import { SchemaForm } from "../../forms/schema-form.tsx";
import { shapeOf } from "../../forms/shape.ts";
import { emptyDraft, examplesOf, type MethodDraft } from "../../methods/method-draft.ts";
import type { Half } from "../../state/actions/methods.ts";
import type { Tried } from "../../state/state.ts";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";

interface Props extends ViewProps {
  readonly method: Method;
  readonly draft: MethodDraft;
  readonly text: string;
}

/** A method that took less than this is computed anew after each change. */
const QUICK_MILLISECONDS = 400;

/** What a method is asked, as two forms made from its schemas, and the button that computes it. */
export function MethodForm({ method, draft, text, store, words }: Props) {
  const tried = useStore(store, (state) => state.tried);
  const faults = useMemo(() => allFaults(method, draft), [method, draft]);
  const { methods } = words;
  const { computeMethod } = store.actions;
  useEffect(() => {
    const quick = tried?.id === method.id && tried.milliseconds < QUICK_MILLISECONDS;
    if (quick && tried.of !== text && faults === 0) void computeMethod(method.id);
  }, [text]);
  const of = { method, draft, tried: tried?.of === text ? tried : null, store, words };
  return (
    <section class="method-form">
      <h2>{methods.input}</h2>
      <p class="how">{beganWith(method, draft, words)}</p>
      <HalfForm {...of} half="input" />
      {hasFields(method.options) && (
        <>
          <h3>{methods.options}</h3>
          <HalfForm {...of} half="options" />
        </>
      )}
      <p class="buttons">
        <button type="button" disabled={faults > 0} onClick={() => void computeMethod(method.id)}>
          {methods.compute}
        </button>
      </p>
      {faults > 0 && <p class="how">{methods.faultsFirst(faults)}</p>}
    </section>
  );
}

interface HalfProps extends ViewProps {
  readonly method: Method;
  readonly draft: MethodDraft;
  readonly tried: Tried | null;
  readonly half: Half;
}

function HalfForm({ method, draft, tried, half, store, words }: HalfProps) {
  const faults = useMemo(() => refusedAt(tried, half), [tried, half]);
  const untouched = useMemo(() => sameValue(draft, emptyDraft(method.input)), [draft, method]);
  return (
    <SchemaForm
      id={`method-${half}`}
      schema={method[half]}
      value={draft[half]}
      words={words}
      faults={faults}
      quiet={untouched}
      onEdit={(edit, typing) => store.actions.editMethod(method.id, half, edit, typing)}
    />
  );
}

function beganWith({ examples }: Method, draft: MethodDraft, { methods }: ViewProps["words"]): string {
  const names = examplesOf(examples, draft).map(({ name }) => name);
  return names.length === 0 ? methods.changed : methods.isExample(names);
}

function allFaults(method: Method, { input, options }: MethodDraft): number {
  return faultsOf(method.input, input).length + faultsOf(method.options, options).length;
}

/** What the method itself refused, at its field. */
function refusedAt(tried: Tried | null, half: Half): Fault[] {
  if (tried === null || tried.given.ok || tried.given.path[0] !== half) return [];
  const { path, expected, received } = tried.given;
  return [{ path: path.slice(1), expected, received }];
}

function hasFields(schema: Method["options"]): boolean {
  const shape = shapeOf(schema);
  return shape.kind !== "fields" || shape.entries.length > 0;
}
