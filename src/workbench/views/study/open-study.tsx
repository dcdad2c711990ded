import { useStore } from "../use-store.ts";
import type { ViewProps } from "../view.ts";
import { FileButton } from "./file-button.tsx";
import { FileForms } from "./file-form.tsx";
import { FileTable } from "./file-table.tsx";
import { IssueTable } from "./issue-table.tsx";

/** The open study: its files, and what is wrong in them. */
export function OpenStudy({ store, words }: ViewProps) {
  const shown = useStore(store, (state) => state.shown);
  const reading = useStore(store, (state) => state.reading);
  const folder = useStore(store, ({ history }) => history.present.title);
  const { open } = words.study;
  const unreadable = reading?.readable === false;
  const title = shown?.evaluation.study.title ?? folder;
  return (
    <main>
      <p class="over">{open.over}</p>
      <h1>{unreadable ? open.notReadable : open.readable(title)}</h1>
      {unreadable && <p class="sub">{open.notReadableText}</p>}
      {unreadable && <IssueTable store={store} words={words} />}
      <section>
        <h2>{open.files}</h2>
        <FileTable store={store} words={words} />
        <p class="buttons">
          <FileButton label={open.add} open={(files) => void store.actions.openFiles(files)} />
          <button type="button" onClick={() => store.actions.closeStudy()}>
            {open.close}
          </button>
        </p>
      </section>
      <FileForms store={store} words={words} />
      {!unreadable && reading !== null && <IssueTable store={store} words={words} />}
    </main>
  );
}
