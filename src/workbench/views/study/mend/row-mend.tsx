import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import type { RowIssue } from "../../../../records/model.ts";
import { workOf } from "../../../state/state.ts";
import { rowsAround } from "../../../study/csv-row.ts";
import { plainName, textOf } from "../../../study/folder.ts";
import { useStore } from "../../use-store.ts";
import type { ViewProps } from "../../view.ts";
import type { OpenFault } from "./open-fault.ts";
import { RowTable } from "./row-table.tsx";

interface Props extends ViewProps {
  readonly fault: OpenFault;
  readonly show: (fault: OpenFault | null) => void;
}

const NEIGHBOURS = 2;

/** The row of a fault with its neighbours, the faulty cell first in hand; every change is read again at once. */
export function RowMend({ store, words, fault, show }: Props) {
  const issue = fault.issues[fault.place] as RowIssue;
  const file = plainName(issue.file);
  const row = issue.row ?? 0;
  const bytes = useStore(store, (state) => workOf(state).files.get(file));
  const text = useMemo(() => textOf(workOf(store.get()).files, file), [bytes]);
  const found = useMemo(() => (text === null ? null : rowsAround(text, row, NEIGHBOURS)), [text, row]);
  const box = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    const { current } = box;
    const cell = current?.querySelector<HTMLElement>("[data-faulty]") ?? current?.querySelector("input");
    cell?.focus();
    current?.scrollIntoView({ block: "nearest" });
  }, [file, row, issue.column]);
  const { mend } = words;
  return (
    <section class="mend" ref={box} aria-label={mend.heading(file, row)}>
      <h3>{mend.heading(file, row)}</h3>
      <p aria-live="polite">
        <Verdict issue={issue} store={store} words={words} />
      </p>
      {found === null ? (
        <p>{mend.gone}</p>
      ) : (
        <RowTable found={found} file={file} row={row} column={issue.column} store={store} words={words} />
      )}
      <Steps fault={fault} show={show} words={words} />
      <p class="how">{mend.after}</p>
    </section>
  );
}

/** What is wrong with the row now that the files have been read again. */
function Verdict({ issue, store, words }: ViewProps & { readonly issue: RowIssue }) {
  const issues = useStore(store, ({ reading }) => reading?.issues ?? NONE);
  const there = issues.filter(({ file, row }) => file === issue.file && row === issue.row);
  const said = there.find(({ rule }) => rule === issue.rule) ?? there[0];
  if (said === undefined) return <>{words.mend.mended}</>;
  const column = said.column === null ? "" : `${said.column}: `;
  return (
    <>
      {column}
      {words.mend.still(said.expected, said.received)}
    </>
  );
}

const NONE: readonly RowIssue[] = [];

function Steps({ fault, show, words }: Pick<Props, "fault" | "show" | "words">) {
  const { issues, place } = fault;
  const { mend } = words;
  const to = (next: number) => show({ issues, place: next });
  return (
    <p class="buttons">
      {issues.length > 1 && (
        <>
          <span class="mend-of">{mend.of(place + 1, issues.length)}</span>
          <button type="button" disabled={place === 0} onClick={() => to(place - 1)}>
            {mend.previous}
          </button>
          <button type="button" disabled={place === issues.length - 1} onClick={() => to(place + 1)}>
            {mend.next}
          </button>
        </>
      )}
      <button type="button" onClick={() => show(null)}>
        {mend.close}
      </button>
    </p>
  );
}
