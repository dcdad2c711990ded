import type { ViewProps } from "../view.ts";
import { FileButton } from "./file-button.tsx";
import { TypedTable } from "./typed-table.tsx";

/** The first page: the ways to begin. */
export function Begin({ store, words }: ViewProps) {
  const { begin } = words.study;
  const open = (files: Parameters<typeof store.actions.openFiles>[0]) => void store.actions.openFiles(files);
  return (
    <main class="begin">
      <p class="over">{begin.over}</p>
      <h1>{begin.heading}</h1>
      <p class="sub">{begin.sub}</p>
      <div class="ways">
        <div>
          <section>
            <h2>{begin.files}</h2>
            <p>{begin.filesText}</p>
            <p class="buttons">
              <FileButton folder label={begin.folder} open={open} />
              <FileButton label={begin.loose} open={open} />
            </p>
          </section>
          <section>
            <h2>{begin.demo}</h2>
            <p>{begin.demoText}</p>
            <p class="buttons">
              <button type="button" onClick={() => void store.actions.openDemo()}>
                {begin.openDemo}
              </button>
            </p>
          </section>
        </div>
        <TypedTable store={store} words={words} />
      </div>
    </main>
  );
}
