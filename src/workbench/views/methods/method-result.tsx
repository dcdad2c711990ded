import { useMemo } from "preact/hooks";
import type { Computed, Method, WorkedExample } from "../../../core/method.ts";
import { shapeOf } from "../../forms/shape.ts";
import { type Compared, compared } from "../../methods/expected.ts";
import { examplesOf, type MethodDraft, readDraft } from "../../methods/method-draft.ts";
import { valueParts } from "../../methods/value-rows.ts";
import { Scrolling } from "../scrolling.tsx";
import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";
import { sourceOf } from "./about-method.tsx";
import { Plain } from "./plain-value.tsx";
import { ValueTables } from "./value-tables.tsx";

interface Props extends ViewProps {
  readonly method: Method;
  readonly draft: MethodDraft;
  readonly text: string;
}

/** What came of asking; it stays while the next is computed. */
export function MethodResult({ method, text, store, words }: Props) {
  const tried = useStore(store, (state) => state.tried);
  const { methods } = words;
  const mine = tried?.id === method.id ? tried : null;
  return (
    <section class="method-result" aria-label={methods.result}>
      <h2>{methods.result}</h2>
      <p class="how method-state">{mine === null ? methods.none : mine.of === text ? "" : methods.earlier}</p>
      {mine?.given.ok === false && <p class="form-fault">{methods.refused(mine.given.message)}</p>}
      {mine?.given.ok && (
        <Finding method={method} of={mine.of} computed={mine.given.computed} words={words} />
      )}
    </section>
  );
}

interface FindingProps extends Pick<ViewProps, "words"> {
  readonly method: Method;
  /** What was asked, as it lies among the drafts. */
  readonly of: string;
  readonly computed: Computed;
}

function Finding({ method, of, computed, words }: FindingProps) {
  const parts = useMemo(() => valueParts(shapeOf(method.values), computed.values), [method, computed]);
  const examples = useMemo(() => {
    const draft = readDraft(of);
    return draft === null ? [] : examplesOf(method.examples, draft);
  }, [method, of]);
  const messages = [...new Set(computed.notes.map(({ message }) => message))];
  return (
    <>
      {examples.map((example) => (
        <Expected key={example.name} example={example} computed={computed} words={words} />
      ))}
      <ValueTables part={parts} words={words} depth={0} />
      {messages.length > 0 && (
        <>
          <h3>{words.methods.notes}</h3>
          <ul class="notes">
            {messages.map((message) => (
              <li key={message}>{words.inReport.grammar.sentence(message)}</li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

interface ExpectedProps extends Pick<ViewProps, "words"> {
  readonly example: WorkedExample;
  readonly computed: Computed;
}

/** Rows of a comparison that need no folding. */
const FEW = 6;

/** What the worked example states, held against what was computed here and now. */
function Expected({ example, computed, words }: ExpectedProps) {
  const { expected } = words.methods;
  const rows = compared(example, computed.values);
  const agreeing = rows.filter(({ agrees }) => agrees).length;
  return (
    <details class="method-expected" open={rows.length <= FEW || agreeing < rows.length}>
      <summary>{expected.summary(agreeing, rows.length)}</summary>
      <Scrolling label={`${expected.caption}: ${example.name}`}>
        <ComparedTable rows={rows} words={words} />
      </Scrolling>
      <p class="how">{backgroundOf(example, expected)}</p>
    </details>
  );
}

function backgroundOf(
  { tolerance, source, recomputedBy, memory }: WorkedExample,
  said: ExpectedWords,
): string {
  const recomputed = recomputedBy === undefined ? [] : [said.recomputed(recomputedBy)];
  const recalled = memory ? [said.memory] : [];
  return [said.within(tolerance), said.source(sourceOf(source).citation), ...recomputed, ...recalled].join(
    " ",
  );
}

type ExpectedWords = ViewProps["words"]["methods"]["expected"];

function ComparedTable({ rows, words }: Pick<ViewProps, "words"> & { readonly rows: readonly Compared[] }) {
  const { expected } = words.methods;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">{expected.path}</th>
          <th scope="col">{expected.expected}</th>
          <th scope="col">{expected.computed}</th>
          <th scope="col">{expected.verdict}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((one) => (
          <tr key={one.path}>
            <th scope="row">
              <code>{one.path}</code>
            </th>
            <td>
              <Plain value={one.expected} words={words} exact />
            </td>
            <td>
              <Plain value={one.computed} words={words} exact />
            </td>
            <td class={one.agrees ? "agrees" : "differs-from"}>
              {one.agrees ? expected.agrees : expected.differs}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
